package cutaway.acoustics.modes;

/**
 * Gauss–Lobatto points on [−1, 1] with their weights and the polynomials through them.
 *
 * <p>The points are ±1 and the zeros of P′ₚ; quadrature with them is exact up to degree 2p − 1.
 * Source: C. Canuto et al., Spectral Methods in Fluid Dynamics (1988), section 2.3 (from memory);
 * verified in the tests by the degree of exactness.
 */
public final class Lobatto {
  private final double[] points;
  private final double[] weights;
  private final double[][] derivative;
  private final double[] barycentric;

  private Lobatto(int order) {
    int n = order + 1;
    points = new double[n];
    weights = new double[n];
    if (order == 0) {
      weights[0] = 2;
    }
    for (int i = 0; i < n && order > 0; i++) {
      double x = -Math.cos(Math.PI * i / order);
      double legendre = 1;
      for (int pass = 0; pass < 60; pass++) {
        double before = 1;
        double now = x;
        for (int k = 2; k <= order; k++) {
          double next = ((2 * k - 1) * x * now - (k - 1) * before) / k;
          before = now;
          now = next;
        }
        legendre = now;
        // Newton on (1 − x²) P′ = p (P_{p−1} − x P_p), whose slope is −p (p + 1) P_p
        double step = i == 0 || i == order ? 0 : (x * now - before) / ((order + 1) * now);
        x -= step;
        if (Math.abs(step) < 1e-15) {
          break;
        }
      }
      points[i] = x;
      weights[i] = 2 / (order * (order + 1) * legendre * legendre);
    }
    barycentric = new double[n];
    for (int i = 0; i < n; i++) {
      double product = 1;
      for (int k = 0; k < n; k++) {
        product *= k == i ? 1 : points[i] - points[k];
      }
      barycentric[i] = 1 / product;
    }
    derivative = new double[n][n];
    for (int i = 0; i < n; i++) {
      double sum = 0;
      for (int k = 0; k < n; k++) {
        if (k != i) {
          derivative[i][k] = barycentric[k] / barycentric[i] / (points[i] - points[k]);
          sum += derivative[i][k];
        }
      }
      derivative[i][i] = -sum;
    }
  }

  /**
   * Points for polynomials of an order.
   *
   * @param order degree p of the polynomials; 0 for one point in the middle
   */
  public static Lobatto of(int order) {
    if (order < 0) {
      throw new IllegalArgumentException("order " + order);
    }
    return new Lobatto(order);
  }

  /** Number of points, p + 1. */
  public int size() {
    return points.length;
  }

  /** A point, lowest first. */
  public double point(int i) {
    return points[i];
  }

  /** Weight of a point; they add up to 2. */
  public double weight(int i) {
    return weights[i];
  }

  /** Slope at point i of the polynomial that is one at point k and zero at the others. */
  public double slope(int i, int k) {
    return derivative[i][k];
  }

  /** Slopes at x of the polynomials that are one at one point and zero at the others. */
  public double[] slopes(double x) {
    // a slope is a polynomial through the points itself
    double[] at = values(x);
    double[] out = new double[points.length];
    for (int k = 0; k < points.length; k++) {
      for (int i = 0; i < points.length; i++) {
        out[k] += at[i] * derivative[i][k];
      }
    }
    return out;
  }

  /** Values at x of the polynomials that are one at one point and zero at the others. */
  public double[] values(double x) {
    double[] out = new double[points.length];
    double sum = 0;
    for (int i = 0; i < points.length; i++) {
      double away = x - points[i];
      if (away == 0) {
        java.util.Arrays.fill(out, 0);
        out[i] = 1;
        return out;
      }
      out[i] = barycentric[i] / away;
      sum += out[i];
    }
    for (int i = 0; i < points.length; i++) {
      out[i] /= sum;
    }
    return out;
  }
}
