package cutaway.acoustics.modes;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.RecursiveTask;
import java.util.stream.IntStream;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;
import org.ejml.dense.row.factory.DecompositionFactory_DDRM;

/**
 * Cholesky factor of a sum of element matrices by fronts (I. S. Duff and J. K. Reid, ACM Trans.
 * Math. Softw. 9 (1983), from memory): each part of the dissection is a dense matrix from which its
 * own unknowns are eliminated; what they leave for its boundary goes to the part it belongs to.
 *
 * <p>Dense matrices are multiplied and factored by EJML; halves are worked on side by side.
 */
final class CholeskyFactor {
  /** In the order of elimination. */
  private final List<Front> fronts = new ArrayList<>();

  private final int size;

  /** Length of the largest front's longer part. */
  private int largest;

  private int numbers;

  /**
   * An eliminated front.
   *
   * @param part whose it is
   * @param lower factor of the pivots' block
   * @param coupling lower⁻¹ × the block of pivots and boundary
   * @param rest what is left for the boundary
   */
  private record Front(
      Dissection.Part part, DMatrixRMaj lower, DMatrixRMaj coupling, DMatrixRMaj rest) {}

  /** Where element matrices and the diagonal come from. */
  @SuppressWarnings("ArrayRecordComponent") // never compared
  private record Source(List<int[]> elements, List<double[]> matrices, double[] diagonal) {}

  private CholeskyFactor(int size) {
    this.size = size;
  }

  /**
   * Factors Σ elements + diagonal.
   *
   * @throws IllegalArgumentException where the sum is not positive definite
   */
  static CholeskyFactor of(
      List<int[]> elements, List<double[]> matrices, List<double[]> centres, double[] diagonal) {
    CholeskyFactor factor = new CholeskyFactor(diagonal.length);
    Dissection.Part whole = Dissection.of(diagonal.length, elements, centres);
    Tree tree = new Elimination(whole, new Source(elements, matrices, diagonal)).invoke();
    collect(tree, factor.fronts);
    factor.largest =
        factor.fronts.stream()
            .mapToInt(f -> Math.max(f.part().pivots().length, f.part().boundary().length))
            .max()
            .orElse(0);
    factor.numbers = factor.counted();
    return factor;
  }

  /** A front with those it was made from. */
  private record Tree(Front front, List<Tree> halves) {}

  private static void collect(Tree tree, List<Front> fronts) {
    tree.halves().forEach(half -> collect(half, fronts));
    fronts.add(slim(tree.front()));
  }

  /** Without what was left for the boundary, which has been handed on. */
  private static Front slim(Front f) {
    return new Front(f.part(), f.lower(), f.coupling(), new DMatrixRMaj(0, 0));
  }

  private static final class Elimination extends RecursiveTask<Tree> {
    private static final long serialVersionUID = 1L;
    private final transient Dissection.Part part;
    private final transient Source source;

    Elimination(Dissection.Part part, Source source) {
      this.part = part;
      this.source = source;
    }

    @Override
    protected Tree compute() {
      List<Elimination> tasks =
          part.halves().stream().map(half -> new Elimination(half, source)).toList();
      invokeAll(tasks);
      List<Tree> halves = tasks.stream().map(Elimination::join).toList();
      return new Tree(eliminate(halves), halves);
    }

    private Front eliminate(List<Tree> halves) {
      int p = part.pivots().length;
      int b = part.boundary().length;
      DMatrixRMaj own = new DMatrixRMaj(p, p);
      DMatrixRMaj coupling = new DMatrixRMaj(p, b);
      DMatrixRMaj rest = new DMatrixRMaj(b, b);
      Places places = new Places(part, source.diagonal().length);
      if (part.element() >= 0) {
        int[] dofs = source.elements().get(part.element());
        places.add(dofs, source.matrices().get(part.element()), own, coupling, rest);
      }
      for (Tree half : halves) {
        places.add(half.front().part().boundary(), half.front().rest().data, own, coupling, rest);
      }
      for (int i = 0; i < p; i++) {
        own.add(i, i, source.diagonal()[part.pivots()[i]]);
      }
      if (p == 0) {
        return new Front(part, own, coupling, rest);
      }
      var cholesky = DecompositionFactory_DDRM.chol(p, true);
      if (!cholesky.decompose(own)) {
        throw new IllegalArgumentException("the matrix is not positive definite");
      }
      DMatrixRMaj lower = cholesky.getT(null);
      substitute(lower, coupling);
      DMatrixRMaj taken = new DMatrixRMaj(b, b);
      CommonOps_DDRM.multInner(coupling, taken);
      CommonOps_DDRM.subtractEquals(rest, taken);
      return new Front(part, lower, coupling, rest);
    }
  }

  /** Where a part's unknowns stand in its front. */
  private static final class Places {
    private final int pivots;
    private final int[] at;

    Places(Dissection.Part part, int size) {
      pivots = part.pivots().length;
      at = new int[size];
      for (int i = 0; i < pivots; i++) {
        at[part.pivots()[i]] = i;
      }
      for (int i = 0; i < part.boundary().length; i++) {
        at[part.boundary()[i]] = pivots + i;
      }
    }

    /** Adds a symmetric matrix over some unknowns to the blocks of the front. */
    void add(int[] dofs, double[] matrix, DMatrixRMaj own, DMatrixRMaj coupling, DMatrixRMaj rest) {
      int n = dofs.length;
      for (int i = 0; i < n; i++) {
        int row = at[dofs[i]];
        for (int k = 0; k < n; k++) {
          int column = at[dofs[k]];
          double value = matrix[i * n + k];
          if (row < pivots && column < pivots) {
            own.data[row * pivots + column] += value;
          } else if (row < pivots) {
            coupling.data[row * coupling.numCols + column - pivots] += value;
          } else if (column >= pivots) {
            rest.data[(row - pivots) * rest.numCols + column - pivots] += value;
          }
        }
      }
    }
  }

  /** Replaces B by L⁻¹ B, row by row, in loops that become vector instructions. */
  private static void substitute(DMatrixRMaj lower, DMatrixRMaj b) {
    int n = lower.numRows;
    int width = b.numCols;
    double[] row = new double[width];
    double[] other = new double[width];
    for (int j = 0; j < n; j++) {
      System.arraycopy(b.data, j * width, row, 0, width);
      for (int i = 0; i < j; i++) {
        double factor = lower.data[j * n + i];
        if (factor != 0) {
          System.arraycopy(b.data, i * width, other, 0, width);
          subtract(row, factor, other);
        }
      }
      double inverse = 1 / lower.data[j * n + j];
      for (int c = 0; c < width; c++) {
        b.data[j * width + c] = row[c] * inverse;
      }
    }
  }

  private static void subtract(double[] to, double factor, double[] from) {
    for (int c = 0; c < to.length; c++) {
      to[c] -= factor * from[c];
    }
  }

  /** Writes the solution of A x = b; x may be b. */
  void solve(double[] b, double[] x) {
    if (b != x) {
      System.arraycopy(b, 0, x, 0, size);
    }
    solve(x, new double[size], new double[size]);
  }

  /** Replaces each of several right sides by its solution. */
  void solve(double[][] sides) {
    IntStream.range(0, (sides.length + 2) / 3)
        .parallel()
        .forEach(
            third -> {
              int first = 3 * third;
              solve(
                  sides[first],
                  first + 1 < sides.length ? sides[first + 1] : new double[size],
                  first + 2 < sides.length ? sides[first + 2] : new double[size]);
            });
  }

  /** Three at a time: the factor comes through the processor once for all of them. */
  private void solve(double[] x, double[] y, double[] z) {
    double[][] sides = {x, y, z};
    double[][] own = new double[3][largest];
    double[][] others = new double[3][largest];
    for (Front front : fronts) {
      forward(front, sides, own, others);
    }
    for (int i = fronts.size() - 1; i >= 0; i--) {
      backward(fronts.get(i), sides, own, others);
    }
  }

  /** x_p ← L⁻¹ x_p, then x_b ← x_b − Cᵀ x_p. */
  private static void forward(Front front, double[][] x, double[][] own, double[][] others) {
    int[] pivots = front.part().pivots();
    int[] boundary = front.part().boundary();
    double[] l = front.lower().data;
    double[] c = front.coupling().data;
    int p = pivots.length;
    int b = boundary.length;
    double[] sums = new double[3];
    for (double[] its : others) {
      Arrays.fill(its, 0, b, 0);
    }
    for (int i = 0; i < p; i++) {
      Dot.three(l, i * p, own[0], own[1], own[2], i, sums);
      double inverse = 1 / l[i * p + i];
      for (int r = 0; r < 3; r++) {
        own[r][i] = (x[r][pivots[i]] - sums[r]) * inverse;
        x[r][pivots[i]] = own[r][i];
        add(own[r][i], c, i * b, others[r], b);
      }
    }
    for (int r = 0; r < 3; r++) {
      for (int k = 0; k < b; k++) {
        x[r][boundary[k]] -= others[r][k];
      }
    }
  }

  /** x_p ← L⁻ᵀ (x_p − C x_b). */
  private static void backward(Front front, double[][] x, double[][] own, double[][] others) {
    int[] pivots = front.part().pivots();
    int[] boundary = front.part().boundary();
    double[] l = front.lower().data;
    double[] c = front.coupling().data;
    int p = pivots.length;
    int b = boundary.length;
    double[] sums = new double[3];
    for (int r = 0; r < 3; r++) {
      for (int k = 0; k < b; k++) {
        others[r][k] = x[r][boundary[k]];
      }
    }
    for (int i = 0; i < p; i++) {
      Dot.three(c, i * b, others[0], others[1], others[2], b, sums);
      for (int r = 0; r < 3; r++) {
        own[r][i] = x[r][pivots[i]] - sums[r];
      }
    }
    for (int i = p - 1; i >= 0; i--) {
      double inverse = 1 / l[i * p + i];
      for (int r = 0; r < 3; r++) {
        own[r][i] *= inverse;
        add(-own[r][i], l, i * p, own[r], i);
        x[r][pivots[i]] = own[r][i];
      }
    }
  }

  /** To the first of some numbers a multiple of others. */
  private static void add(double factor, double[] from, int first, double[] to, int count) {
    for (int k = 0; k < count; k++) {
      to[k] += factor * from[first + k];
    }
  }

  /** Numbers in the factor. */
  int nonZeros() {
    return numbers;
  }

  private int counted() {
    return fronts.stream()
        .mapToInt(f -> f.lower().numRows * (f.lower().numRows + 1) / 2 + f.coupling().data.length)
        .sum();
  }
}
