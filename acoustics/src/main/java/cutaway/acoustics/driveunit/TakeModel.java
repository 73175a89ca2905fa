package cutaway.acoustics.driveunit;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * Terminal impedance of one take as a function of frequency, with its derivatives.
 *
 * <p>Z = R_k + Z_coil + (R_e/Q_es)/z, z = ju m + s(u) + α/(ju y). Here u = f/f_s, m is the moving
 * mass over M_ms (in parallel with the frame where the support is springy), s the suspension, y the
 * box.
 */
final class TakeModel {
  private final ModelChoice choice;
  private final Layout layout;
  private final Layout.TakeSlots slots;
  private final RearLoad load;
  private final CoilLoss coil;
  private final Suspension suspension;
  private final double re;
  private final double takeRe;
  private final double leads;
  private final double fs;
  private final double inverseQms;
  private final double motor;
  private final double added;
  private final double boxMass;
  private final double alpha;
  private final double[] loadValues;
  private final double loadFrequency;
  private final double supportMass;
  private final double supportFrequency;
  private final double supportQ;
  private @Nullable TakeResponse onePoint;

  TakeModel(ModelChoice choice, Layout layout, int take, double[] theta) {
    this.choice = choice;
    this.layout = layout;
    this.slots = layout.take(take);
    this.load = choice.loads().get(take);
    double[] coilValues = new double[choice.coil().size()];
    for (int i = 0; i < coilValues.length; i++) {
      coilValues[i] = Math.exp(theta[layout.coil + i]);
    }
    this.coil = choice.coil().with(coilValues);
    this.suspension =
        layout.suspension < 0
            ? choice.suspension()
            : choice.suspension().with(theta[layout.suspension]);
    this.re = Math.exp(theta[Layout.RE]);
    this.takeRe = re * exp(theta, slots.resistance(), 1);
    this.leads = layout.leads < 0 ? 0 : layout.leadsUnit * theta[layout.leads];
    // a stiffer suspension: f_s, Q_ms and Q_es rise with its root, α falls with it
    double drift = slots.drift() < 0 ? 0 : theta[slots.drift()];
    this.fs = Math.exp(theta[Layout.FS] + drift);
    this.inverseQms = Math.exp(-theta[Layout.QMS] - drift);
    this.motor = re * Math.exp(-theta[Layout.QES] - drift);
    this.added = exp(theta, slots.addedMass(), 0);
    this.boxMass = exp(theta, slots.boxMass(), 0);
    this.alpha = exp(theta, slots.stiffness(), 0) * Math.exp(-2 * drift);
    int own = load.ownFrequency() ? 1 : 0;
    this.loadValues = new double[load.symbols().size() - own];
    for (int i = 0; i < loadValues.length; i++) {
      loadValues[i] = Math.exp(theta[slots.load() + own + i]);
    }
    this.loadFrequency = own == 1 ? Math.exp(theta[slots.load()]) : fs;
    this.supportMass = exp(theta, layout.supportMass, 0);
    this.supportFrequency = layout.supportMass < 0 ? 0 : Math.exp(theta[layout.supportMass + 1]);
    this.supportQ = layout.supportMass < 0 ? 1 : Math.exp(theta[layout.supportMass + 2]);
  }

  private static double exp(double[] theta, int at, double absent) {
    return at < 0 ? absent : Math.exp(theta[at]);
  }

  /** Impedance at one frequency in Hz; writes its real and imaginary part, Ω. */
  void at(double f, double[] z) {
    TakeResponse r = onePoint(f);
    z[0] = r.impedance[0][0];
    z[1] = r.impedance[1][0];
  }

  private TakeResponse onePoint(double f) {
    TakeResponse r = onePoint;
    if (r == null) {
      r = new TakeResponse(new double[1], layout.size);
      onePoint = r;
    }
    r.frequency[0] = f;
    r.omega[0] = 2 * Math.PI * f;
    at(r, false);
    return r;
  }

  /** Impedance over the frequencies of a response and, where wanted, its derivatives. */
  void at(TakeResponse r, boolean derivatives) {
    double[] u = r.u;
    double perFs = 1 / fs;
    for (int i = 0; i < u.length; i++) {
      u[i] = r.frequency[i] * perFs;
    }
    coil.at(r.omega, r.coil);
    suspension.at(u, inverseQms, r.suspension);
    mass(r);
    mechanical(r);
    if (slots.stiffness() >= 0) {
      box(r);
    }
    terminals(r);
    if (derivatives) {
      derivatives(r);
    }
  }

  /** Writes s + ju m. */
  private static void mechanical(TakeResponse r) {
    double[] u = r.u;
    double[] zRe = r.z[0];
    double[] zIm = r.z[1];
    double[] sRe = r.suspension[0];
    double[] sIm = r.suspension[1];
    double[] mRe = r.mass[0];
    double[] mIm = r.mass[1];
    for (int i = 0; i < u.length; i++) {
      zRe[i] = sRe[i] - u[i] * mIm[i];
    }
    for (int i = 0; i < u.length; i++) {
      zIm[i] = sIm[i] + u[i] * mRe[i];
    }
  }

  /** Adds the box's spring b = α/(ju y) to z. */
  private void box(TakeResponse r) {
    double perLoad = 1 / loadFrequency;
    for (int i = 0; i < r.v.length; i++) {
      r.v[i] = r.frequency[i] * perLoad;
    }
    load.at(r.v, loadValues, r.load);
    double[] yRe = r.load[0];
    double[] yIm = r.load[1];
    double[] u = r.u;
    double[] bRe = r.box[0];
    double[] bIm = r.box[1];
    double[] zRe = r.z[0];
    double[] zIm = r.z[1];
    // α/(ju y) = −j α y*/(u |y|²)
    for (int i = 0; i < u.length; i++) {
      bIm[i] = -alpha / (u[i] * (yRe[i] * yRe[i] + yIm[i] * yIm[i]));
    }
    for (int i = 0; i < u.length; i++) {
      bRe[i] = yIm[i] * bIm[i];
      bIm[i] *= yRe[i];
    }
    for (int i = 0; i < u.length; i++) {
      zRe[i] += bRe[i];
      zIm[i] += bIm[i];
    }
  }

  private void terminals(TakeResponse r) {
    reciprocal(motor, r.z, r.motional);
    double[] re = r.impedance[0];
    double[] im = r.impedance[1];
    double[] coilRe = r.coil[0];
    double[] coilIm = r.coil[1];
    double[] mRe = r.motional[0];
    double[] mIm = r.motional[1];
    double series = takeRe + leads;
    for (int i = 0; i < re.length; i++) {
      re[i] = series + coilRe[i] + mRe[i];
    }
    for (int i = 0; i < im.length; i++) {
      im[i] = coilIm[i] + mIm[i];
    }
  }

  /** Writes factor/z. */
  private static void reciprocal(double factor, double[][] z, double[][] out) {
    double[] zRe = z[0];
    double[] zIm = z[1];
    double[] re = out[0];
    double[] im = out[1];
    for (int i = 0; i < re.length; i++) {
      re[i] = factor / (zRe[i] * zRe[i] + zIm[i] * zIm[i]);
    }
    for (int i = 0; i < re.length; i++) {
      im[i] = -zIm[i] * re[i];
      re[i] = zRe[i] * re[i];
    }
  }

  /**
   * What moves at one frequency.
   *
   * @param f Hz
   * @param out written: Re, Im of Z, Ω; of z, mechanical impedance over ω_s M_ms; then the port's,
   *     the leak's and the air spring's branch of y, and y itself (all but the spring's zero, the
   *     spring's and y one, in free air)
   */
  void motion(double f, double[] out) {
    TakeResponse r = onePoint(f);
    out[0] = r.impedance[0][0];
    out[1] = r.impedance[1][0];
    out[2] = r.z[0][0];
    out[3] = r.z[1][0];
    double[] branches = {0, 0, 0, 0, 1, 0};
    if (slots.stiffness() >= 0) {
      load.branches(f / loadFrequency, loadValues, r.load[0][0], r.load[1][0], branches);
    }
    System.arraycopy(branches, 0, out, 4, 6);
    out[10] = branches[0] + branches[2] + branches[4];
    out[11] = branches[1] + branches[3] + branches[5];
  }

  double fs() {
    return fs;
  }

  /** C_ms S²/C_ab, zero where nothing shuts the air in. */
  double alpha() {
    return slots.stiffness() >= 0 ? alpha : 0;
  }

  /** Coil resistance of this take, Ω. */
  double resistance() {
    return takeRe;
  }

  /** R_e/Q_es = Bl²/(ω_s M_ms), Ω. */
  double motor() {
    return motor;
  }

  /** Writes m, ∂m/∂a, ∂m/∂(κh) and κh to the mass rows as pairs, a the mass over M_ms. */
  private void mass(TakeResponse r) {
    double a = 1 + added + boxMass;
    double[][] mass = r.mass;
    if (!choice.springySupport()) {
      Arrays.fill(mass[0], a);
      Arrays.fill(mass[1], 0);
      Arrays.fill(mass[2], 1);
      Arrays.fill(mass[3], 0);
      return;
    }
    for (int i = 0; i < r.frequency.length; i++) {
      double ratio = supportFrequency / r.frequency[i];
      double hRe = supportMass * (1 - ratio * ratio);
      double hIm = -supportMass * ratio / supportQ;
      double sRe = a + hRe;
      double inv = 1 / (sRe * sRe + hIm * hIm);
      // q = κh/(a+κh); m = a q; ∂m/∂a = q²; ∂m/∂(κh) = (1−q)²
      double qRe = (hRe * sRe + hIm * hIm) * inv;
      double qIm = (hIm * sRe - hRe * hIm) * inv;
      mass[0][i] = a * qRe;
      mass[1][i] = a * qIm;
      mass[2][i] = qRe * qRe - qIm * qIm;
      mass[3][i] = 2 * qRe * qIm;
      mass[4][i] = (1 - qRe) * (1 - qRe) - qIm * qIm;
      mass[5][i] = -2 * (1 - qRe) * qIm;
      mass[6][i] = hRe;
      mass[7][i] = hIm;
    }
  }

  private void derivatives(TakeResponse r) {
    factors(r);
    electrical(r);
    r.derive(Layout.QMS, -inverseQms, r.suspension, 2, r.byMechanical);
    if (layout.suspension >= 0) {
      r.derive(layout.suspension, 1, r.suspension, 6, r.byMechanical);
    }
    if (slots.addedMass() >= 0 || slots.boxMass() >= 0) {
      masses(r);
    }
    if (choice.springySupport()) {
      support(r);
    }
    resonance(r);
    if (slots.stiffness() >= 0) {
      boxDerivatives(r);
    }
    if (slots.drift() >= 0) {
      drift(r);
    }
  }

  /** f_s, Q_ms and Q_es rise with the drift, α falls with its square. */
  private void drift(TakeResponse r) {
    boolean boxed = slots.stiffness() >= 0;
    r.deriveAsSum(
        slots.drift(),
        boxed
            ? new int[] {Layout.FS, Layout.QMS, Layout.QES, slots.stiffness()}
            : new int[] {Layout.FS, Layout.QMS, Layout.QES},
        new double[] {1, 1, 1, -2});
  }

  /** The factors from ∂Z and from ∂z to ∂ln Z: 1/Z and −Z_mot/(zZ). */
  private void factors(TakeResponse r) {
    reciprocal(1, r.impedance, r.byTerminal);
    // 1/z from Z_mot = motor/z
    TakeResponse.multiply(-1 / motor, r.motional, 0, r.motional, r.work);
    TakeResponse.multiply(1, r.work, 0, r.byTerminal, r.byMechanical);
  }

  private void electrical(TakeResponse r) {
    double[] mRe = r.motional[0];
    double[] all = r.work[0];
    for (int i = 0; i < all.length; i++) {
      all[i] = takeRe + mRe[i];
    }
    System.arraycopy(r.motional[1], 0, r.work[1], 0, all.length);
    r.derive(Layout.RE, 1, r.work, 0, r.byTerminal);
    r.derive(Layout.QES, -1, r.motional, 0, r.byTerminal);
    for (int i = 0; i < coil.size(); i++) {
      r.derive(layout.coil + i, 1, r.coil, 2 + 2 * i, r.byTerminal);
    }
    if (slots.resistance() >= 0) {
      r.derive(slots.resistance(), takeRe, r.byTerminal);
    }
    if (layout.leads >= 0) {
      r.derive(layout.leads, layout.leadsUnit, r.byTerminal);
    }
  }

  /** ∂z/∂a = ju ∂m/∂a. */
  private void masses(TakeResponse r) {
    timesJu(r, r.mass[2], r.mass[3]);
    if (slots.addedMass() >= 0) {
      r.derive(slots.addedMass(), added, r.work, 0, r.byMechanical);
    }
    if (slots.boxMass() >= 0) {
      r.derive(slots.boxMass(), boxMass, r.work, 0, r.byMechanical);
    }
  }

  private static void timesJu(TakeResponse r, double[] re, double[] im) {
    double[] u = r.u;
    double[] outRe = r.work[0];
    double[] outIm = r.work[1];
    for (int i = 0; i < u.length; i++) {
      outRe[i] = -u[i] * im[i];
    }
    for (int i = 0; i < u.length; i++) {
      outIm[i] = u[i] * re[i];
    }
  }

  /** ∂z/∂θ = ju ∂m/∂(κh) ∂(κh)/∂θ with κh = κ (1 − r² − jr/Q). */
  private void support(TakeResponse r) {
    timesJu(r, r.mass[4], r.mass[5]);
    TakeResponse.multiply(1, r.work, 0, r.byMechanical, r.product);
    r.derive(layout.supportMass, 1, r.mass, 6, r.product);
    for (int i = 0; i < r.size(); i++) {
      double ratio = supportFrequency / r.frequency[i];
      r.work[0][i] = -2 * supportMass * ratio * ratio;
      r.work[1][i] = -supportMass * ratio / supportQ;
    }
    r.derive(layout.supportMass + 1, 1, r.work, 0, r.product);
    for (int i = 0; i < r.size(); i++) {
      r.work[0][i] = 0;
      r.work[1][i] *= -1;
    }
    r.derive(layout.supportMass + 2, 1, r.work, 0, r.product);
  }

  /**
   * ∂z/∂ln f_s = −u ∂z/∂u: −ju m, −∂s/∂ln u, and +b for the box (y moves only where it counts its
   * losses at f_s); the support's m depends on f alone.
   */
  private void resonance(TakeResponse r) {
    double[] u = r.u;
    double[] re = r.work[0];
    double[] im = r.work[1];
    double[] slopeRe = r.suspension[4];
    double[] slopeIm = r.suspension[5];
    double[] mRe = r.mass[0];
    double[] mIm = r.mass[1];
    for (int i = 0; i < u.length; i++) {
      re[i] = u[i] * mIm[i] - slopeRe[i];
    }
    for (int i = 0; i < u.length; i++) {
      im[i] = -u[i] * mRe[i] - slopeIm[i];
    }
    r.derive(Layout.FS, 1, r.work, 0, r.byMechanical);
  }

  /** ∂b/∂θ = −b (∂y/∂θ)/y. */
  private void boxDerivatives(TakeResponse r) {
    r.derive(slots.stiffness(), 1, r.box, 0, r.byMechanical);
    r.addDerivative(Layout.FS, slots.stiffness());
    byAdmittance(r);
    TakeResponse.multiply(1, r.work, 0, r.byMechanical, r.product);
    int at = slots.load();
    if (load.ownFrequency()) {
      r.derive(at++, -1, r.load, 2, r.product);
    } else {
      TakeResponse.multiply(-1, r.load, 2, r.product, r.work);
      r.addDerivative(Layout.FS, r.work);
    }
    for (int i = 0; i < loadValues.length; i++) {
      r.derive(at + i, 1, r.load, 4 + 2 * i, r.product);
    }
  }

  /** Writes −b/y. */
  private static void byAdmittance(TakeResponse r) {
    double[] yRe = r.load[0];
    double[] yIm = r.load[1];
    double[] bRe = r.box[0];
    double[] bIm = r.box[1];
    double[] re = r.work[0];
    double[] im = r.work[1];
    double[] inverse = r.v;
    for (int i = 0; i < re.length; i++) {
      inverse[i] = -1 / (yRe[i] * yRe[i] + yIm[i] * yIm[i]);
    }
    for (int i = 0; i < re.length; i++) {
      re[i] = (bRe[i] * yRe[i] + bIm[i] * yIm[i]) * inverse[i];
    }
    for (int i = 0; i < re.length; i++) {
      im[i] = (bIm[i] * yRe[i] - bRe[i] * yIm[i]) * inverse[i];
    }
  }
}
