package cutaway.acoustics.driveunit;

import java.util.Arrays;
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
    public List<String> units() {
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
    public void at(double[] omega, double[][] out) {
      Arrays.fill(out[0], 0, omega.length, 0);
      Arrays.fill(out[1], 0, omega.length, 0);
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
    public List<String> units() {
      return List.of("H");
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
    public void at(double[] omega, double[][] out) {
      series(omega, l, out);
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
    public List<String> units() {
      return List.of("H", "H", "Ω");
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
    public void at(double[] omega, double[][] out) {
      series(omega, l, out);
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
    public List<String> units() {
      return List.of("H", "H", "Ω", "H", "Ω");
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
    public void at(double[] omega, double[][] out) {
      series(omega, l, out);
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
    public List<String> units() {
      return List.of("Ω·sⁿ", "1");
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
    public void at(double[] omega, double[][] out) {
      double cos = k * Math.cos(n * Math.PI / 2);
      double sin = k * Math.sin(n * Math.PI / 2);
      for (int i = 0; i < omega.length; i++) {
        double logOmega = Math.log(omega[i]);
        double magnitude = Math.exp(n * logOmega);
        double re = magnitude * cos;
        double im = magnitude * sin;
        out[0][i] = re;
        out[1][i] = im;
        out[2][i] = re;
        out[3][i] = im;
        // d/d ln n = n (ln ω + jπ/2) Z
        out[4][i] = n * (re * logOmega - im * Math.PI / 2);
        out[5][i] = n * (im * logOmega + re * Math.PI / 2);
      }
    }
  }

  /** What kind this is, in plain words. */
  String words();

  /** Symbols of the values, in the order of {@link #values()}. */
  List<String> symbols();

  /** Units of the values, in the same order. */
  List<String> units();

  /** The values, SI, each above zero. */
  double[] values();

  /** The same kind with other values. */
  CoilLoss with(double[] values);

  /**
   * Impedance and its derivatives.
   *
   * @param omega angular frequencies, rad/s, above zero
   * @param out rows at least as long as omega, written: Re Z, Im Z in Ω, then for each value v the
   *     pair Re, Im of ∂Z/∂ln v
   */
  void at(double[] omega, double[][] out);

  /** Number of values. */
  default int size() {
    return symbols().size();
  }

  /** Writes jωL and its derivative with respect to ln L. */
  private static void series(double[] omega, double l, double[][] out) {
    Arrays.fill(out[0], 0, omega.length, 0);
    Arrays.fill(out[2], 0, omega.length, 0);
    double[] im = out[1];
    double[] dIm = out[3];
    for (int i = 0; i < omega.length; i++) {
      im[i] = omega[i] * l;
      dIm[i] = omega[i] * l;
    }
  }

  /** Adds jωL ∥ R to Z and writes its derivatives with respect to ln L and ln R. */
  private static void addLoop(double[] omega, double l, double r, double[][] out, int at) {
    double[] zRe = out[0];
    double[] zIm = out[1];
    double[] lRe = out[at];
    double[] lIm = out[at + 1];
    double[] rRe = out[at + 2];
    double[] rIm = out[at + 3];
    // Z = jxR/(R+jx): ∂Z/∂ln L = Z·R/(R+jx) and ∂Z/∂ln R = Z·jx/(R+jx), which add up to Z; the
    // passes are short so that they become vector instructions
    for (int i = 0; i < omega.length; i++) {
      double x = omega[i] * l;
      lRe[i] = x;
      rRe[i] = r / (r * r + x * x);
    }
    for (int i = 0; i < omega.length; i++) {
      double x = lRe[i];
      rIm[i] = r * x * rRe[i];
      rRe[i] = x * x * rRe[i];
    }
    for (int i = 0; i < omega.length; i++) {
      zRe[i] += rRe[i];
      zIm[i] += rIm[i];
    }
    double inverseR = 1 / r;
    for (int i = 0; i < omega.length; i++) {
      double loss = 1 - rRe[i] * inverseR;
      double store = rIm[i] * inverseR;
      lIm[i] = loss * rIm[i] - store * rRe[i];
      lRe[i] = loss * rRe[i] + store * rIm[i];
    }
    for (int i = 0; i < omega.length; i++) {
      rRe[i] -= lRe[i];
      rIm[i] -= lIm[i];
    }
  }
}
