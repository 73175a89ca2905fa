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

  private static double power(double[] x, double cycles) {
    double re = 0;
    double im = 0;
    double weight = 0;
    for (int i = 0; i < x.length; i++) {
      double w = 0.5 - 0.5 * Math.cos(2 * Math.PI * (i + 0.5) / x.length);
      re += w * x[i] * Math.cos(2 * Math.PI * cycles * i);
      im += w * x[i] * Math.sin(2 * Math.PI * cycles * i);
      weight += w * w;
    }
    return 2 * (re * re + im * im) / weight;
  }
}
