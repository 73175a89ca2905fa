package cutaway.acoustics.knock;

/** How much of a stretch of noise lies about a frequency. */
final class Spectrum {
  private Spectrum() {}

  /**
   * Mean density over a width, by a Hann-windowed transform at single frequencies; unit²/Hz.
   *
   * @param width Hz
   */
  static double density(double[] samples, double rate, double frequency, double width) {
    int n = samples.length;
    if (n < 8) {
      return 0;
    }
    double step = rate / n;
    int bins = (int) Math.max(1, Math.min(64, Math.floor(width / step)));
    double sum = 0;
    int count = 0;
    for (int k = 0; k < bins; k++) {
      double f = frequency + (k - (bins - 1) / 2.0) * width / bins;
      if (f <= 0 || f >= rate / 2) {
        continue;
      }
      sum += power(samples, f / rate);
      count++;
    }
    return count == 0 ? 0 : sum / count / rate;
  }

  /** Window and signal's turn are stepped on by rotations. */
  private static double power(double[] x, double cycles) {
    int n = x.length;
    double[] window = {Math.cos(Math.PI / n), Math.sin(Math.PI / n)};
    double[] windowStep = {Math.cos(2 * Math.PI / n), Math.sin(2 * Math.PI / n)};
    double[] turn = {1, 0};
    double[] turnStep = {Math.cos(2 * Math.PI * cycles), Math.sin(2 * Math.PI * cycles)};
    double re = 0;
    double im = 0;
    double weight = 0;
    for (double sample : x) {
      double w = 0.5 - 0.5 * window[0];
      re += w * sample * turn[0];
      im += w * sample * turn[1];
      weight += w * w;
      rotate(window, windowStep);
      rotate(turn, turnStep);
    }
    return 2 * (re * re + im * im) / weight;
  }

  private static void rotate(double[] z, double[] by) {
    double real = z[0] * by[0] - z[1] * by[1];
    z[1] = z[0] * by[1] + z[1] * by[0];
    z[0] = real;
  }
}
