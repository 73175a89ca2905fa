package cutaway.acoustics.knock;

/**
 * A range of frequencies looked at by itself, at a lower rate.
 *
 * @param low modes from here, Hz
 * @param high to here, Hz
 * @param delay after the onset until the force and the filter have passed, s
 * @param length of a decay, s
 */
record Band(double low, double high, double delay, double length) {
  /** Over the highest frequency, of the lower rate. */
  private static final double OVER = 2.8;

  /** Half-length of the filter, in periods of its corner. */
  private static final double PERIODS = 4;

  /** Time constants after which a decay is over. */
  private static final double DEAD = 3;

  /** Whether a mode has died, to a twentieth, within the length of a decay. */
  boolean holds(Ring ring) {
    return Math.PI * ring.frequency() * ring.loss() * length > DEAD;
  }

  /** How many samples become one. */
  int step(double rate) {
    return (int) Math.max(1, Math.floor(rate / (OVER * high)));
  }

  /**
   * A decay at the lower rate, by a windowed sinc.
   *
   * @param from first sample to take, at the full rate
   * @param to one past the last
   */
  double[] decay(double[] samples, double rate, int from, int to) {
    int step = step(rate);
    if (step == 1) {
      return java.util.Arrays.copyOfRange(samples, from, Math.max(from, to));
    }
    double corner = 0.5 / step * 0.9;
    int half = (int) Math.ceil(PERIODS / corner / 2);
    double[] filter = new double[2 * half + 1];
    double sum = 0;
    for (int i = 0; i < filter.length; i++) {
      double at = i - half;
      double x = 2 * Math.PI * corner * at;
      double window = 0.5 + 0.5 * Math.cos(Math.PI * at / (half + 1));
      filter[i] = (at == 0 ? 1 : Math.sin(x) / x) * window;
      sum += filter[i];
    }
    int count = Math.max(0, (to - from) / step);
    double[] out = new double[count];
    for (int k = 0; k < count; k++) {
      int centre = from + k * step;
      for (int i = 0; i < filter.length; i++) {
        int at = centre + i - half;
        if (at >= 0 && at < samples.length) {
          out[k] += filter[i] * samples[at] / sum;
        }
      }
    }
    return out;
  }

  /** After the onset, where a decay begins, s. */
  double start(double rate) {
    int step = step(rate);
    return step == 1 ? delay : delay + PERIODS / (0.5 / step * 0.9) / 2 / rate;
  }
}
