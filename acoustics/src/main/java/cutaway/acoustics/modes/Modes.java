package cutaway.acoustics.modes;

import java.util.Arrays;
import java.util.Optional;
import org.ejml.data.DMatrixSparseCSC;
import org.ejml.sparse.csc.mult.MatrixVectorMult_DSCC;

/**
 * Lowest modes of K x = λ M x, K symmetric without negative eigenvalues, M positive definite.
 *
 * <p>Found by {@link Lanczos} on (K + sM)⁻¹M with a Cholesky factor of K + sM.
 */
public final class Modes {
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
    return lowest(stiffness, mass, shift, count, count);
  }

  /**
   * The same where the higher modes only lend their stiffness to the lower.
   *
   * @param exact how many are found as well as ever; the others are some thousandths too high
   */
  public static Modes lowest(
      SymmetricSum stiffness, double[] mass, double shift, int count, int exact) {
    int n = stiffness.size();
    double[] shifted = new double[n];
    for (int i = 0; i < n; i++) {
      shifted[i] = shift * mass[i];
    }
    return lanczos(
        stiffness.factor(shifted),
        (x, y) -> times(mass, x, y),
        n,
        shift,
        new Lanczos.Sought(count, exact));
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
        new Lanczos.Sought(count, count));
  }

  private static void times(double[] mass, double[] x, double[] y) {
    for (int i = 0; i < mass.length; i++) {
      y[i] = mass[i] * x[i];
    }
  }

  private static Modes lanczos(
      CholeskyFactor factor, Lanczos.Mass mass, int n, double shift, Lanczos.Sought sought) {
    if (sought.count() < 1 || sought.count() >= n) {
      throw new IllegalArgumentException(sought.count() + " modes of " + n + " unknowns");
    }
    Lanczos.Found found = Lanczos.largest(factor, mass, n, sought);
    double[] values = Arrays.stream(found.theta()).map(theta -> 1 / theta - shift).toArray();
    for (double[] shape : found.vectors()) {
      normalise(shape, mass);
    }
    return new Modes(values, found.vectors(), Optional.of(factor));
  }

  /** To xᵀMx = 1, and the largest entry positive. */
  private static void normalise(double[] x, Lanczos.Mass mass) {
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

  /**
   * Replaces each of several loads b by its static response (K + sM)⁻¹ b.
   *
   * @throws java.util.NoSuchElementException where the modes were found within given vectors
   */
  public void solveShifted(double[][] loads) {
    factor.orElseThrow().solve(loads);
  }

  /** Numbers in the factor that are not zero, for benchmarks. */
  public int factorNonZeros() {
    return factor.map(CholeskyFactor::nonZeros).orElse(0);
  }
}
