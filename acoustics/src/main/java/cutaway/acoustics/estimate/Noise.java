package cutaway.acoustics.estimate;

import java.util.Arrays;

/**
 * How large, and how independent, the residuals of one take are.
 *
 * <p>The residuals come as n points of {@code width} components (a complex number has two). Scale
 * and outlier weights follow a redescending rule: full weight up to 4 σ, none beyond 6 σ, so that
 * good data keep full efficiency (a Gaussian point is touched three times in ten thousand). Where
 * neighbours are alike, as a model error or smoothing leaves them, they carry less information than
 * their number: {@link #correlation()} says how many count as one.
 */
public final class Noise {
  private static final double FULL = 4;
  private static final double NONE = 6;

  private final double sigma;
  private final double correlation;
  private final double[] weight;

  private Noise(double sigma, double correlation, double[] weight) {
    this.sigma = sigma;
    this.correlation = correlation;
    this.weight = weight;
  }

  /**
   * Estimates scale, outlier weights and correlation.
   *
   * @param residual the first component of every point from {@code from} on, then the second; read
   *     only
   * @param parameters how many fitted parameters this take pays for, may be a fraction
   * @param floor least scale to believe in, in the residual's unit
   */
  public static Noise of(
      double[] residual, int from, int points, int width, double parameters, double floor) {
    double[] radius = new double[points];
    for (int i = 0; i < points; i++) {
      double square = 0;
      for (int c = 0; c < width; c++) {
        double r = residual[from + c * points + i];
        square += r * r;
      }
      radius[i] = Math.sqrt(square);
    }
    double[] sorted = radius.clone();
    Arrays.sort(sorted);
    double median = sorted[points / 2];
    // median of |r| for one component is 0.6745 σ, of the Rayleigh radius for two 1.1774 σ
    double sigma = Math.max(floor, median / (width == 1 ? 0.6745 : 1.1774));
    double[] weight = new double[points];
    for (int pass = 0; pass < 20; pass++) {
      double sum = 0;
      double count = 0;
      for (int i = 0; i < points; i++) {
        weight[i] = weight(radius[i] / sigma);
        sum += weight[i] * radius[i] * radius[i];
        count += weight[i] * width;
      }
      double next = Math.max(floor, Math.sqrt(sum / Math.max(1, count - parameters)));
      boolean settled = Math.abs(next - sigma) < 1e-9 * sigma;
      sigma = next;
      if (settled) {
        break;
      }
    }
    return new Noise(sigma, correlation(residual, from, points, width, weight), weight);
  }

  private static double weight(double ratio) {
    if (ratio <= FULL) {
      return 1;
    }
    return ratio >= NONE ? 0 : 0.5 * (1 + Math.cos(Math.PI * (ratio - FULL) / (NONE - FULL)));
  }

  /**
   * Integrated autocorrelation 1 + 2 Σ ρ_k over the initial run of clearly positive lags (the
   * initial positive sequence of C. J. Geyer, Statist. Sci. 7 (1992) 473–483, from memory).
   */
  private static double correlation(
      double[] residual, int from, int points, int width, double[] weight) {
    double zero = lagProduct(residual, from, points, width, weight, 0);
    if (!(zero > 0)) {
      return 1;
    }
    double clear = 2 / Math.sqrt((double) points * width);
    double sum = 1;
    for (int lag = 1; lag < points / 3; lag++) {
      double rho = lagProduct(residual, from, points, width, weight, lag) / zero;
      if (rho < clear) {
        break;
      }
      sum += 2 * rho;
    }
    return sum;
  }

  private static double lagProduct(
      double[] residual, int from, int points, int width, double[] weight, int lag) {
    double sum = 0;
    for (int i = lag; i < points; i++) {
      double w = weight[i] * weight[i - lag];
      for (int c = 0; c < width; c++) {
        int here = from + c * points + i;
        sum += w * residual[here] * residual[here - lag];
      }
    }
    return sum;
  }

  /** Standard deviation of one component, in the residual's unit. */
  public double sigma() {
    return sigma;
  }

  /** How many neighbouring points count as one independent point, at least 1. */
  public double correlation() {
    return correlation;
  }

  /** Outlier weight of each point, from 0 to 1, a copy. */
  public double[] weights() {
    return weight.clone();
  }

  /** Share of the points that hardly count. */
  public double rejectedShare() {
    return (double) java.util.Arrays.stream(weight).filter(w -> w < 0.5).count() / weight.length;
  }

  /** Outlier weight of one point. */
  public double weight(int point) {
    return weight[point];
  }
}
