package cutaway.acoustics.driveunit;

import java.util.function.DoubleUnaryOperator;

/** Minimum of a smooth function of frequency. */
final class Extremum {
  private static final double GOLDEN = (Math.sqrt(5) - 1) / 2;

  private Extremum() {}

  /** Golden section to one part in 10⁴, then a parabola through three points of ln f. */
  static double find(DoubleUnaryOperator function, double low, double high) {
    double a = Math.log(low);
    double b = Math.log(high);
    double c = b - GOLDEN * (b - a);
    double d = a + GOLDEN * (b - a);
    double fc = function.applyAsDouble(Math.exp(c));
    double fd = function.applyAsDouble(Math.exp(d));
    while (b - a > 1e-4) {
      if (fc < fd) {
        b = d;
        d = c;
        fd = fc;
        c = b - GOLDEN * (b - a);
        fc = function.applyAsDouble(Math.exp(c));
      } else {
        a = c;
        c = d;
        fc = fd;
        d = a + GOLDEN * (b - a);
        fd = function.applyAsDouble(Math.exp(d));
      }
    }
    double middle = (a + b) / 2;
    double h = 1e-3;
    double left = function.applyAsDouble(Math.exp(middle - h));
    double centre = function.applyAsDouble(Math.exp(middle));
    double right = function.applyAsDouble(Math.exp(middle + h));
    double curvature = left - 2 * centre + right;
    return Math.exp(curvature > 0 ? middle + h * (left - right) / (2 * curvature) : middle);
  }
}
