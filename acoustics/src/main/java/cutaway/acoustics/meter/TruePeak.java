package cutaway.acoustics.meter;

/** The highest peak of a sound, between its samples too: four points for each. */
final class TruePeak {
  private static final int REACH = 16;
  private static final int STEPS = 4;
  private static final double[][] TAPS = taps();

  private final double[] past = new double[2 * REACH];
  private double highest;

  private static double[][] taps() {
    double[][] out = new double[STEPS][2 * REACH];
    for (int s = 0; s < STEPS; s++) {
      double sum = 0;
      for (int i = 0; i < 2 * REACH; i++) {
        double t = i - REACH + 1 - (double) s / STEPS;
        double window = Math.cos(Math.PI * t / (2 * REACH));
        out[s][i] = (t == 0 ? 1 : Math.sin(Math.PI * t) / (Math.PI * t)) * window * window;
        sum += out[s][i];
      }
      for (int i = 0; i < 2 * REACH; i++) {
        out[s][i] /= sum;
      }
    }
    return out;
  }

  void add(double[] x, int n) {
    double[] joined = new double[past.length + n];
    System.arraycopy(past, 0, joined, 0, past.length);
    System.arraycopy(x, 0, joined, past.length, n);
    for (int i = 0; i < n; i++) {
      highest = Math.max(highest, Math.abs(x[i]));
      for (int s = 1; s < STEPS; s++) {
        double between = 0;
        for (int k = 0; k < 2 * REACH; k++) {
          between += TAPS[s][k] * joined[i + 1 + k];
        }
        highest = Math.max(highest, Math.abs(between));
      }
    }
    System.arraycopy(joined, n, past, 0, past.length);
  }

  /** So far, in the unit of the samples. */
  double highest() {
    return highest;
  }
}
