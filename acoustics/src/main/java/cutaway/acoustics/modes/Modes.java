package cutaway.acoustics.modes;

import java.util.Arrays;
import java.util.Optional;
import java.util.Random;
import java.util.stream.IntStream;
import org.ejml.data.DMatrixSparseCSC;
import org.ejml.sparse.csc.mult.MatrixVectorMult_DSCC;
import org.netlib.arpack.Dsaupd;
import org.netlib.arpack.Dseupd;
import org.netlib.util.doubleW;
import org.netlib.util.intW;

/**
 * Lowest modes of K x = λ M x, K symmetric without negative eigenvalues, M positive definite.
 *
 * <p>Implicitly restarted Lanczos on (K + sM)⁻¹ M (R. B. Lehoucq, D. C. Sorensen and C. Yang,
 * ARPACK Users' Guide (1998), from memory), with a Cholesky factor of K + sM.
 */
public final class Modes {
  /** The Fortran routines that ARPACK was translated from keep their state between calls. */
  private static final Object ONE_AT_A_TIME = new Object();

  private static final int SHIFT_INVERT = 3;

  /**
   * Lanczos vectors over the modes that are wanted: more cost more to keep apart than they save.
   */
  private static final double VECTORS = 1.5;

  private static final int MOST_RESTARTS = 300;
  private static final int DONE = 99;
  private static final int TIMES_MASS = 2;

  private final double[] eigenvalues;
  private final double[][] shapes;
  private final Optional<CholeskyFactor> factor;

  Modes(double[] eigenvalues, double[][] shapes, Optional<CholeskyFactor> factor) {
    this.eigenvalues = eigenvalues;
    this.shapes = shapes;
    this.factor = factor;
  }

  /**
   * Solves.
   *
   * @param stiffness K
   * @param mass diagonal of M, each above zero
   * @param shift s, above zero where K is singular; of the size of the lowest eigenvalues
   * @param count how many modes, less than the number of unknowns
   */
  public static Modes lowest(SymmetricSum stiffness, double[] mass, double shift, int count) {
    int n = stiffness.size();
    double[] shifted = new double[n];
    for (int i = 0; i < n; i++) {
      shifted[i] = shift * mass[i];
    }
    return lanczos(stiffness.factor(shifted), (x, y) -> times(mass, x, y), n, shift, count);
  }

  /**
   * The same with a mass that is more than its diagonal.
   *
   * @param further what is added to the diagonal
   */
  public static Modes lowest(
      SymmetricSum stiffness, double[] mass, SymmetricSum further, double shift, int count) {
    int n = stiffness.size();
    double[] shifted = new double[n];
    for (int i = 0; i < n; i++) {
      shifted[i] = shift * mass[i];
    }
    DMatrixSparseCSC both = further.compressed(mass);
    return lanczos(
        stiffness.plus(further, shift).factor(shifted),
        (x, y) -> MatrixVectorMult_DSCC.mult(both, x, 0, y, 0),
        n,
        shift,
        count);
  }

  /** Writes y = M x. */
  private interface Mass {
    void times(double[] x, double[] y);
  }

  private static void times(double[] mass, double[] x, double[] y) {
    for (int i = 0; i < mass.length; i++) {
      y[i] = mass[i] * x[i];
    }
  }

  private static Modes lanczos(CholeskyFactor factor, Mass mass, int n, double shift, int count) {
    if (count < 1 || count >= n) {
      throw new IllegalArgumentException(count + " modes of " + n + " unknowns");
    }
    synchronized (ONE_AT_A_TIME) {
      return unguarded(factor, mass, n, shift, count);
    }
  }

  private static Modes unguarded(CholeskyFactor factor, Mass mass, int n, double shift, int count) {
    int vectors = Math.min(n, Math.max((int) (VECTORS * count), count + 12));
    intW ido = new intW(0);
    intW wanted = new intW(count);
    doubleW tolerance = new doubleW(1e-7);
    double[] residual = start(n);
    double[] v = new double[n * vectors];
    int[] settings = {1, 0, MOST_RESTARTS, 1, 0, 0, SHIFT_INVERT, 0, 0, 0, 0};
    int[] at = new int[11];
    double[] work = new double[3 * n];
    double[] little = new double[vectors * (vectors + 8)];
    intW info = new intW(1);
    double[] x = new double[n];
    double[] y = new double[n];
    while (ido.val != DONE) {
      Dsaupd.dsaupd(
          ido,
          "G",
          n,
          "LM",
          count,
          tolerance,
          residual,
          0,
          vectors,
          v,
          0,
          n,
          settings,
          0,
          at,
          0,
          work,
          0,
          little,
          0,
          little.length,
          info);
      if (ido.val == TIMES_MASS) {
        System.arraycopy(work, at[0] - 1, x, 0, n);
        mass.times(x, y);
        System.arraycopy(y, 0, work, at[1] - 1, n);
      } else if (ido.val == 1) {
        System.arraycopy(work, at[2] - 1, x, 0, n);
        factor.solve(x, x);
        System.arraycopy(x, 0, work, at[1] - 1, n);
      } else if (ido.val == -1) {
        System.arraycopy(work, at[0] - 1, y, 0, n);
        mass.times(y, x);
        factor.solve(x, x);
        System.arraycopy(x, 0, work, at[1] - 1, n);
      }
    }
    if (info.val != 0) {
      throw new IllegalStateException("Lanczos stopped with code " + info.val);
    }
    double[] found = new double[count];
    Dseupd.dseupd(
        true,
        "A",
        new boolean[vectors],
        0,
        found,
        0,
        v,
        0,
        n,
        -shift,
        "G",
        n,
        "LM",
        wanted,
        tolerance.val,
        residual,
        0,
        vectors,
        v,
        0,
        n,
        settings,
        0,
        at,
        0,
        work,
        0,
        little,
        0,
        little.length,
        info);
    if (info.val != 0) {
      throw new IllegalStateException("Lanczos gave no vectors: code " + info.val);
    }
    int[] order =
        IntStream.range(0, count)
            .boxed()
            .sorted((a, b) -> Double.compare(found[a], found[b]))
            .mapToInt(Integer::intValue)
            .toArray();
    double[] values = new double[count];
    double[][] shapes = new double[count][];
    for (int i = 0; i < count; i++) {
      values[i] = found[order[i]];
      shapes[i] = Arrays.copyOfRange(v, order[i] * n, (order[i] + 1) * n);
      normalise(shapes[i], mass);
    }
    return new Modes(values, shapes, Optional.of(factor));
  }

  /** Always the same, so that the same matrices give the same bits. */
  private static double[] start(int n) {
    Random random = new Random(1);
    double[] out = new double[n];
    for (int i = 0; i < n; i++) {
      out[i] = random.nextDouble() - 0.5;
    }
    return out;
  }

  /** To xᵀMx = 1, and the largest entry positive. */
  private static void normalise(double[] x, Mass mass) {
    double[] y = new double[x.length];
    mass.times(x, y);
    double square = 0;
    int largest = 0;
    for (int i = 0; i < x.length; i++) {
      square += x[i] * y[i];
      // by a margin, so that rounding does not choose among equals
      largest = Math.abs(x[i]) > 1.0001 * Math.abs(x[largest]) ? i : largest;
    }
    double scale = Math.signum(x[largest]) / Math.sqrt(square);
    for (int i = 0; i < x.length; i++) {
      x[i] *= scale;
    }
  }

  /** Number of modes. */
  public int size() {
    return eigenvalues.length;
  }

  /** λ of a mode, lowest first. */
  public double eigenvalue(int mode) {
    return eigenvalues[mode];
  }

  /** Shape of a mode, n, xᵀMx = 1; not to be changed. */
  public double[] shape(int mode) {
    return shapes[mode];
  }

  /**
   * Writes the static response (K + sM)⁻¹ b; x may be b.
   *
   * @throws java.util.NoSuchElementException where the modes were found within given vectors
   */
  public void solveShifted(double[] b, double[] x) {
    factor.orElseThrow().solve(b, x);
  }

  /** Numbers in the factor that are not zero, for benchmarks. */
  public int factorNonZeros() {
    return factor.map(CholeskyFactor::nonZeros).orElse(0);
  }
}
