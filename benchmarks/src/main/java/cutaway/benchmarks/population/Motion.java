package cutaway.benchmarks.population;

import cutaway.benchmarks.population.Loudspeaker.Box;
import cutaway.benchmarks.population.Loudspeaker.Coil;
import cutaway.benchmarks.population.Loudspeaker.Cone;
import cutaway.benchmarks.population.Loudspeaker.Panel;

/**
 * What a loudspeaker does when it is driven: Runge-Kutta of order four, {@value #RATE} steps a
 * second. Each array holds one number a step.
 */
final class Motion {
  static final double RATE = 192000;
  static final double STEP = 1 / RATE;

  private static final int STATES = 10;

  final double[] voltage;
  final double[] current;
  final double[] displacement;
  final double[] acceleration;
  final double[] pressure;
  final double[] portFlow;
  final double[][] panel;

  private final Loudspeaker unit;

  /** x, v, i, i₂, p, U, q₁, q₁', q₂, q₂'. */
  private final double[] state = new double[STATES];

  private Motion(Loudspeaker unit, int n) {
    this.unit = unit;
    voltage = new double[n];
    current = new double[n];
    displacement = new double[n];
    acceleration = new double[n];
    pressure = new double[n];
    portFlow = new double[n];
    panel = new double[2][n];
  }

  /**
   * Drives it.
   *
   * @param wanted voltage asked of the amplifier, V, one a step
   * @param boxed in its box, or out of it
   * @param blocked with the port stopped
   */
  static Motion of(
      Loudspeaker unit, double[] wanted, Amplifier amplifier, boolean boxed, boolean blocked) {
    Motion out = new Motion(unit, wanted.length);
    boolean port = unit.vented() && !blocked;
    double[] k1 = new double[STATES];
    double[] k2 = new double[STATES];
    double[] k3 = new double[STATES];
    double[] k4 = new double[STATES];
    double[] at = new double[STATES];
    double[] s = out.state;
    for (int n = 0; n < wanted.length; n++) {
      double u = amplifier.step(wanted[n], s[2]);
      out.slopes(s, u, boxed, port, k1);
      out.keep(n, u, k1[1]);
      out.slopes(moved(s, k1, STEP / 2, at), u, boxed, port, k2);
      out.slopes(moved(s, k2, STEP / 2, at), u, boxed, port, k3);
      out.slopes(moved(s, k3, STEP, at), u, boxed, port, k4);
      for (int i = 0; i < STATES; i++) {
        s[i] += STEP / 6 * (k1[i] + 2 * k2[i] + 2 * k3[i] + k4[i]);
      }
    }
    return out;
  }

  private static double[] moved(double[] s, double[] slope, double by, double[] out) {
    for (int i = 0; i < STATES; i++) {
      out[i] = s[i] + by * slope[i];
    }
    return out;
  }

  private void keep(int n, double u, double a) {
    voltage[n] = u;
    current[n] = state[2];
    displacement[n] = state[0];
    acceleration[n] = a;
    pressure[n] = state[4];
    portFlow[n] = state[5];
    panel[0][n] = state[6];
    panel[1][n] = state[8];
  }

  private void slopes(double[] s, double u, boolean boxed, boolean port, double[] out) {
    Coil coil = unit.coil();
    Cone cone = unit.cone();
    Box box = unit.box();
    double x = s[0];
    double v = s[1];
    double i = s[2];
    double bl = cone.bl() * (1 + x * (cone.b1() + x * cone.b2()));
    double stiffness = cone.stiffness() * (1 + x * (cone.k1() + x * cone.k2()));
    double le = Math.max(0.2 * coil.le(), coil.le() + coil.leSlope() * x);
    double eddy = coil.r2() * (i - s[3]);
    double p = boxed ? s[4] : 0;
    out[0] = v;
    out[1] =
        (bl * i
                + 0.5 * i * i * coil.leSlope()
                - cone.resistance() * v
                - stiffness * x
                + cone.area() * p)
            / cone.mass();
    out[2] = (u - coil.re() * i - bl * v - eddy - i * coil.leSlope() * v) / le;
    out[3] = eddy / coil.l2();
    double flow = s[5];
    double inward = -cone.area() * v - p / box.leak() - flow;
    for (int k = 0; k < 2; k++) {
      Panel panelMode = unit.panels().get(k);
      double q = s[6 + 2 * k];
      double dq = s[7 + 2 * k];
      inward -= panelMode.driven() * dq;
      out[6 + 2 * k] = dq;
      out[7 + 2 * k] =
          (panelMode.driven() * p - panelMode.resistance() * dq - panelMode.stiffness() * q)
              / panelMode.mass();
    }
    out[4] = boxed ? inward / box.compliance() : 0;
    out[5] =
        port && boxed
            ? (p - box.portFriction() * flow - box.portLoss() * Math.abs(flow) * flow)
                / box.portMass()
            : 0;
  }

  int size() {
    return voltage.length;
  }

  /** Second difference of an array, per s². */
  static double[] bend(double[] x) {
    double[] out = new double[x.length];
    for (int n = 1; n + 1 < x.length; n++) {
      out[n] = (x[n + 1] - 2 * x[n] + x[n - 1]) * RATE * RATE;
    }
    return out;
  }

  /** First difference, per s. */
  static double[] slope(double[] x) {
    double[] out = new double[x.length];
    for (int n = 1; n + 1 < x.length; n++) {
      out[n] = (x[n + 1] - x[n - 1]) * RATE / 2;
    }
    return out;
  }
}
