package cutaway.acoustics.driveunit;

import java.util.Arrays;

/**
 * Mechanical resistance and stiffness of the suspension, divided by ω_s M_ms, as a function of u =
 * f/f_s.
 *
 * <p>Every kind gives 1/Q_ms as its real part at u = 1, so that Q_ms always counts the whole
 * mechanical loss at resonance; its stiffness at u = 1 is that of C_ms to first order.
 */
public sealed interface Suspension {
  /** π/(2 ln 10): the imaginary part of log₁₀ j. */
  double LOG_J = Math.PI / (2 * Math.log(10));

  /** Resistance and compliance that do not change with frequency. */
  record Plain() implements Suspension {
    @Override
    public String words() {
      return "plain";
    }

    @Override
    public int size() {
      return 0;
    }

    @Override
    public double shape() {
      return 0;
    }

    @Override
    public Suspension with(double value) {
      return this;
    }

    @Override
    public double intrinsicLoss(double inverseQ) {
      return inverseQ;
    }

    @Override
    public void at(double[] u, double inverseQ, double[][] out) {
      Suspension.fill(u.length, out, inverseQ, 0, 1, 0, 0, 0, 0, 0);
      double[] im = out[1];
      double[] slopeIm = out[5];
      for (int i = 0; i < u.length; i++) {
        double y = 1 / u[i];
        im[i] = -y;
        slopeIm[i] = y;
      }
    }
  }

  /**
   * Creep: C(f) = C_ms [1 − λ log₁₀(jf/f_s)], its imaginary part a loss. Source: M. H. Knudsen and
   * J. G. Jensen, J. Audio Eng. Soc. 41 (1993) (citation as given, not opened).
   *
   * @param shape λ, dimensionless, 0 for none, near 0.1 for soft surrounds
   */
  record Creep(double shape) implements Suspension {
    @Override
    public String words() {
      return "creep";
    }

    @Override
    public Suspension with(double value) {
      return new Creep(value);
    }

    @Override
    public double intrinsicLoss(double inverseQ) {
      double e = shape * LOG_J;
      return inverseQ - e / (1 + e * e);
    }

    @Override
    public void at(double[] u, double inverseQ, double[][] out) {
      for (int i = 0; i < u.length; i++) {
        at(u[i], inverseQ, i, out);
      }
    }

    private void at(double u, double inverseQ, int i, double[][] out) {
      double re = Suspension.real(u, shape);
      double im = -shape * LOG_J;
      double e = shape * LOG_J;
      double square = 1 + e * e;
      // 1/(ju c) = −j (re − j im) / (u |c|²)
      double scale = 1 / (u * (re * re + im * im));
      double sRe = -im * scale;
      double sIm = -re * scale;
      out[0][i] = inverseQ - e / square + sRe;
      out[1][i] = sIm;
      out[2][i] = 1;
      out[3][i] = 0;
      // d/dλ of 1/(ju c): −s·c'/c with c' = −(log10 u + j LOG_J)
      double cRe = -Math.log10(u);
      double cIm = -LOG_J;
      double inv = 1 / (re * re + im * im);
      double qRe = (cRe * re + cIm * im) * inv;
      double qIm = (cIm * re - cRe * im) * inv;
      out[6][i] = -(sRe * qRe - sIm * qIm) - LOG_J * (1 - e * e) / (square * square);
      out[7][i] = -(sRe * qIm + sIm * qRe);
      // d/d ln u: −s − s·(dc/d ln u)/c, dc/d ln u = −λ/ln 10
      double g = -shape / Math.log(10);
      double gRe = g * re * inv;
      double gIm = -g * im * inv;
      out[4][i] = -sRe - (sRe * gRe - sIm * gIm);
      out[5][i] = -sIm - (sRe * gIm + sIm * gRe);
    }
  }

  /**
   * A compliance that falls with frequency without a loss of its own: the real part of the creep
   * law.
   *
   * @param shape λ, dimensionless
   */
  record StiffnessSlope(double shape) implements Suspension {
    @Override
    public String words() {
      return "creep of stiffness only";
    }

    @Override
    public Suspension with(double value) {
      return new StiffnessSlope(value);
    }

    @Override
    public double intrinsicLoss(double inverseQ) {
      return inverseQ;
    }

    @Override
    public void at(double[] u, double inverseQ, double[][] out) {
      Suspension.fill(u.length, out, inverseQ, 0, 1, 0, 0, 0, 0, 0);
      for (int i = 0; i < u.length; i++) {
        double c = Suspension.real(u[i], shape);
        double s = -1 / (u[i] * c);
        out[1][i] = s;
        out[5][i] = -s + s * (shape / Math.log(10)) / c;
        out[7][i] = s * Math.log10(u[i]) / c;
      }
    }
  }

  /**
   * A resistance that falls with frequency, R(f) = R_ms (f/f_s)^−β.
   *
   * @param shape β, dimensionless
   */
  record DampingSlope(double shape) implements Suspension {
    @Override
    public String words() {
      return "damping that falls with frequency";
    }

    @Override
    public Suspension with(double value) {
      return new DampingSlope(value);
    }

    @Override
    public double intrinsicLoss(double inverseQ) {
      return inverseQ;
    }

    @Override
    public void at(double[] u, double inverseQ, double[][] out) {
      Suspension.fill(u.length, out, 0, 0, 0, 0, 0, 0, 0, 0);
      for (int i = 0; i < u.length; i++) {
        double logU = Math.log(u[i]);
        double slope = Math.exp(-shape * logU);
        out[0][i] = inverseQ * slope;
        out[1][i] = -1 / u[i];
        out[2][i] = slope;
        out[4][i] = -shape * inverseQ * slope;
        out[5][i] = 1 / u[i];
        out[6][i] = -inverseQ * slope * logU;
      }
    }
  }

  /** What kind this is, in plain words. */
  String words();

  /** The one shape parameter, or 0 where the kind has none. */
  double shape();

  /** The same kind with another shape parameter. */
  Suspension with(double value);

  /** Number of shape parameters, 0 or 1. */
  default int size() {
    return 1;
  }

  /**
   * The loss of R_ms alone, without what the compliance itself loses.
   *
   * @param inverseQ 1/Q_ms
   * @return R_ms / (ω_s M_ms)
   */
  double intrinsicLoss(double inverseQ);

  /**
   * The normalised impedance and its derivatives.
   *
   * @param u f/f_s, above zero
   * @param inverseQ 1/Q_ms
   * @param out eight rows at least as long as u, written: Re, Im of the value; of ∂/∂(1/Q_ms); of
   *     ∂/∂ln u; of ∂/∂shape
   */
  void at(double[] u, double inverseQ, double[][] out);

  /** Fills the first n places of each row with its constant. */
  private static void fill(int n, double[][] rows, double... constants) {
    for (int k = 0; k < constants.length; k++) {
      Arrays.fill(rows[k], 0, n, constants[k]);
    }
  }

  /** Real part of the creep factor, held above 0.1, where the law has long lost its meaning. */
  private static double real(double u, double shape) {
    return Math.max(0.1, 1 - shape * Math.log10(u));
  }
}
