package cutaway.acoustics.signal;

import java.util.ArrayList;
import java.util.List;

/**
 * Finds peaks of a swept tone that are flattened below full scale: an input stage or an amplifier
 * was overloaded before the samples were made.
 *
 * <p>A sine spends 4 % of its time within 0.2 % of its peak, (2/π) arccos 0.998; cut off one
 * percent below its peak it spends 9 % there, and more the lower it is cut. Where it is cut is as
 * high as the channel ever gets; flat peaks lower than that are distortion, of the drive unit's
 * current at its resonance for one, and no overload.
 */
final class FlatTops {
  private static final double NEAR = 0.998;
  private static final double SHARE = 0.09;

  /** Below this a 16-bit step is not small beside 0.2 % of the peak; full scale 1. */
  private static final double LEAST_PEAK = 0.03;

  /** Share of the channel's highest peak that a cut one reaches at least. */
  private static final double HIGHEST = 0.98;

  private static final double FULL_SCALE = 0.9995;
  private static final int LEAST_SAMPLES = 256;

  /** With fewer samples a period, two of them may sit on the peaks, time and again. */
  private static final double LEAST_PER_PERIOD = 32;

  /** That many windows in a row must agree. */
  private static final int IN_A_ROW = 3;

  private FlatTops() {}

  /** Stretches of both channels; where both are flattened at once, one stretch of channel 0. */
  static List<Stretch> of(double[] first, double[] second, int frames, double rate, Sweep sweep) {
    List<Stretch> out = new ArrayList<>();
    int from = (int) Math.max(0, sweep.start() * rate);
    int end = (int) Math.min(frames, sweep.end() * rate);
    if (from >= end) {
      return List.of();
    }
    double[] firstRange = range(first, from, end - from);
    double[] secondRange = range(second, from, end - from);
    double firstPeak = (firstRange[1] - firstRange[0]) / 2;
    double secondPeak = (secondRange[1] - secondRange[0]) / 2;
    int begin = from;
    int run = 0;
    int before = -1;
    while (from < end) {
      double f = sweep.frequency(from / rate);
      int window = (int) Math.max(LEAST_SAMPLES, Math.rint(rate / Math.max(f, 1)));
      if (from + window > end || f > rate / LEAST_PER_PERIOD) {
        break;
      }
      int channel =
          which(flat(first, from, window, firstPeak), flat(second, from, window, secondPeak));
      if (channel != before) {
        keep(out, before, begin, from, run);
        before = channel;
        begin = from;
        run = 0;
      }
      run++;
      from += window;
    }
    keep(out, before, begin, from, run);
    return List.copyOf(out);
  }

  private static void keep(List<Stretch> out, int channel, int begin, int end, int run) {
    if (channel >= 0 && run >= IN_A_ROW) {
      out.add(new Stretch(Stretch.Kind.FLATTENED, channel, begin, end - 1L));
    }
  }

  /** 1 or 2, 0 for both, −1 for none. */
  private static int which(boolean first, boolean second) {
    if (first && second) {
      return 0;
    }
    return first ? 1 : second ? 2 : -1;
  }

  /** Lowest and highest sample. */
  private static double[] range(double[] x, int from, int count) {
    double[] out = {x[from], x[from]};
    for (int i = from + 1; i < from + count; i++) {
      out[0] = Math.min(out[0], x[i]);
      out[1] = Math.max(out[1], x[i]);
    }
    return out;
  }

  private static boolean flat(double[] x, int from, int count, double highest) {
    double[] range = range(x, from, count);
    double peak = (range[1] - range[0]) / 2;
    boolean full = Math.max(range[1], -range[0]) >= FULL_SCALE;
    if (full || peak < LEAST_PEAK || peak < HIGHEST * highest) {
      return false;
    }
    double edge = (1 - NEAR) * peak;
    int near = 0;
    for (int i = from; i < from + count; i++) {
      near += x[i] > range[1] - edge || x[i] < range[0] + edge ? 1 : 0;
    }
    return near > SHARE * count;
  }
}
