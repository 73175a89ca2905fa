package cutaway.acoustics.board;

/**
 * A logarithmic range with Chebyshev points and the polynomial through them.
 *
 * @param low lowest value
 * @param high highest value
 * @param points how many
 */
record ChebyshevSpan(double low, double high, int points) {
  /** Value of a point. */
  double at(int i) {
    double x = -Math.cos(Math.PI * (i + 0.5) / points);
    return Math.exp(Math.log(low) + (Math.log(high) - Math.log(low)) * (1 + x) / 2);
  }

  /** Weights of the points for a value between. */
  double[] weights(double value) {
    double x = high == low ? 0 : 2 * Math.log(value / low) / Math.log(high / low) - 1;
    double[] out = new double[points];
    double sum = 0;
    for (int i = 0; i < points; i++) {
      double angle = Math.PI * (i + 0.5) / points;
      double away = x + Math.cos(angle);
      if (Math.abs(away) < 1e-14) {
        java.util.Arrays.fill(out, 0);
        out[i] = 1;
        return out;
      }
      out[i] = (i % 2 == 0 ? 1 : -1) * Math.sin(angle) / away;
      sum += out[i];
    }
    for (int i = 0; i < points; i++) {
      out[i] /= sum;
    }
    return out;
  }
}
