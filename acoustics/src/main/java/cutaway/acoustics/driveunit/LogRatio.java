package cutaway.acoustics.driveunit;

/**
 * Logarithm of a model's impedance over a measured curve, by a series where the two are alike, as
 * they are in a good fit, and by the library's functions elsewhere. Error below 1e-16 in the
 * series.
 */
final class LogRatio {
  /** Square of the argument up to which eleven terms of the series reach a double's precision. */
  private static final double SERIES_LIMIT = 0.04;

  private final double[] re;
  private final double[] im;
  private final double[] inverseSquare;
  private final double[] square;

  /** ln |Z/Z_measured|. */
  final double[] magnitude;

  /** The angle between them, rad. */
  final double[] angle;

  private final double[] ratio;
  private final double[] across;
  private final double[] argument;

  LogRatio(ImpedanceCurve curve) {
    int n = curve.size();
    re = new double[n];
    im = new double[n];
    inverseSquare = new double[n];
    for (int i = 0; i < n; i++) {
      re[i] = curve.re(i);
      im[i] = curve.im(i);
      inverseSquare[i] = 1 / (re[i] * re[i] + im[i] * im[i]);
    }
    square = new double[n];
    ratio = new double[n];
    across = new double[n];
    argument = new double[n];
    magnitude = new double[n];
    angle = new double[n];
  }

  /** Compares; z holds real and imaginary parts, Ω. */
  void of(double[][] z) {
    magnitudes(z[0], z[1]);
    angles(z[0], z[1]);
  }

  private void magnitudes(double[] zRe, double[] zIm) {
    for (int i = 0; i < ratio.length; i++) {
      ratio[i] = (zRe[i] * zRe[i] + zIm[i] * zIm[i]) * inverseSquare[i];
    }
    // ln x = 2 artanh t, t = (x − 1)/(x + 1)
    for (int i = 0; i < ratio.length; i++) {
      argument[i] = (ratio[i] - 1) / (ratio[i] + 1);
    }
    series(1, magnitude);
    for (int i = 0; i < magnitude.length; i++) {
      if (!(argument[i] * argument[i] < SERIES_LIMIT)) {
        magnitude[i] = 0.5 * Math.log(ratio[i]);
      }
    }
  }

  private void angles(double[] zRe, double[] zIm) {
    double[] along = ratio;
    for (int i = 0; i < along.length; i++) {
      along[i] = zRe[i] * re[i] + zIm[i] * im[i];
    }
    for (int i = 0; i < across.length; i++) {
      across[i] = zIm[i] * re[i] - zRe[i] * im[i];
    }
    for (int i = 0; i < across.length; i++) {
      argument[i] = across[i] / along[i];
    }
    series(-1, angle);
    for (int i = 0; i < angle.length; i++) {
      if (!(argument[i] * argument[i] < SERIES_LIMIT) || !(along[i] > 0)) {
        angle[i] = Math.atan2(across[i], along[i]);
      }
    }
  }

  /**
   * Writes artanh t (sign 1) or arctan t (sign −1) of the arguments: t (1 + s/3 + s²/5 + …), s =
   * ±t², in passes short enough to become vector instructions.
   */
  private void series(int sign, double[] out) {
    for (int i = 0; i < out.length; i++) {
      square[i] = sign * argument[i] * argument[i];
    }
    for (int i = 0; i < out.length; i++) {
      out[i] = 1.0 / 21 + square[i] * (1.0 / 23);
    }
    horner(1.0 / 19, 1.0 / 17, 1.0 / 15, out);
    horner(1.0 / 13, 1.0 / 11, 1.0 / 9, out);
    horner(1.0 / 7, 1.0 / 5, 1.0 / 3, out);
    for (int i = 0; i < out.length; i++) {
      out[i] = argument[i] * (1 + square[i] * out[i]);
    }
  }

  private void horner(double a, double b, double c, double[] out) {
    for (int i = 0; i < out.length; i++) {
      out[i] = c + square[i] * (b + square[i] * (a + square[i] * out[i]));
    }
  }
}
