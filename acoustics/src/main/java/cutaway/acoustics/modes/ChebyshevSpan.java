package cutaway.acoustics.modes;

import java.util.Arrays;

/**
 * A logarithmic range with Chebyshev points and the polynomial through them, by the barycentric
 * formula (J.-P. Berrut and L. N. Trefethen, SIAM Review 46 (2004) 501, from memory).
 */
public final class ChebyshevSpan {
  private final double low;
  private final double width;

  /** Places of the points between −1 and 1, and their weights in the barycentric formula. */
  private final double[] places;

  private final double[] signs;

  /**
   * Places the points.
   *
   * @param low lowest value
   * @param high highest value
   * @param points how many
   */
  public ChebyshevSpan(double low, double high, int points) {
    this.low = Math.log(low);
    this.width = Math.log(high) - this.low;
    this.places = new double[points];
    this.signs = new double[points];
    for (int i = 0; i < points; i++) {
      double angle = Math.PI * (i + 0.5) / points;
      places[i] = -Math.cos(angle);
      signs[i] = (i % 2 == 0 ? 1 : -1) * Math.sin(angle);
    }
  }

  /** How many points. */
  public int points() {
    return places.length;
  }

  /** Value of a point. */
  public double at(int i) {
    return Math.exp(low + width * (1 + places[i]) / 2);
  }

  /** Weights of the points for a value between. */
  public double[] weights(double value) {
    double x = width == 0 ? 0 : 2 * (Math.log(value) - low) / width - 1;
    double[] out = new double[places.length];
    double sum = 0;
    for (int i = 0; i < out.length; i++) {
      double away = x - places[i];
      if (Math.abs(away) < 1e-14) {
        Arrays.fill(out, 0);
        out[i] = 1;
        return out;
      }
      out[i] = signs[i] / away;
      sum += out[i];
    }
    for (int i = 0; i < out.length; i++) {
      out[i] /= sum;
    }
    return out;
  }
}
