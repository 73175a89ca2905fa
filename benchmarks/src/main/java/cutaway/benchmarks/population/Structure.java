package cutaway.benchmarks.population;

import java.util.Random;

/** The parts of a cone or a panel that ring when something strikes it: a bank of resonators. */
final class Structure {
  /** Keeps what has rung out from numbers so small that processors are slow with them. */
  static final double AWAKE = 1e-30;

  private final double[] omega;
  private final double[] loss;
  private final double[] gain;

  private Structure(Random r, int modes, double low, double high) {
    omega = new double[modes];
    loss = new double[modes];
    gain = new double[modes];
    for (int k = 0; k < modes; k++) {
      omega[k] = 2 * Math.PI * Loudspeaker.over(r, low, high);
      loss[k] = Loudspeaker.in(r, 0.008, 0.05);
      gain[k] = r.nextGaussian();
    }
  }

  static Structure cone(Random r) {
    return new Structure(r, 9, 500, 9000);
  }

  static Structure panel(Random r) {
    return new Structure(r, 12, 300, 6000);
  }

  /** Sound of a force, each in a scale of its own. */
  double[] sound(double[] force) {
    double[] out = new double[force.length];
    for (int k = 0; k < omega.length; k++) {
      double w = omega[k];
      double y = 0;
      double v = 0;
      for (int n = 0; n < force.length; n++) {
        double a = force[n] + AWAKE - 2 * loss[k] * w * v - w * w * y;
        v += a * Motion.STEP;
        y += v * Motion.STEP;
        out[n] += gain[k] * a;
      }
    }
    return out;
  }
}
