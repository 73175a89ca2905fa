package cutaway.acoustics.driveunit;

/**
 * Logarithm near one and angle near zero by short series, where residuals of a good fit lie; the
 * library's functions elsewhere. Absolute error below 2e-16 in the series.
 */
final class SmallArgument {
  private SmallArgument() {}

  /** ln x. */
  static double log(double x) {
    // ln x = 2 artanh t, t = (x − 1)/(x + 1)
    double t = (x - 1) / (x + 1);
    double s = t * t;
    if (s > 4e-4) {
      return Math.log(x);
    }
    return 2 * t * (1 + s * (1.0 / 3 + s * (1.0 / 5 + s * (1.0 / 7 + s * (1.0 / 9)))));
  }

  /** The angle of along + j across. */
  static double angle(double across, double along) {
    double t = across / along;
    double s = t * t;
    if (!(along > 0) || s > 4e-4) {
      return Math.atan2(across, along);
    }
    return t * (1 - s * (1.0 / 3 - s * (1.0 / 5 - s * (1.0 / 7 - s * (1.0 / 9)))));
  }
}
