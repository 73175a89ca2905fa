package cutaway.acoustics.meter;

/**
 * A tone of known frequency in a stretch, re cos ωt − im sin ωt with t from the recording's start.
 *
 * @param re in phase
 * @param im in quadrature
 * @param left mean square of what is beside it
 */
record ToneFit(double re, double im, double left) {
  /**
   * The stretch against a cosine and a sine under a Hann window, which keeps hum, offsets and other
   * tones out once they lie a few of its lines away.
   */
  static ToneFit of(double[] x, int from, int n, double cyclesPerSample) {
    double re = 0;
    double im = 0;
    double weights = 0;
    double square = 0;
    for (int i = 0; i < n; i++) {
      double w = 0.5 * (1 - Math.cos(2 * Math.PI * (i + 0.5) / n));
      double angle = 2 * Math.PI * cyclesPerSample * (from + i);
      re += w * x[from + i] * Math.cos(angle);
      im -= w * x[from + i] * Math.sin(angle);
      weights += w;
      square += w * x[from + i] * x[from + i];
    }
    double a = 2 * re / weights;
    double b = 2 * im / weights;
    return new ToneFit(a, b, Math.max(0, square / weights - (a * a + b * b) / 2));
  }

  double amplitude() {
    return Math.hypot(re, im);
  }
}
