package cutaway.acoustics.meter;

/**
 * A second-order filter, y = b₀x + b₁x₋₁ + b₂x₋₂ − a₁y₋₁ − a₂y₋₂.
 *
 * @param b0 of the newest sample
 * @param b1 of the one before
 * @param b2 of the one before that
 * @param a1 of the newest result
 * @param a2 of the one before
 */
record Biquad(double b0, double b1, double b2, double a1, double a2) {
  /** The same analogue filter at another rate, by the bilinear transform there and back. */
  Biquad moved(double from, double to) {
    double k = 2 * from;
    double[] above = analogue(b0, b1, b2, k);
    double[] below = analogue(1, a1, a2, k);
    double[] b = digital(above, 2 * to);
    double[] a = digital(below, 2 * to);
    return new Biquad(b[0] / a[0], b[1] / a[0], b[2] / a[0], a[1] / a[0], a[2] / a[0]);
  }

  /** Polynomial in s, constant first. */
  private static double[] analogue(double c0, double c1, double c2, double k) {
    return new double[] {k * k * (c0 + c1 + c2), 2 * k * (c0 - c2), c0 - c1 + c2};
  }

  private static double[] digital(double[] s, double k) {
    return new double[] {
      s[0] + s[1] * k + s[2] * k * k, 2 * (s[0] - s[2] * k * k), s[0] - s[1] * k + s[2] * k * k
    };
  }

  /**
   * Filters in place.
   *
   * @param x samples, changed
   * @param n how many
   * @param state two numbers kept from one call to the next
   */
  void run(double[] x, int n, double[] state) {
    double s1 = state[0];
    double s2 = state[1];
    for (int i = 0; i < n; i++) {
      double in = x[i];
      double out = b0 * in + s1;
      s1 = b1 * in - a1 * out + s2;
      s2 = b2 * in - a2 * out;
      x[i] = out;
    }
    state[0] = s1;
    state[1] = s2;
  }
}
