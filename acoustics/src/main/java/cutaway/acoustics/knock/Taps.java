package cutaway.acoustics.knock;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Finds taps: sudden broadband rises that die away. */
public final class Taps {
  /** Hop of the level, s. */
  private static final double HOP = 1e-3;

  /** Width of the means for soft knocks, s. */
  private static final double SOFT = 4e-4;

  /** A tap's level over that of the hops before it, as a ratio of energies. */
  private static final double RISE = 6;

  /** Over the background. */
  private static final double ABOVE = 25;

  /** Hops before a tap that it is compared with. */
  private static final int BEFORE = 12;

  /**
   * Over the loudest of the hops before it: modes that beat swell as steadily as they died, at most
   * by a factor of two against what was a few hops before.
   */
  private static final double SUDDEN = 3;

  /** Within so many hops it is one rise. */
  private static final int ONE = 8;

  /** Taps nearer than this ring into each other, s. */
  private static final double RINGING = 0.25;

  /** After this time a tap has fallen at least to a share of its energy, s. */
  private static final double DYING = 0.25;

  /** Energy of the faintest tap over that of the strongest; fainter ones are noises. */
  private static final double FAINTEST = 0.01;

  /** A slope this much over the steepest of the noise before is the tap's. */
  private static final double OVER_NOISE = 1.3;

  /** Smoothed onsets are seen early, so they have to stand out this much more. */
  private static final double CLEARER = 2;

  /** Hops before the one that rises in which a tap may have begun. */
  private static final int EARLIER = 3;

  private static final double DEAD = 0.1;
  private static final double FULL = 0.999;

  private Taps() {}

  /**
   * Finds them.
   *
   * @param samples of one channel, full scale 1
   * @param rate Hz
   */
  public static List<Tap> in(double[] samples, double rate) {
    int hop = (int) Math.max(1, Math.rint(HOP * rate));
    List<Integer> starts = new ArrayList<>();
    // a hard knock is broadband; a soft one has little above a kilohertz, where noise may have more
    double[] smooth = smoothed(samples, (int) Math.rint(SOFT * rate));
    for (double[] heard : List.of(samples, smooth)) {
      for (int k : starts(levels(heard, hop))) {
        if (starts.stream().noneMatch(other -> Math.abs(other - k) <= ONE)) {
          starts.add(k);
        }
      }
    }
    starts.sort(null);
    return taps(samples, smooth, rate, hop, starts);
  }

  private static List<Integer> starts(double[] levels) {
    double floor = floor(levels);
    List<Integer> out = new ArrayList<>();
    for (int k = 1; k < levels.length; k++) {
      int last = out.isEmpty() ? -BEFORE : out.get(out.size() - 1);
      if (k - last > ONE && rises(levels, k, floor)) {
        out.add(k);
      }
    }
    List<Integer> all = List.copyOf(out);
    out.removeIf(k -> !dies(levels, k, next(all, k, levels.length)));
    double strongest = out.stream().mapToDouble(k -> peak(levels, k)).max().orElse(0);
    out.removeIf(k -> peak(levels, k) < FAINTEST * strongest);
    return out;
  }

  /** Three running means one after the other. */
  private static double[] smoothed(double[] x, int width) {
    double[] out = x;
    for (int pass = 0; pass < 3 && width > 1; pass++) {
      double[] next = new double[x.length];
      double sum = 0;
      for (int i = 0; i < x.length; i++) {
        sum += out[i] - (i >= width ? out[i - width] : 0);
        next[Math.max(0, i - width / 2)] = sum / width;
      }
      out = next;
    }
    return out;
  }

  /** Energy of the slope in each hop: a tap is broadband, a ringing wall or rumble less so. */
  private static double[] levels(double[] samples, int hop) {
    double[] out = new double[samples.length / hop];
    for (int k = 0; k < out.length; k++) {
      for (int i = Math.max(1, k * hop); i < (k + 1) * hop; i++) {
        double slope = samples[i] - samples[i - 1];
        out[k] += slope * slope;
      }
    }
    return out;
  }

  private static double floor(double[] levels) {
    double[] sorted = levels.clone();
    Arrays.sort(sorted);
    return sorted.length == 0 ? 0 : sorted[sorted.length / 4];
  }

  private static boolean rises(double[] levels, int k, double floor) {
    double before = 0;
    int first = Math.max(0, k - BEFORE);
    double most = 0;
    for (int i = first; i < k; i++) {
      before += levels[i] / (k - first);
      most = Math.max(most, levels[i]);
    }
    double least = Math.max(RISE * before, ABOVE * floor);
    // the hop it begins in may hold but little of it
    int next = Math.min(k + 1, levels.length - 1);
    double here = Math.max(levels[k], levels[next]);
    return here > least && here > SUDDEN * most && levels[k] > 2 * before;
  }

  private static double peak(double[] levels, int k) {
    double peak = 0;
    for (int i = k; i < Math.min(k + ONE, levels.length); i++) {
      peak = Math.max(peak, levels[i]);
    }
    return peak;
  }

  private static int next(List<Integer> starts, int k, int end) {
    return starts.stream().filter(other -> other > k).mapToInt(s -> s).min().orElse(end);
  }

  /** Whether a rise has died after a while, or before the next one where that comes sooner. */
  private static boolean dies(double[] levels, int k, int next) {
    double peak = peak(levels, k);
    int to = Math.min(k + (int) Math.rint(DYING / HOP), next);
    int from = Math.max(k + 1, Math.min(k + (int) Math.rint(DYING / HOP / 2), to - BEFORE));
    double after = 0;
    for (int i = from; i < to; i++) {
      after += levels[i] / (to - from);
    }
    return from < to && after < DEAD * peak;
  }

  private static List<Tap> taps(
      double[] samples, double[] smooth, double rate, int hop, List<Integer> starts) {
    List<Tap> out = new ArrayList<>();
    for (int i = 0; i < starts.size(); i++) {
      int onset = onset(samples, smooth, starts.get(i) * hop, hop);
      int end = i + 1 < starts.size() ? (starts.get(i + 1) - 1) * hop : samples.length;
      boolean before = i > 0 && starts.get(i) - starts.get(i - 1) < RINGING / HOP;
      boolean after = end - onset < RINGING * rate && end < samples.length;
      out.add(new Tap(onset, end, clipped(samples, onset, end), before || after));
    }
    return out;
  }

  /**
   * Where the slope first leaves what it was before: as recorded or smoothed, whichever stands
   * further out of the noise.
   */
  private static int onset(double[] samples, double[] smooth, int about, int hop) {
    return contrast(smooth, about, hop) > CLEARER * contrast(samples, about, hop)
        ? onset(smooth, about, hop)
        : onset(samples, about, hop);
  }

  private static int onset(double[] samples, int about, int hop) {
    int to = Math.min(about + 3 * hop, samples.length);
    double peak = steepest(samples, about, to);
    double noise = steepest(samples, about - BEFORE * hop, about - EARLIER * hop);
    double leaves = Math.max(0.1 * peak, Math.min(OVER_NOISE * noise, 0.5 * peak));
    for (int i = Math.max(1, about - EARLIER * hop); i < to; i++) {
      if (Math.abs(samples[i] - samples[i - 1]) > leaves) {
        return i - 1;
      }
    }
    return about;
  }

  private static double contrast(double[] samples, int about, int hop) {
    double noise = steepest(samples, about - BEFORE * hop, about - EARLIER * hop);
    return steepest(samples, about, about + 3 * hop) / Math.max(noise, Double.MIN_NORMAL);
  }

  private static double steepest(double[] samples, int from, int to) {
    double peak = 0;
    for (int i = Math.max(1, from); i < Math.min(to, samples.length); i++) {
      peak = Math.max(peak, Math.abs(samples[i] - samples[i - 1]));
    }
    return peak;
  }

  private static int clipped(double[] samples, int onset, int end) {
    int out = onset;
    for (int i = onset; i < end; i++) {
      out = Math.abs(samples[i]) >= FULL ? i + 1 : out;
    }
    return out;
  }
}
