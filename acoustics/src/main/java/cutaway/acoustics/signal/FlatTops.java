package cutaway.acoustics.signal;

import java.util.ArrayList;
import java.util.List;

/**
 * Finds peaks of a swept tone that are flattened below full scale: an input stage or an amplifier
 * was overloaded before the samples were made.
 *
 * <p>A sine spends 4 % of its time within 0.2 % of its peak, (2/π) arccos 0.998; cut off one
 * percent below its peak it spends 9 % there, and more the lower it is cut.
 */
final class FlatTops {
  private static final double NEAR = 0.998;
  private static final double SHARE = 0.09;

  /** Below this a 16-bit step is not small beside 0.2 % of the peak; full scale 1. */
  private static final double LEAST_PEAK = 0.03;

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
    int begin = from;
    int run = 0;
    int before = -1;
    while (from < end) {
      double f = sweep.frequency(from / rate);
      int window = (int) Math.max(LEAST_SAMPLES, Math.rint(rate / Math.max(f, 1)));
      if (from + window > end || f > rate / LEAST_PER_PERIOD) {
        break;
      }
      int channel = which(flat(first, from, window), flat(second, from, window));
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

  private static boolean flat(double[] x, int from, int count) {
    double top = x[from];
    double bottom = x[from];
    for (int i = from + 1; i < from + count; i++) {
      top = Math.max(top, x[i]);
      bottom = Math.min(bottom, x[i]);
    }
    double peak = (top - bottom) / 2;
    if (peak < LEAST_PEAK || Math.max(top, -bottom) >= FULL_SCALE) {
      return false;
    }
    double edge = (1 - NEAR) * peak;
    int near = 0;
    for (int i = from; i < from + count; i++) {
      near += x[i] > top - edge || x[i] < bottom + edge ? 1 : 0;
    }
    return near > SHARE * count;
  }
}
