package cutaway.acoustics.stimulus;

import java.util.stream.IntStream;

/**
 * Cosine and sine of many angles at once. The library's own take one number at a time; these loops
 * become vector instructions.
 */
final class Phasors {
  /** Angles that are worked on at a stretch: they stay at hand. */
  private static final int SHARE = 4096;

  private Phasors() {}

  /**
   * Of angles in cycles: by Taylor's series at a quarter of the angle, then doubled twice; within
   * 1e-15.
   *
   * @param cycles angles; changed
   * @param cosine out
   * @param sine out
   */
  static void of(double[] cycles, double[] cosine, double[] sine) {
    int shares = (cycles.length + SHARE - 1) / SHARE;
    IntStream.range(0, shares)
        .parallel()
        .forEach(
            k -> of(cycles, cosine, sine, k * SHARE, Math.min(cycles.length, (k + 1) * SHARE)));
  }

  private static void of(double[] cycles, double[] cosine, double[] sine, int from, int to) {
    for (int i = from; i < to; i++) {
      cycles[i] = Math.PI / 2 * (cycles[i] - Math.rint(cycles[i]));
    }
    for (int i = from; i < to; i++) {
      double a = cycles[i];
      double q = a * a;
      double odd = 1 - q * (1.0 / 156) * (1 - q * (1.0 / 210));
      odd = 1 - q * (1.0 / 42) * (1 - q * (1.0 / 72) * (1 - q * (1.0 / 110) * odd));
      sine[i] = a * (1 - q * (1.0 / 6) * (1 - q * (1.0 / 20) * odd));
    }
    for (int i = from; i < to; i++) {
      double q = cycles[i] * cycles[i];
      double even = 1 - q * (1.0 / 132) * (1 - q * (1.0 / 182) * (1 - q * (1.0 / 240)));
      even = 1 - q * (1.0 / 30) * (1 - q * (1.0 / 56) * (1 - q * (1.0 / 90) * even));
      cosine[i] = 1 - q * (1.0 / 2) * (1 - q * (1.0 / 12) * even);
    }
    for (int twice = 0; twice < 2; twice++) {
      for (int i = from; i < to; i++) {
        double c = cosine[i];
        double s = sine[i];
        cosine[i] = c * c - s * s;
        sine[i] = 2 * c * s;
      }
    }
  }

  /** Cosine of angles in cycles, in their place; within 1e-14. */
  static void cosine(double[] cycles) {
    for (int i = 0; i < cycles.length; i++) {
      double a = Math.PI / 2 * (cycles[i] - Math.rint(cycles[i]));
      double q = a * a;
      double even = 1 - q * (1.0 / 132) * (1 - q * (1.0 / 182) * (1 - q * (1.0 / 240)));
      even = 1 - q * (1.0 / 30) * (1 - q * (1.0 / 56) * (1 - q * (1.0 / 90) * even));
      double c = 1 - q * (1.0 / 2) * (1 - q * (1.0 / 12) * even);
      c = 2 * c * c - 1;
      cycles[i] = 2 * c * c - 1;
    }
  }
}
