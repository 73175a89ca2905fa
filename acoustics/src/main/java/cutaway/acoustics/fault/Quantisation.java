package cutaway.acoustics.fault;

/**
 * Noise that rounding to the steps of a file adds to a channel that sounds, and that a silence
 * rounded to nought does not show: a twelfth of a step squared, spread evenly up to half the rate
 * (W. R. Bennett, Bell Syst. Tech. J. 27 (1948) 446, from memory).
 */
final class Quantisation {
  private Quantisation() {}

  /**
   * Lets no band's silence be less.
   *
   * @param silence mean square of each octave band, raised where needed
   * @param x samples of the channel as recorded, in any unit
   */
  static void raise(double[] silence, double[] x, double rate) {
    double step = step(x);
    for (int b = 0; b < silence.length; b++) {
      double width = OctaveBands.lowerEdge(b) / (rate / 2);
      silence[b] = Math.max(silence[b], step * step / 12 * width);
    }
  }

  /** The smallest value but nought: no step is larger. */
  private static double step(double[] x) {
    double out = Double.POSITIVE_INFINITY;
    for (double v : x) {
      double a = Math.abs(v);
      out = a > 0 && a < out ? a : out;
    }
    return Double.isInfinite(out) ? 0 : out;
  }
}
