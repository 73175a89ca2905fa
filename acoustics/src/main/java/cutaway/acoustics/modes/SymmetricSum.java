package cutaway.acoustics.modes;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.ejml.data.DMatrixRMaj;
import org.ejml.data.DMatrixSparseCSC;
import org.ejml.data.DMatrixSparseTriplet;
import org.ejml.dense.row.CommonOps_DDRM;
import org.ejml.ops.DConvertMatrixStruct;
import org.ejml.sparse.csc.CommonOps_DSCC;

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

  /** Which unknowns it says anything of. */
  public boolean[] touched() {
    boolean[] out = new boolean[size];
    for (int[] dofs : elements) {
      for (int dof : dofs) {
        out[dof] = true;
      }
    }
    return out;
  }

  /**
   * The same of other unknowns.
   *
   * @param numbers new number of each unknown, below zero for those that are held
   * @param newSize how many there are
   */
  public SymmetricSum renumbered(int[] numbers, int newSize) {
    SymmetricSum out = new SymmetricSum(newSize);
    for (int e = 0; e < elements.size(); e++) {
      int[] dofs = Arrays.stream(elements.get(e)).map(d -> numbers[d]).toArray();
      out.add(dofs, matrices.get(e), centres.get(e));
    }
    return out;
  }

  /** A − B, without the elements that both have in common. */
  public SymmetricSum minus(SymmetricSum b) {
    SymmetricSum out = new SymmetricSum(size);
    int both = Math.min(elements.size(), b.elements.size());
    for (int e = 0; e < Math.max(elements.size(), b.elements.size()); e++) {
      if (e < both && Arrays.equals(elements.get(e), b.elements.get(e))) {
        double[] its = matrices.get(e);
        double[] others = b.matrices.get(e);
        if (its != others) {
          double[] difference = new double[its.length];
          Arrays.setAll(difference, i -> its[i] - others[i]);
          out.add(elements.get(e), difference, centres.get(e));
        }
      } else {
        if (e < elements.size()) {
          out.add(elements.get(e), matrices.get(e), centres.get(e));
        }
        if (e < b.elements.size()) {
          double[] less = Arrays.stream(b.matrices.get(e)).map(x -> -x).toArray();
          out.add(b.elements.get(e), less, b.centres.get(e));
        }
      }
    }
    return out;
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

  /** Adds a column of A to y. */
  public void addColumn(int column, double[] y) {
    for (int e = 0; e < elements.size(); e++) {
      int[] dofs = elements.get(e);
      double[] a = matrices.get(e);
      for (int k = 0; k < dofs.length; k++) {
        if (dofs[k] == column) {
          for (int i = 0; i < dofs.length; i++) {
            y[dofs[i]] += a[i * dofs.length + k];
          }
        }
      }
    }
  }

  /** xᵀAx. */
  public double quadratic(double[] x) {
    double out = 0;
    for (int e = 0; e < elements.size(); e++) {
      int[] dofs = elements.get(e);
      double[] a = matrices.get(e);
      for (int i = 0; i < dofs.length; i++) {
        double sum = 0;
        int row = i * dofs.length;
        for (int k = 0; k < dofs.length; k++) {
          sum += a[row + k] * x[dofs[k]];
        }
        out += x[dofs[i]] * sum;
      }
    }
    return out;
  }

  /**
   * VᵀAV, element by element.
   *
   * @param vectors columns of V
   */
  DMatrixRMaj projected(double[][] vectors) {
    // two sums whatever the machine, so that the same vectors give the same bits
    DMatrixRMaj[] halves =
        IntStream.range(0, 2)
            .parallel()
            .mapToObj(half -> projected(vectors, half, 2))
            .toArray(DMatrixRMaj[]::new);
    CommonOps_DDRM.addEquals(halves[0], halves[1]);
    return halves[0];
  }

  private DMatrixRMaj projected(double[][] vectors, int first, int step) {
    int m = vectors.length;
    DMatrixRMaj out = new DMatrixRMaj(m, m);
    for (int e = first; e < elements.size(); e += step) {
      int[] dofs = elements.get(e);
      DMatrixRMaj own = new DMatrixRMaj(m, dofs.length);
      for (int i = 0; i < m; i++) {
        for (int k = 0; k < dofs.length; k++) {
          own.data[i * dofs.length + k] = vectors[i][dofs[k]];
        }
      }
      DMatrixRMaj led = new DMatrixRMaj(m, dofs.length);
      CommonOps_DDRM.mult(own, DMatrixRMaj.wrap(dofs.length, dofs.length, matrices.get(e)), led);
      CommonOps_DDRM.multAddTransB(led, own, out);
    }
    return out;
  }

  /**
   * A + D with what adds to the same place in one number, without zeros.
   *
   * @param diagonal D
   */
  DMatrixSparseCSC compressed(double[] diagonal) {
    int most = matrices.stream().mapToInt(m -> m.length).sum() + size;
    DMatrixSparseTriplet entries = new DMatrixSparseTriplet(size, size, most);
    for (int i = 0; i < size; i++) {
      entries.addItem(i, i, diagonal[i]);
    }
    for (int e = 0; e < elements.size(); e++) {
      int[] dofs = elements.get(e);
      double[] a = matrices.get(e);
      for (int i = 0; i < a.length; i++) {
        if (a[i] != 0) {
          entries.addItem(dofs[i / dofs.length], dofs[i % dofs.length], a[i]);
        }
      }
    }
    DMatrixSparseCSC out = DConvertMatrixStruct.convert(entries, (DMatrixSparseCSC) null);
    CommonOps_DSCC.duplicatesAdd(out, null);
    return out;
  }

  /**
   * Factors A + D.
   *
   * @param diagonal D
   * @throws IllegalArgumentException where the sum is not positive definite
   */
  CholeskyFactor factor(double[] diagonal) {
    return CholeskyFactor.of(elements, matrices, centres, diagonal);
  }
}
