package cutaway.acoustics.driveunit;

import cutaway.acoustics.estimate.Jacobian;
import java.util.Arrays;

/**
 * Impedance of one take over its frequencies, with derivatives, and the room to compute it in.
 *
 * <p>Kept from one evaluation to the next to spare the allocation. Each row holds one real quantity
 * for every frequency, so that the loops over it become vector instructions; complex quantities
 * have two rows, real and imaginary parts.
 */
final class TakeResponse {
  /** Hz. */
  final double[] frequency;

  /** 2πf, rad/s. */
  final double[] omega;

  /** Terminal impedance, Ω. */
  final double[][] impedance;

  /** f/f_s. */
  final double[] u;

  /** f over the box's own frequency. */
  final double[] v;

  /** What {@link CoilLoss#at} writes. */
  final double[][] coil;

  /** What {@link Suspension#at} writes. */
  final double[][] suspension;

  /** What {@link RearLoad#at} writes. */
  final double[][] load;

  /** Moving mass over M_ms, its derivatives, and κh of the support. */
  final double[][] mass;

  /** Mechanical impedance over ω_s M_ms. */
  final double[][] z;

  /** The box's share of z. */
  final double[][] box;

  /** Motional impedance, Ω. */
  final double[][] motional;

  /** ∂ln Z/∂Z. */
  final double[][] byTerminal;

  /** ∂ln Z/∂z. */
  final double[][] byMechanical;

  final double[][] work;
  final double[][] product;

  /** Derivatives that nobody else has made room for. */
  private final Jacobian own;

  private Jacobian re;
  private int reStretch;
  private Jacobian im;
  private int imStretch;

  /**
   * Makes room.
   *
   * @param frequency Hz, kept, not copied
   * @param parameters how many parameters there are to take derivatives for
   */
  TakeResponse(double[] frequency, int parameters) {
    int n = frequency.length;
    this.frequency = frequency;
    this.omega = new double[n];
    for (int i = 0; i < n; i++) {
      omega[i] = 2 * Math.PI * frequency[i];
    }
    this.impedance = new double[2][n];
    this.u = new double[n];
    this.v = new double[n];
    this.coil = new double[12][n];
    this.suspension = new double[8][n];
    this.load = new double[RearLoad.ROWS][n];
    this.mass = new double[8][n];
    this.z = new double[2][n];
    this.box = new double[2][n];
    this.motional = new double[2][n];
    this.byTerminal = new double[2][n];
    this.byMechanical = new double[2][n];
    this.work = new double[2][n];
    this.product = new double[2][n];
    this.own = new Jacobian(parameters, n, n);
    this.re = own;
    this.im = own;
    this.imStretch = 1;
  }

  int size() {
    return frequency.length;
  }

  /**
   * Has derivatives of ln Z written to two stretches of a Jacobian, or one, of their real parts.
   *
   * @param imaginary stretch of the imaginary parts, −1 where they are not wanted
   */
  void writeTo(Jacobian jacobian, int real, int imaginary) {
    re = jacobian;
    reStretch = real;
    im = imaginary < 0 ? own : jacobian;
    imStretch = imaginary < 0 ? 1 : imaginary;
  }

  /** Real part of ∂ln Z/∂θ at one point. */
  double derivativeRe(int parameter, int point) {
    return re.at(reStretch, point, parameter);
  }

  /** Writes a derivative as factor × the complex rows from {@code at} on × by. */
  void derive(int parameter, double factor, double[][] rows, int at, double[][] by) {
    multiply(factor, rows, at, by, room(parameter));
  }

  /** Writes a derivative as factor × a complex row. */
  void derive(int parameter, double factor, double[][] row) {
    double[][] out = room(parameter);
    for (int part = 0; part < 2; part++) {
      double[] from = row[part];
      double[] to = out[part];
      for (int i = 0; i < to.length; i++) {
        to[i] = factor * from[i];
      }
    }
  }

  /** Adds one derivative to another. */
  void addDerivative(int to, int from) {
    addDerivative(to, room(from));
  }

  /** Writes a derivative as the sum of others, each times a factor. */
  void deriveAsSum(int parameter, int[] of, double[] factors) {
    double[][] out = room(parameter);
    for (int part = 0; part < 2; part++) {
      double[] to = out[part];
      Arrays.fill(to, 0);
      for (int j = 0; j < of.length; j++) {
        double[] from = room(of[j])[part];
        double factor = factors[j];
        for (int i = 0; i < to.length; i++) {
          to[i] += factor * from[i];
        }
      }
    }
  }

  /** Adds a complex row to a derivative. */
  void addDerivative(int to, double[][] row) {
    double[][] out = room(to);
    add(out[0], row[0]);
    add(out[1], row[1]);
  }

  private static void add(double[] to, double[] from) {
    for (int i = 0; i < to.length; i++) {
      to[i] += from[i];
    }
  }

  private double[][] room(int parameter) {
    return new double[][] {re.column(reStretch, parameter), im.column(imStretch, parameter)};
  }

  /** Writes factor × the complex rows of a from {@code at} on × b; out may not be either. */
  static void multiply(double factor, double[][] a, int at, double[][] b, double[][] out) {
    double[] aRe = a[at];
    double[] aIm = a[at + 1];
    double[] bRe = b[0];
    double[] bIm = b[1];
    double[] re = out[0];
    double[] im = out[1];
    for (int i = 0; i < re.length; i++) {
      re[i] = factor * (aRe[i] * bRe[i] - aIm[i] * bIm[i]);
      im[i] = factor * (aRe[i] * bIm[i] + aIm[i] * bRe[i]);
    }
  }
}
