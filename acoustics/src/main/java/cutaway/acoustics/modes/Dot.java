package cutaway.acoustics.modes;

/** Scalar products in several sums side by side, which a processor adds up at once. */
final class Dot {
  private Dot() {}

  /** Σ a b over some length. */
  static double of(double[] a, int firstA, double[] b, int firstB, int count) {
    double s0 = 0;
    double s1 = 0;
    double s2 = 0;
    double s3 = 0;
    int k = 0;
    for (; k + 3 < count; k += 4) {
      s0 += a[firstA + k] * b[firstB + k];
      s1 += a[firstA + k + 1] * b[firstB + k + 1];
      s2 += a[firstA + k + 2] * b[firstB + k + 2];
      s3 += a[firstA + k + 3] * b[firstB + k + 3];
    }
    for (; k < count; k++) {
      s0 += a[firstA + k] * b[firstB + k];
    }
    return s0 + s1 + (s2 + s3);
  }

  /** Adds to each of three sums: out_r += Σ a b_r. */
  static void three(
      double[] a, int first, double[] b0, double[] b1, double[] b2, int count, double[] out) {
    double s0 = 0;
    double s1 = 0;
    double s2 = 0;
    double t0 = 0;
    double t1 = 0;
    double t2 = 0;
    int k = 0;
    for (; k + 1 < count; k += 2) {
      double here = a[first + k];
      double next = a[first + k + 1];
      s0 += here * b0[k];
      s1 += here * b1[k];
      s2 += here * b2[k];
      t0 += next * b0[k + 1];
      t1 += next * b1[k + 1];
      t2 += next * b2[k + 1];
    }
    if (k < count) {
      s0 += a[first + k] * b0[k];
      s1 += a[first + k] * b1[k];
      s2 += a[first + k] * b2[k];
    }
    out[0] = s0 + t0;
    out[1] = s1 + t1;
    out[2] = s2 + t2;
  }
}
