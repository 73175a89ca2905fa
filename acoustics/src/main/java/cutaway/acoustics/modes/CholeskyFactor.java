package cutaway.acoustics.modes;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.RecursiveTask;
import java.util.stream.Stream;
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
  /** Fewer numbers than this are not worth a second thread. */
  private static final int WORTHWHILE = 200_000;

  /**
   * Works on second halves and on nothing else: a solve goes on within routines that must not be
   * entered twice, so its thread must not help out with other tasks while it waits.
   */
  private static final ExecutorService SECOND =
      Executors.newSingleThreadExecutor(
          work -> {
            Thread thread = new Thread(work, "second half");
            thread.setDaemon(true);
            return thread;
          });

  /** One half in the order of elimination, then the other, then what both share. */
  private final List<Front> first = new ArrayList<>();

  private final List<Front> second = new ArrayList<>();
  private final List<Front> last = new ArrayList<>();

  private final int size;
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
    if (tree.halves().size() == 2) {
      collect(tree.halves().get(0), factor.first);
      collect(tree.halves().get(1), factor.second);
      factor.last.add(slim(tree.front()));
    } else {
      collect(tree, factor.last);
    }
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
    if (second.isEmpty() || nonZeros() < WORTHWHILE) {
      Stream.of(first, second, last).forEach(half -> forward(half, x));
      Stream.of(last, second, first).forEach(half -> backward(half, x));
      return;
    }
    double[] shared = x.clone();
    double[] before = x.clone();
    Future<?> task = SECOND.submit(() -> forward(second, shared));
    forward(first, x);
    await(task);
    // both halves took from what they share; the rest of each is its own
    for (Front front : last) {
      for (int i : front.part().pivots()) {
        x[i] += shared[i] - before[i];
      }
    }
    for (Front front : second) {
      for (int i : front.part().pivots()) {
        x[i] = shared[i];
      }
    }
    forward(last, x);
    backward(last, x);
    task = SECOND.submit(() -> backward(second, x));
    backward(first, x);
    await(task);
  }

  private static void await(Future<?> task) {
    try {
      task.get();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("a solve was interrupted", e);
    } catch (ExecutionException e) {
      throw new IllegalStateException("a solve failed", e.getCause());
    }
  }

  private static void forward(List<Front> fronts, double[] x) {
    for (Front front : fronts) {
      forward(front, x);
    }
  }

  private static void backward(List<Front> fronts, double[] x) {
    for (int i = fronts.size() - 1; i >= 0; i--) {
      backward(fronts.get(i), x);
    }
  }

  /** x_p ← L⁻¹ x_p, then x_b ← x_b − Cᵀ x_p. */
  private static void forward(Front front, double[] x) {
    int[] pivots = front.part().pivots();
    int[] boundary = front.part().boundary();
    double[] l = front.lower().data;
    double[] c = front.coupling().data;
    int p = pivots.length;
    int b = boundary.length;
    double[] own = new double[p];
    double[] others = new double[b];
    for (int i = 0; i < p; i++) {
      own[i] = (x[pivots[i]] - dot(l, i * p, own, i)) / l[i * p + i];
      x[pivots[i]] = own[i];
      for (int k = 0; k < b; k++) {
        others[k] += c[i * b + k] * own[i];
      }
    }
    for (int k = 0; k < b; k++) {
      x[boundary[k]] -= others[k];
    }
  }

  /** x_p ← L⁻ᵀ (x_p − C x_b). */
  private static void backward(Front front, double[] x) {
    int[] pivots = front.part().pivots();
    int[] boundary = front.part().boundary();
    double[] l = front.lower().data;
    double[] c = front.coupling().data;
    int p = pivots.length;
    int b = boundary.length;
    double[] others = new double[b];
    for (int k = 0; k < b; k++) {
      others[k] = x[boundary[k]];
    }
    double[] own = new double[p];
    for (int i = 0; i < p; i++) {
      own[i] = x[pivots[i]] - dot(c, i * b, others, b);
    }
    for (int i = p - 1; i >= 0; i--) {
      own[i] /= l[i * p + i];
      for (int k = 0; k < i; k++) {
        own[k] -= l[i * p + k] * own[i];
      }
      x[pivots[i]] = own[i];
    }
  }

  /** Σ a b in four sums side by side, which a processor adds up at once. */
  private static double dot(double[] a, int first, double[] b, int count) {
    double s0 = 0;
    double s1 = 0;
    double s2 = 0;
    double s3 = 0;
    int k = 0;
    for (; k + 3 < count; k += 4) {
      s0 += a[first + k] * b[k];
      s1 += a[first + k + 1] * b[k + 1];
      s2 += a[first + k + 2] * b[k + 2];
      s3 += a[first + k + 3] * b[k + 3];
    }
    for (; k < count; k++) {
      s0 += a[first + k] * b[k];
    }
    return s0 + s1 + (s2 + s3);
  }

  /** Numbers in the factor. */
  int nonZeros() {
    return numbers;
  }

  private int counted() {
    return Stream.of(first, second, last)
        .flatMap(List::stream)
        .mapToInt(f -> f.lower().numRows * (f.lower().numRows + 1) / 2 + f.coupling().data.length)
        .sum();
  }
}
