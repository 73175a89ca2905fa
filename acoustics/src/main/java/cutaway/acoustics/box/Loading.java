package cutaway.acoustics.box;

import cutaway.acoustics.driveunit.RearLoad;
import java.util.ArrayList;
import java.util.Arrays;
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
    public void at(double[] v, double[] p, double[][] out) {
      for (int row = 0; row < 4; row++) {
        Arrays.fill(out[row], 0, v.length, 0);
      }
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
    public void at(double[] v, double[] p, double[][] out) {
      writePort(v, 0, portLoss ? 1 / p[0] : 0, out);
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
    public void at(double[] v, double[] p, double[][] out) {
      int at = portLoss ? 1 : 0;
      double delta = p[at];
      double inverseQ = portLoss ? 1 / p[0] : 0;
      writePort(v, delta, inverseQ, out);
      double[] squareRe = out[SQUARE];
      double[] squareIm = out[SQUARE + 1];
      double[] dRe = out[4 + 2 * at];
      double[] dIm = out[5 + 2 * at];
      for (int i = 0; i < v.length; i++) {
        // ∂y/∂ln δ = −δ (1 − v² + jv/Q_P) y_port²
        double re = 1 - v[i] * v[i];
        double im = v[i] * inverseQ;
        dRe[i] = -delta * (re * squareRe[i] - im * squareIm[i]);
        dIm[i] = -delta * (re * squareIm[i] + im * squareRe[i]);
      }
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
  default void branches(double v, double[] p, double yRe, double yIm, double[] out) {
    int next = p.length - 1;
    double x = absorption() ? v / p[next--] : 0;
    double cRe = 1 / (1 + x * x);
    double cIm = -x * cRe;
    double leakIm = leak() ? -1 / (v * p[next]) : 0;
    out[0] = yRe - cRe;
    out[1] = yIm - cIm - leakIm;
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

  /** Scratch rows from which the square of the port's branch can be read. */
  int SQUARE = 14;

  /**
   * Writes the branch of a port or passive radiator, y = 1/((1+δ)(−v² + jv/Q_P) + δ), ∂y/∂ln v,
   * ∂y/∂ln Q_P where there is such a loss, and y² at {@link #SQUARE}.
   *
   * @param delta stiffness of the radiator's suspension over that of the box, zero for a port
   * @param inverseQ 1/Q_P, zero where no loss is modelled
   */
  private static void writePort(double[] v, double delta, double inverseQ, double[][] out) {
    double g = 1 + delta;
    double[] yRe = out[0];
    double[] yIm = out[1];
    double[] vRe = out[2];
    double[] vIm = out[3];
    double[] squareRe = out[SQUARE];
    double[] squareIm = out[SQUARE + 1];
    for (int i = 0; i < v.length; i++) {
      double mass = g * v[i] * v[i];
      double re = delta - mass;
      double im = g * v[i] * inverseQ;
      double inv = 1 / (re * re + im * im);
      double pRe = re * inv;
      double pIm = -im * inv;
      double sRe = pRe * pRe - pIm * pIm;
      double sIm = 2 * pRe * pIm;
      yRe[i] = pRe;
      yIm[i] = pIm;
      // ∂/∂ln v of the branch's impedance is −2gv² + jgv/Q_P
      vRe[i] = 2 * mass * sRe + im * sIm;
      vIm[i] = 2 * mass * sIm - im * sRe;
      squareRe[i] = sRe;
      squareIm[i] = sIm;
    }
    if (inverseQ > 0) {
      double[] qRe = out[4];
      double[] qIm = out[5];
      for (int i = 0; i < v.length; i++) {
        double im = g * v[i] * inverseQ;
        qRe[i] = -im * squareIm[i];
        qIm[i] = im * squareRe[i];
      }
    }
  }

  /** Adds compliance, absorption and leak, whose Q stand in p from {@code at} on. */
  private static void addLosses(Loading box, double[] v, double[] p, int at, double[][] out) {
    int next = at;
    if (box.leak()) {
      addLeak(v, p[next], out, 4 + 2 * next);
      next++;
    }
    if (box.absorption()) {
      addAbsorption(v, p[next], out, 4 + 2 * next);
    } else {
      double[] re = out[0];
      for (int i = 0; i < v.length; i++) {
        re[i] += 1;
      }
    }
  }

  private static void addLeak(double[] v, double q, double[][] out, int at) {
    Arrays.fill(out[at], 0, v.length, 0);
    double[] im = out[1];
    double[] vIm = out[3];
    double[] qIm = out[at + 1];
    for (int i = 0; i < v.length; i++) {
      double g = 1 / (v[i] * q);
      im[i] -= g;
      vIm[i] += g;
      qIm[i] = g;
    }
  }

  private static void addAbsorption(double[] v, double q, double[][] out, int at) {
    double[] re = out[0];
    double[] im = out[1];
    double[] vRe = out[2];
    double[] vIm = out[3];
    double[] qRe = out[at];
    double[] qIm = out[at + 1];
    double inverseQ = 1 / q;
    for (int i = 0; i < v.length; i++) {
      double x = v[i] * inverseQ;
      double inv = 1 / (1 + x * x);
      // c = 1/(1+jx): ∂c/∂ln x = −jx c²
      double dRe = -2 * x * x * inv * inv;
      double dIm = -x * (1 - x * x) * inv * inv;
      re[i] += inv;
      im[i] -= x * inv;
      vRe[i] += dRe;
      vIm[i] += dIm;
      qRe[i] = -dRe;
      qIm[i] = -dIm;
    }
  }
}
