package cutaway.benchmarks.population;

import java.util.Random;

/** Voltages that an amplifier adds although nobody asked it to. */
final class Voltages {
  private Voltages() {}

  /**
   * Makes one.
   *
   * @param n steps of {@link Motion#RATE}
   * @param mains Hz
   * @param rms V
   */
  static double[] of(Fault fault, int n, double mains, double rms, Random r) {
    double[] out =
        switch (fault) {
          case HUM_MAGNETIC -> comb(n, mains, r, 9, k -> k == 1 ? 1 : k % 2 == 1 ? 0.25 / k : 0.02);
          case HUM_RECTIFIER -> {
            double fall = Loudspeaker.in(r, 0.6, 1.4);
            yield comb(n, mains, r, 24, k -> k % 2 == 0 ? Math.pow(k, -fall) : 0.02 / k);
          }
          case HUM_GROUND_LOOP -> {
            double fall = Loudspeaker.in(r, 0.2, 0.8);
            yield comb(n, mains, r, 40, k -> Math.pow(k, -fall));
          }
          case HISS -> hiss(n, r);
          case IDLE_TONE -> tone(n, r);
          default -> throw new IllegalStateException(fault + " adds no voltage");
        };
    double square = 0;
    for (double v : out) {
      square += v * v / n;
    }
    double scale = rms / Math.sqrt(square);
    for (int i = 0; i < n; i++) {
      out[i] *= scale;
    }
    return out;
  }

  /** How strong each order is. */
  interface Orders {
    double at(int k);
  }

  /** Multiples of the mains, whose frequency is a little off, each with a phase of its own. */
  static double[] comb(int n, double mains, Random r, int highest, Orders strength) {
    double[] out = new double[n];
    double f = mains * (1 + 4e-4 * r.nextGaussian());
    for (int k = 1; k <= highest; k++) {
      double a = strength.at(k) * Math.exp(0.35 * r.nextGaussian());
      double phase = 2 * Math.PI * r.nextDouble();
      double w = 2 * Math.PI * k * f * Motion.STEP;
      for (int i = 0; i < n; i++) {
        out[i] += a * Math.sin(w * i + phase);
      }
    }
    return out;
  }

  private static double[] hiss(int n, Random r) {
    double[] out = new double[n];
    double pole = Loudspeaker.over(r, 0.05, 1);
    double s = 0;
    for (int i = 0; i < n; i++) {
      s += pole * (r.nextGaussian() - s);
      out[i] = s;
    }
    return out;
  }

  private static double[] tone(int n, Random r) {
    double[] out = new double[n];
    double f = Loudspeaker.over(r, 300, 9000);
    double wander = 0;
    double phase = 0;
    for (int i = 0; i < n; i++) {
      wander += -2e-5 * wander + 3e-6 * r.nextGaussian();
      phase += 2 * Math.PI * f * (1 + wander) * Motion.STEP;
      out[i] = Math.sin(phase);
    }
    return out;
  }
}
