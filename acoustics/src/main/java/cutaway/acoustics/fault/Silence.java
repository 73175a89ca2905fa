package cutaway.acoustics.fault;

import java.util.ArrayList;
import java.util.List;

/**
 * The background of a channel by band: the median over short stretches in which nothing plays.
 * Where the take has no such moments the quiet ones while it plays stand in, which may hide
 * something but claims nothing.
 */
final class Silence {
  private static final double STRETCH = 0.05;

  /** Stretches that a median needs. */
  private static final int FEWEST = 3;

  /** Share of the moments that are taken for quiet where there is no silence. */
  private static final double QUIET = 0.1;

  private static final double QUIET_DEVIATES = -1.2816;

  private Silence() {}

  /**
   * Mean square of each band.
   *
   * @param begins when something starts to play, s
   * @param ends when the last of it has played, s
   * @param rate samples a second
   * @param seconds length of the take
   */
  static double[] of(OctaveBands split, double begins, double ends, double rate, double seconds) {
    double before = begins - STRETCH;
    double after = ends + TonesPlayed.SETTLING / 2;
    double[] out = new double[split.size()];
    for (int b = 0; b < out.length; b++) {
      List<Double> silent = new ArrayList<>();
      List<Double> all = new ArrayList<>();
      for (double t = STRETCH; t + 2 * STRETCH <= seconds; t += STRETCH) {
        double power =
            split.power(b, (int) Math.rint(t * rate), (int) Math.rint((t + STRETCH) * rate));
        all.add(power);
        if (t + STRETCH <= before || t >= after) {
          silent.add(power);
        }
      }
      out[b] = background(silent, all, OctaveBands.centre(b) / Math.sqrt(2));
    }
    return out;
  }

  private static double background(List<Double> silent, List<Double> all, double width) {
    if (silent.size() >= FEWEST) {
      return quantile(silent, 0.5) / ofNoise(0, width);
    }
    return all.isEmpty() ? 0 : quantile(all, QUIET) / ofNoise(QUIET_DEVIATES, width);
  }

  /**
   * That quantile of noise so wide over its mean: χ² with 2 B T degrees of freedom (E. B. Wilson
   * and M. M. Hilferty, Proc. Natl. Acad. Sci. 17 (1931) 684, from memory).
   *
   * @param deviates of a normal distribution, standard deviations
   */
  private static double ofNoise(double deviates, double width) {
    double v = 2 / (9 * 2 * width * STRETCH);
    double root = 1 - v + deviates * Math.sqrt(v);
    return root * root * root;
  }

  private static double quantile(List<Double> values, double share) {
    double[] sorted = values.stream().mapToDouble(Double::doubleValue).sorted().toArray();
    return sorted[(int) (share * (sorted.length - 1) + 0.5)];
  }
}
