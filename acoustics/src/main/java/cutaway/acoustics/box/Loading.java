package cutaway.acoustics.box;

import cutaway.acoustics.driveunit.RearLoad;
import java.util.ArrayList;
import java.util.List;

/**
 * How the air behind the diaphragm is held.
 *
 * <p>With v = f/f_0 and losses counted at f_0 (f_b, or f_s for a closed box): y = 1/(1 + jv/Q_A) +
 * 1/(jv Q_L) + the vent's branch. Source: R. H. Small, J. Audio Eng. Soc. 20 (1972) and 21 (1973)
 * (citations from memory); derived in {@code docs/methods/box.md}.
 */
public sealed interface Loading extends RearLoad {
  /** Whether air leaks out elsewhere than through the vent. */
  boolean leak();

  /** Whether something in the box absorbs. */
  boolean absorption();

  /**
   * A sealed box.
   *
   * @param leak whether a leak is modelled
   * @param absorption whether absorption is modelled
   */
  record Closed(boolean leak, boolean absorption) implements Loading {
    @Override
    public String words() {
      return "sealed";
    }

    @Override
    public List<String> symbols() {
      return lossSymbols(new ArrayList<>());
    }

    @Override
    public boolean ownFrequency() {
      return false;
    }

    @Override
    public Loading with(boolean withLeak, boolean withAbsorption) {
      return new Closed(withLeak, withAbsorption);
    }

    @Override
    public void at(double v, double[] p, double[] out) {
      out[0] = 0;
      out[1] = 0;
      out[2] = 0;
      out[3] = 0;
      addLosses(this, v, p, 0, out);
    }
  }

  /**
   * A box with one or several ports that act as one mass of air.
   *
   * @param portLoss whether a loss in the port is modelled
   * @param leak whether a leak is modelled
   * @param absorption whether absorption is modelled
   */
  record Vented(boolean portLoss, boolean leak, boolean absorption) implements Loading {
    @Override
    public String words() {
      return "vented";
    }

    @Override
    public List<String> symbols() {
      return lossSymbols(new ArrayList<>(portLoss ? List.of("f_b", "Q_P") : List.of("f_b")));
    }

    @Override
    public boolean ownFrequency() {
      return true;
    }

    @Override
    public Loading with(boolean withLeak, boolean withAbsorption) {
      return new Vented(portLoss, withLeak, withAbsorption);
    }

    @Override
    public Loading withPortLoss(boolean loss) {
      return new Vented(loss, leak, absorption);
    }

    @Override
    public void at(double v, double[] p, double[] out) {
      // port: 1/(−v² + jv/Q_P)
      double loss = portLoss ? v / p[0] : 0;
      addPort(-v * v, loss, -2 * v * v, loss, out);
      if (portLoss) {
        out[4] = out[12];
        out[5] = out[13];
      }
      addLosses(this, v, p, portLoss ? 1 : 0, out);
    }
  }

  /**
   * A box with a passive radiator: a mass on a spring of its own in place of the port.
   *
   * @param portLoss whether a loss in the radiator is modelled
   * @param leak whether a leak is modelled
   * @param absorption whether absorption is modelled
   */
  record PassiveRadiator(boolean portLoss, boolean leak, boolean absorption) implements Loading {
    @Override
    public String words() {
      return "passive radiator";
    }

    @Override
    public List<String> symbols() {
      return lossSymbols(
          new ArrayList<>(portLoss ? List.of("f_b", "Q_P", "δ") : List.of("f_b", "δ")));
    }

    @Override
    public boolean ownFrequency() {
      return true;
    }

    @Override
    public Loading with(boolean withLeak, boolean withAbsorption) {
      return new PassiveRadiator(portLoss, withLeak, withAbsorption);
    }

    @Override
    public Loading withPortLoss(boolean loss) {
      return new PassiveRadiator(loss, leak, absorption);
    }

    @Override
    public void at(double v, double[] p, double[] out) {
      // radiator: 1/((1+δ)(−v² + jv/Q_P) + δ), δ = C_ab/C_ap
      int at = portLoss ? 1 : 0;
      double delta = p[at];
      double g = 1 + delta;
      double loss = portLoss ? v / p[0] : 0;
      addPort(-g * v * v + delta, g * loss, -2 * g * v * v, g * loss, out);
      if (portLoss) {
        out[4] = out[12];
        out[5] = out[13];
      }
      // ∂y/∂ln δ = −δ (1 − v² + jv/Q_P) y_port²
      double dRe = 1 - v * v;
      out[4 + 2 * at] = -delta * (dRe * out[14] - loss * out[15]);
      out[5 + 2 * at] = -delta * (dRe * out[15] + loss * out[14]);
      addLosses(this, v, p, at + 1, out);
    }
  }

  /** The same kind with other losses. */
  Loading with(boolean withLeak, boolean withAbsorption);

  /** The same kind with or without a loss in its port; a closed box has none. */
  default Loading withPortLoss(boolean loss) {
    return this;
  }

  @Override
  default List<RearLoad> alternatives() {
    List<RearLoad> out = new ArrayList<>();
    for (boolean port : ownFrequency() ? new boolean[] {true, false} : new boolean[] {false}) {
      for (boolean leaky : new boolean[] {false, true}) {
        for (boolean absorbent : new boolean[] {false, true}) {
          out.add(withPortLoss(port).with(leaky, absorbent));
        }
      }
    }
    return List.copyOf(out);
  }

  @Override
  default void branches(double v, double[] p, double[] out) {
    double[] y = new double[16];
    at(v, p, y);
    int next = p.length - 1;
    double x = absorption() ? v / p[next--] : 0;
    double cRe = 1 / (1 + x * x);
    double cIm = -x * cRe;
    double leakIm = leak() ? -1 / (v * p[next]) : 0;
    out[0] = y[0] - cRe;
    out[1] = y[1] - cIm - leakIm;
    out[2] = 0;
    out[3] = leakIm;
    out[4] = cRe;
    out[5] = cIm;
  }

  /** Symbols of the losses after what a kind has of its own. */
  default List<String> lossSymbols(List<String> own) {
    if (leak()) {
      own.add("Q_L");
    }
    if (absorption()) {
      own.add("Q_A");
    }
    return own;
  }

  /**
   * Writes the port's y and ∂y/∂ln v, and to scratch places ∂y/∂ln Q_P (12, 13) and y² (14, 15).
   *
   * @param re real part of the port's normalised impedance
   * @param im imaginary part
   * @param dRe derivative of the real part with respect to ln v
   * @param dIm derivative of the imaginary part with respect to ln v, also minus that to ln Q_P
   */
  private static void addPort(double re, double im, double dRe, double dIm, double[] out) {
    double inv = 1 / (re * re + im * im);
    double yRe = re * inv;
    double yIm = -im * inv;
    double sRe = yRe * yRe - yIm * yIm;
    double sIm = 2 * yRe * yIm;
    out[0] = yRe;
    out[1] = yIm;
    out[2] = -(dRe * sRe - dIm * sIm);
    out[3] = -(dRe * sIm + dIm * sRe);
    out[12] = -dIm * sIm;
    out[13] = dIm * sRe;
    out[14] = sRe;
    out[15] = sIm;
  }

  /** Adds compliance, absorption and leak, whose Q stand in p from {@code at} on. */
  private static void addLosses(Loading box, double v, double[] p, int at, double[] out) {
    int next = at;
    if (box.leak()) {
      double g = 1 / (v * p[next]);
      out[1] -= g;
      out[3] += g;
      out[4 + 2 * next] = 0;
      out[5 + 2 * next] = g;
      next++;
    }
    if (box.absorption()) {
      double x = v / p[next];
      double inv = 1 / (1 + x * x);
      out[0] += inv;
      out[1] -= x * inv;
      // c = 1/(1+jx): ∂c/∂ln x = −jx c²
      double dRe = -2 * x * x * inv * inv;
      double dIm = -x * (1 - x * x) * inv * inv;
      out[2] += dRe;
      out[3] += dIm;
      out[4 + 2 * next] = -dRe;
      out[5 + 2 * next] = -dIm;
    } else {
      out[0] += 1;
    }
  }
}
