package cutaway.acoustics.box;

/**
 * Radiation impedance of a rigid circular piston in an infinite baffle, over ρcS.
 *
 * <p>R₁(x) = 1 − 2J₁(x)/x, X₁(x) = 2H₁(x)/x with x = 2ka (M. Abramowitz and I. A. Stegun, chapters
 * 9 and 12). Power series up to x = 18, relative error below 1e-8; beyond it Hankel's and the
 * Struve function's asymptotic series, absolute error below 1e-8.
 */
public final class PistonRadiation {
  private static final double SERIES = 18;

  private PistonRadiation() {}

  /** Resistance over ρcS at x = 2ka, x ≥ 0. */
  public static double resistance(double x) {
    if (x > SERIES) {
      return 1 - 2 * besselAsymptotic(x)[0] / x;
    }
    // 1 − 2J₁(x)/x = −Σ_{k≥1} (−x²/4)^k / (k! (k+1)!)
    double term = 1;
    double sum = 0;
    for (int k = 1; k < 80; k++) {
      term *= -x * x / 4 / ((double) k * (k + 1));
      sum -= term;
    }
    return sum;
  }

  /** Reactance over ρcS at x = 2ka, x ≥ 0. */
  public static double reactance(double x) {
    if (x == 0) {
      return 0;
    }
    if (x > SERIES) {
      // H₁ = Y₁ + (2/π)(1 + 1/x² − 3/x⁴ + 45/x⁶ − 1575/x⁸ + …)
      double i = 1 / (x * x);
      double rest = 1 + i * (1 - i * (3 - i * (45 - i * (1575 - i * 99225))));
      return 2 * (besselAsymptotic(x)[1] + 2 / Math.PI * rest) / x;
    }
    // H₁(x) = (2/π) Σ_{k≥1} (−1)^{k+1} x^{2k} / Π (2j−1)(2j+1)
    double term = -1;
    double sum = 0;
    for (int k = 1; k < 90; k++) {
      term *= -x * x / ((2.0 * k - 1) * (2 * k + 1));
      sum += term;
    }
    return 4 / (Math.PI * x) * sum;
  }

  /** J₁ and Y₁ for large x by Hankel's expansion. */
  private static double[] besselAsymptotic(double x) {
    double p = 0;
    double q = 0;
    double term = 1;
    for (int k = 0; k < 16; k++) {
      if (k > 0) {
        term *= (4 - (2.0 * k - 1) * (2 * k - 1)) / (k * 8 * x);
      }
      int sign = (k / 2) % 2 == 0 ? 1 : -1;
      if (k % 2 == 0) {
        p += sign * term;
      } else {
        q += sign * term;
      }
    }
    double phase = x - 0.75 * Math.PI;
    double scale = Math.sqrt(2 / (Math.PI * x));
    return new double[] {
      scale * (p * Math.cos(phase) - q * Math.sin(phase)),
      scale * (p * Math.sin(phase) + q * Math.cos(phase))
    };
  }
}
