package cutaway.acoustics.estimate;

import java.util.Arrays;

/**
 * JᵀWJ and JᵀWr from a Jacobian in stretches.
 *
 * <p>HotSpot turns loops from one array to another into vector instructions, but not sums into one
 * number, nor arrays read from an offset. So the products of two columns are laid upon each other,
 * stretch by stretch, and only the pile is summed.
 */
final class NormalEquations {
  private final int size;

  /** By stretch. */
  private final double[][] weights;

  /** By stretch. */
  private final double[][] residuals;

  /** By stretch. */
  private final double[][] weighted;

  /** JᵀWJ, p × p row-major. */
  final double[] information;

  /** JᵀWr. */
  final double[] gradient;

  private final double[] pile;

  /** Takes reciprocal variances of all residuals, and the rows of each stretch. */
  NormalEquations(int size, double[] weights, int[] lengths) {
    this.size = size;
    this.information = new double[size * size];
    this.gradient = new double[size];
    this.weights = new double[lengths.length][];
    this.residuals = new double[lengths.length][];
    this.weighted = new double[lengths.length][];
    for (int s = 0; s < lengths.length; s++) {
      this.weights[s] = new double[lengths[s]];
      this.residuals[s] = new double[lengths[s]];
      this.weighted[s] = new double[lengths[s]];
    }
    this.pile = new double[Arrays.stream(lengths).max().orElse(0)];
    split(weights, this.weights);
  }

  private static void split(double[] all, double[][] stretches) {
    int from = 0;
    for (double[] stretch : stretches) {
      System.arraycopy(all, from, stretch, 0, stretch.length);
      from += stretch.length;
    }
  }

  /** Σ w r². */
  double cost(double[] residual) {
    split(residual, residuals);
    int depth = 0;
    for (int s = 0; s < weights.length; s++) {
      multiply(residuals[s], weights[s], weighted[s]);
      depth = lay(weighted[s], residuals[s], depth);
    }
    return sum(depth);
  }

  /** Forms both. */
  void form(Jacobian jacobian, double[] residual) {
    split(residual, residuals);
    for (int i = 0; i < size; i++) {
      int depth = 0;
      for (int s = 0; s < weights.length; s++) {
        if (jacobian.has(s, i)) {
          multiply(jacobian.column(s, i), weights[s], weighted[s]);
          depth = lay(weighted[s], residuals[s], depth);
        }
      }
      gradient[i] = sum(depth);
      for (int j = 0; j <= i; j++) {
        double product = product(jacobian, i, j);
        information[i * size + j] = product;
        information[j * size + i] = product;
      }
    }
  }

  /** Product of weighted column i, as just made, with column j. */
  private double product(Jacobian jacobian, int i, int j) {
    int depth = 0;
    for (int s = 0; s < weights.length; s++) {
      if (jacobian.has(s, i) && jacobian.has(s, j)) {
        depth = lay(weighted[s], jacobian.column(s, j), depth);
      }
    }
    return sum(depth);
  }

  private static void multiply(double[] a, double[] b, double[] out) {
    for (int i = 0; i < out.length; i++) {
      out[i] = a[i] * b[i];
    }
  }

  /** Lays a·b on the pile, which holds sums up to a depth; returns the new depth. */
  private int lay(double[] a, double[] b, int depth) {
    int n = a.length;
    if (depth == 0) {
      first(a, b, n, pile);
    } else {
      if (depth < n) {
        Arrays.fill(pile, depth, n, 0);
      }
      another(a, b, n, pile);
    }
    return Math.max(depth, n);
  }

  private static void first(double[] a, double[] b, int n, double[] pile) {
    for (int i = 0; i < n; i++) {
      pile[i] = a[i] * b[i];
    }
  }

  private static void another(double[] a, double[] b, int n, double[] pile) {
    for (int i = 0; i < n; i++) {
      pile[i] += a[i] * b[i];
    }
  }

  private double sum(int depth) {
    double[] a = pile;
    double s0 = 0;
    double s1 = 0;
    double s2 = 0;
    double s3 = 0;
    double s4 = 0;
    double s5 = 0;
    double s6 = 0;
    double s7 = 0;
    int i = 0;
    for (; i <= depth - 8; i += 8) {
      s0 += a[i];
      s1 += a[i + 1];
      s2 += a[i + 2];
      s3 += a[i + 3];
      s4 += a[i + 4];
      s5 += a[i + 5];
      s6 += a[i + 6];
      s7 += a[i + 7];
    }
    for (; i < depth; i++) {
      s0 += a[i];
    }
    return ((s0 + s1) + (s2 + s3)) + ((s4 + s5) + (s6 + s7));
  }
}
