package cutaway.app.chart;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * Maps values to positions and says where ticks go.
 *
 * @param log whether it is logarithmic
 * @param low value at the start
 * @param high value at the end
 * @param from position of the start, px
 * @param to position of the end, px
 */
record Scale(boolean log, double low, double high, double from, double to) {
  double at(double value) {
    double share =
        log ? Math.log(value / low) / Math.log(high / low) : (value - low) / (high - low);
    return from + share * (to - from);
  }

  /** Ticks at 1-2-5 steps. */
  List<Double> ticks(int wanted) {
    return log ? logTicks() : linearTicks(wanted);
  }

  private List<Double> logTicks() {
    List<Double> out = new ArrayList<>();
    for (int e = (int) Math.floor(Math.log10(low)); e <= Math.log10(high) + 1; e++) {
      for (int m : new int[] {1, 2, 5}) {
        double t = m * Math.pow(10, e);
        if (t >= low * 0.999 && t <= high * 1.001) {
          out.add(t);
        }
      }
    }
    return out;
  }

  private List<Double> linearTicks(int wanted) {
    double step = step((high - low) / wanted);
    List<Double> out = new ArrayList<>();
    for (double t = Math.ceil(low / step - 1e-9) * step; t <= high + 1e-9 * step; t += step) {
      out.add(Math.abs(t) < 1e-9 * step ? 0 : t);
    }
    return out;
  }

  /** The least 1-2-5 step that is no smaller. */
  static double step(double rough) {
    double e = Math.pow(10, Math.floor(Math.log10(rough)));
    for (int m : new int[] {1, 2, 5}) {
      if (m * e >= rough * 0.999) {
        return m * e;
      }
    }
    return 10 * e;
  }

  static String label(double tick) {
    double size = Math.abs(tick);
    if (size >= 1000) {
      double k = tick / 1000;
      return (k == Math.rint(k) ? String.format(Locale.ROOT, "%.0f", k) : Double.toString(k)) + "k";
    }
    String s = String.format(Locale.ROOT, "%.4f", tick);
    s = s.replaceFirst("0+$", "").replaceFirst("\\.$", "");
    return s.replace('-', '−');
  }
}
