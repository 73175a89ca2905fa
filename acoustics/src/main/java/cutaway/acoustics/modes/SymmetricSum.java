package cutaway.acoustics.modes;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.ejml.data.DMatrixSparseCSC;
import org.ejml.sparse.csc.decomposition.chol.CholeskyUpLooking_DSCC;
import org.ejml.sparse.csc.misc.TriangularSolver_DSCC;

/**
 * A large symmetric matrix as the sum of small ones, element by element, with its Cholesky factor.
 */
public final class SymmetricSum {
  private final int size;
  private final List<int[]> elements = new ArrayList<>();
  private final List<double[]> matrices = new ArrayList<>();
  private final List<double[]> centres = new ArrayList<>();

  /**
   * An empty sum.
   *
   * @param size number of unknowns
   */
  public SymmetricSum(int size) {
    this.size = size;
  }

  /**
   * Adds an element.
   *
   * @param dofs its unknowns, n, without repeats; below zero for those that are held and no
   *     unknowns
   * @param matrix n × n, symmetric, row-major; kept
   * @param centre where it lies, m
   */
  public void add(int[] dofs, double[] matrix, double... centre) {
    int[] free = IntStream.range(0, dofs.length).filter(i -> dofs[i] >= 0).toArray();
    if (free.length == dofs.length) {
      elements.add(dofs);
      matrices.add(matrix);
      centres.add(centre);
    } else if (free.length > 0) {
      elements.add(Arrays.stream(free).map(i -> dofs[i]).toArray());
      matrices.add(rows(matrix, dofs.length, free));
      centres.add(centre);
    }
  }

  /** The rows and columns of a square matrix that are listed. */
  private static double[] rows(double[] matrix, int n, int[] kept) {
    double[] out = new double[kept.length * kept.length];
    for (int i = 0; i < kept.length; i++) {
      for (int k = 0; k < kept.length; k++) {
        out[i * kept.length + k] = matrix[kept[i] * n + kept[k]];
      }
    }
    return out;
  }

  /** Number of unknowns. */
  public int size() {
    return size;
  }

  /** A + f B. */
  public SymmetricSum plus(SymmetricSum b, double f) {
    SymmetricSum out = new SymmetricSum(size);
    for (int e = 0; e < elements.size(); e++) {
      out.add(elements.get(e), matrices.get(e), centres.get(e));
    }
    for (int e = 0; e < b.elements.size(); e++) {
      double[] scaled = b.matrices.get(e).clone();
      for (int i = 0; i < scaled.length; i++) {
        scaled[i] *= f;
      }
      out.add(b.elements.get(e), scaled, b.centres.get(e));
    }
    return out;
  }

  /** Writes y = A x. */
  public void multiply(double[] x, double[] y) {
    Arrays.fill(y, 0);
    for (int e = 0; e < elements.size(); e++) {
      int[] dofs = elements.get(e);
      double[] a = matrices.get(e);
      for (int i = 0; i < dofs.length; i++) {
        double sum = 0;
        int row = i * dofs.length;
        for (int k = 0; k < dofs.length; k++) {
          sum += a[row + k] * x[dofs[k]];
        }
        y[dofs[i]] += sum;
      }
    }
  }

  /**
   * Factors A + D.
   *
   * @param diagonal D
   * @throws IllegalArgumentException where the sum is not positive definite
   */
  Factor factor(double[] diagonal) {
    int[] rank = EliminationOrder.of(size, elements, centres);
    CholeskyUpLooking_DSCC cholesky = new CholeskyUpLooking_DSCC();
    if (!cholesky.decompose(upper(rank, diagonal))) {
      throw new IllegalArgumentException("the matrix is not positive definite");
    }
    return new Factor(rank, cholesky.getL());
  }

  /** The upper triangle in the order of elimination. */
  private DMatrixSparseCSC upper(int[] rank, double[] diagonal) {
    int[] unknown = new int[size];
    for (int i = 0; i < size; i++) {
      unknown[rank[i]] = i;
    }
    int[][] holders = holders();
    double[] column = new double[size];
    boolean[] there = new boolean[size];
    int[] rows = new int[size];
    DMatrixSparseCSC out = new DMatrixSparseCSC(size, size, 16 * size);
    for (int c = 0; c < size; c++) {
      int n = 0;
      rows[n++] = c;
      there[c] = true;
      column[c] = diagonal[unknown[c]];
      for (int at = 0; at < holders[unknown[c]].length; at += 2) {
        int e = holders[unknown[c]][at];
        int[] dofs = elements.get(e);
        double[] a = matrices.get(e);
        int row = holders[unknown[c]][at + 1] * dofs.length;
        for (int k = 0; k < dofs.length; k++) {
          int r = rank[dofs[k]];
          if (r <= c && a[row + k] != 0) {
            if (!there[r]) {
              there[r] = true;
              column[r] = 0;
              rows[n++] = r;
            }
            column[r] += a[row + k];
          }
        }
      }
      Arrays.sort(rows, 0, n);
      put(out, c, rows, n, column);
      for (int i = 0; i < n; i++) {
        there[rows[i]] = false;
      }
    }
    out.indicesSorted = true;
    return out;
  }

  private static void put(DMatrixSparseCSC out, int c, int[] rows, int n, double[] column) {
    out.growMaxLength(Math.max(out.nz_length + n, out.nz_values.length), true);
    if (out.nz_values.length < out.nz_length + n) {
      out.growMaxLength(2 * (out.nz_length + n), true);
    }
    for (int i = 0; i < n; i++) {
      out.nz_rows[out.nz_length] = rows[i];
      out.nz_values[out.nz_length++] = column[rows[i]];
    }
    out.col_idx[c + 1] = out.nz_length;
  }

  /** For each unknown its elements and its place in each, as pairs. */
  private int[][] holders() {
    int[] count = new int[size];
    for (int[] dofs : elements) {
      for (int dof : dofs) {
        count[dof] += 2;
      }
    }
    int[][] out = new int[size][];
    for (int i = 0; i < size; i++) {
      out[i] = new int[count[i]];
      count[i] = 0;
    }
    for (int e = 0; e < elements.size(); e++) {
      int[] dofs = elements.get(e);
      for (int k = 0; k < dofs.length; k++) {
        out[dofs[k]][count[dofs[k]]++] = e;
        out[dofs[k]][count[dofs[k]]++] = k;
      }
    }
    return out;
  }

  /** A Cholesky factor. */
  static final class Factor {
    private final int[] rank;
    private final DMatrixSparseCSC lower;
    private final double[] work;

    private Factor(int[] rank, DMatrixSparseCSC lower) {
      this.rank = rank;
      this.lower = lower;
      this.work = new double[rank.length];
    }

    /** Writes the solution of A x = b; x may be b. */
    void solve(double[] b, double[] x) {
      for (int i = 0; i < rank.length; i++) {
        work[rank[i]] = b[i];
      }
      TriangularSolver_DSCC.solveL(lower, work);
      TriangularSolver_DSCC.solveTranL(lower, work);
      for (int i = 0; i < rank.length; i++) {
        x[i] = work[rank[i]];
      }
    }

    /** Numbers in the factor that are not zero. */
    int nonZeros() {
      return lower.nz_length;
    }
  }
}
