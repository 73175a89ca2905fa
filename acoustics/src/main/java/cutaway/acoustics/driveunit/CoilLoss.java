package cutaway.acoustics.driveunit;

import java.util.List;

/**
 * Impedance of the voice coil above its DC resistance: inductance and eddy losses in the iron.
 *
 * <p>Every kind is a function of angular frequency and of a few positive values in SI units; the
 * fit works in their logarithms.
 */
public sealed interface CoilLoss {
  /** No inductance at all; for curves that end before it shows. */
  record None() implements CoilLoss {
    @Override
    public String words() {
      return "no inductance";
    }

    @Override
    public List<String> symbols() {
      return List.of();
    }

    @Override
    public double[] values() {
      return new double[0];
    }

    @Override
    public CoilLoss with(double[] v) {
      return this;
    }

    @Override
    public void at(double omega, double[] out) {
      out[0] = 0;
      out[1] = 0;
    }
  }

  /**
   * A lossless inductance.
   *
   * @param l inductance, H
   */
  record Ideal(double l) implements CoilLoss {
    @Override
    public String words() {
      return "ideal inductance";
    }

    @Override
    public List<String> symbols() {
      return List.of("L_e");
    }

    @Override
    public double[] values() {
      return new double[] {l};
    }

    @Override
    public CoilLoss with(double[] v) {
      return new Ideal(v[0]);
    }

    @Override
    public void at(double omega, double[] out) {
      out[0] = 0;
      out[1] = omega * l;
      out[2] = 0;
      out[3] = omega * l;
    }
  }

  /**
   * An inductance in series with one lossy loop.
   *
   * @param l series inductance, H
   * @param l2 inductance of the loop, H
   * @param r2 resistance across it, Ω
   */
  record OneLoop(double l, double l2, double r2) implements CoilLoss {
    @Override
    public String words() {
      return "inductance and one lossy loop";
    }

    @Override
    public List<String> symbols() {
      return List.of("L_e", "L_2", "R_2");
    }

    @Override
    public double[] values() {
      return new double[] {l, l2, r2};
    }

    @Override
    public CoilLoss with(double[] v) {
      return new OneLoop(v[0], v[1], v[2]);
    }

    @Override
    public void at(double omega, double[] out) {
      out[0] = 0;
      out[1] = omega * l;
      out[2] = 0;
      out[3] = omega * l;
      addLoop(omega, l2, r2, out, 4);
    }
  }

  /**
   * An inductance in series with two lossy loops.
   *
   * @param l series inductance, H
   * @param l2 inductance of the first loop, H
   * @param r2 resistance across it, Ω
   * @param l3 inductance of the second loop, H
   * @param r3 resistance across it, Ω
   */
  record TwoLoops(double l, double l2, double r2, double l3, double r3) implements CoilLoss {
    @Override
    public String words() {
      return "inductance and two lossy loops";
    }

    @Override
    public List<String> symbols() {
      return List.of("L_e", "L_2", "R_2", "L_3", "R_3");
    }

    @Override
    public double[] values() {
      return new double[] {l, l2, r2, l3, r3};
    }

    @Override
    public CoilLoss with(double[] v) {
      return new TwoLoops(v[0], v[1], v[2], v[3], v[4]);
    }

    @Override
    public void at(double omega, double[] out) {
      out[0] = 0;
      out[1] = omega * l;
      out[2] = 0;
      out[3] = omega * l;
      addLoop(omega, l2, r2, out, 4);
      addLoop(omega, l3, r3, out, 8);
    }
  }

  /**
   * Z = K (jω)ⁿ. Source: W. M. Leach, J. Audio Eng. Soc. 50 (2002) no. 6 (citation as given, not
   * opened).
   *
   * @param k factor, Ω·sⁿ
   * @param n exponent, between 0 (a resistance) and 1 (an ideal inductance)
   */
  record PowerLaw(double k, double n) implements CoilLoss {
    @Override
    public String words() {
      return "power law K(jω)ⁿ";
    }

    @Override
    public List<String> symbols() {
      return List.of("K", "n");
    }

    @Override
    public double[] values() {
      return new double[] {k, n};
    }

    @Override
    public CoilLoss with(double[] v) {
      return new PowerLaw(v[0], v[1]);
    }

    @Override
    public void at(double omega, double[] out) {
      double magnitude = k * Math.pow(omega, n);
      double angle = n * Math.PI / 2;
      double re = magnitude * Math.cos(angle);
      double im = magnitude * Math.sin(angle);
      out[0] = re;
      out[1] = im;
      out[2] = re;
      out[3] = im;
      // d/d ln n = n (ln ω + jπ/2) Z
      double logOmega = Math.log(omega);
      out[4] = n * (re * logOmega - im * Math.PI / 2);
      out[5] = n * (im * logOmega + re * Math.PI / 2);
    }
  }

  /** What kind this is, in plain words. */
  String words();

  /** Symbols of the values, in the order of {@link #values()}. */
  List<String> symbols();

  /** The values, SI, each above zero. */
  double[] values();

  /** The same kind with other values. */
  CoilLoss with(double[] values);

  /**
   * Impedance and its derivatives at one frequency.
   *
   * @param omega angular frequency, rad/s, above zero
   * @param out written: Re Z, Im Z in Ω, then for each value v the pair Re, Im of ∂Z/∂ln v
   */
  void at(double omega, double[] out);

  /** Number of values. */
  default int size() {
    return symbols().size();
  }

  /** Adds jωL ∥ R to Z and writes its derivatives with respect to ln L and ln R. */
  private static void addLoop(double omega, double l, double r, double[] out, int at) {
    double x = omega * l;
    double d = r * r + x * x;
    double re = r * x * x / d;
    double im = r * r * x / d;
    out[0] += re;
    out[1] += im;
    // Z = jxR/(R+jx): ∂Z/∂ln L = Z·R/(R+jx), ∂Z/∂ln R = Z·jx/(R+jx)
    out[at] = r * (re * r + im * x) / d;
    out[at + 1] = r * (im * r - re * x) / d;
    out[at + 2] = re - out[at];
    out[at + 3] = im - out[at + 1];
  }
}
