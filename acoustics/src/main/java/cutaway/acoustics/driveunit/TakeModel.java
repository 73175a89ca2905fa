package cutaway.acoustics.driveunit;

/**
 * Terminal impedance of one take as a function of frequency, with its derivatives.
 *
 * <p>Z = g (R_k + Z_coil + (R_e/Q_es)/z), z = ju m + s(u) + α/(ju y). Here u = f/f_s, m is the
 * moving mass over M_ms (in parallel with the frame where the support is springy), s the
 * suspension, y the box.
 */
final class TakeModel {
  private static final double[] NOTHING = new double[0];
  private final ModelChoice choice;
  private final Layout layout;
  private final Layout.TakeSlots slots;
  private final RearLoad load;
  private final CoilLoss coil;
  private final Suspension suspension;
  private final double re;
  private final double takeRe;
  private final double fs;
  private final double inverseQms;
  private final double motor;
  private final double added;
  private final double boxMass;
  private final double alpha;
  private final double gain;
  private final double[] loadValues;
  private final double loadFrequency;
  private final double supportMass;
  private final double supportFrequency;
  private final double supportQ;
  private final double[] coilOut = new double[12];
  private final double[] suspensionOut = new double[8];
  private final double[] loadOut = new double[16];
  private final double[] dzDa = new double[2];
  private final double[] dMass = new double[8];

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
    this.fs = Math.exp(theta[Layout.FS]);
    this.inverseQms = Math.exp(-theta[Layout.QMS]);
    this.motor = re * Math.exp(-theta[Layout.QES]);
    this.added = exp(theta, slots.addedMass(), 0);
    this.boxMass = exp(theta, slots.boxMass(), 0);
    this.alpha = exp(theta, slots.stiffness(), 0);
    this.gain = layout.scaleError < 0 ? 1 : Math.exp(theta[layout.scaleError]);
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

  /**
   * Impedance at one frequency.
   *
   * @param f Hz
   * @param z written: Re, Im, Ω
   * @param dz written where wanted: Re, Im of ∂Z/∂θ_j at 2j, 2j+1, for every parameter of the
   *     layout
   */
  void at(double f, double[] z, double[] dz, boolean derivatives) {
    double u = f / fs;
    coil.at(2 * Math.PI * f, coilOut);
    suspension.at(u, inverseQms, suspensionOut);
    double a = 1 + added + boxMass;
    massTerm(f, a);
    // ju m, where m = dMass[0] + j dMass[1]
    double zRe = suspensionOut[0] - u * dMass[1];
    double zIm = suspensionOut[1] + u * dMass[0];
    double bRe = 0;
    double bIm = 0;
    if (slots.stiffness() >= 0) {
      load.at(f / loadFrequency, loadValues, loadOut);
      // α/(ju y) = −j α y*/(u |y|²)
      double scale = alpha / (u * (loadOut[0] * loadOut[0] + loadOut[1] * loadOut[1]));
      bRe = -loadOut[1] * scale;
      bIm = -loadOut[0] * scale;
      zRe += bRe;
      zIm += bIm;
    }
    double inverse = 1 / (zRe * zRe + zIm * zIm);
    double mRe = motor * zRe * inverse;
    double mIm = -motor * zIm * inverse;
    z[0] = gain * (takeRe + coilOut[0] + mRe);
    z[1] = gain * (coilOut[1] + mIm);
    if (derivatives) {
      derivatives(f, u, z, dz, mRe, mIm, zRe * inverse, -zIm * inverse, bRe, bIm);
    }
  }

  /**
   * What moves at one frequency.
   *
   * @param f Hz
   * @param out written: Re, Im of Z (without the scale error), Ω; of z, mechanical impedance over
   *     ω_s M_ms; then the port's, the leak's and the air spring's branch of y, and y itself (all
   *     but the spring's zero, the spring's and y one, in free air)
   */
  void motion(double f, double[] out) {
    double[] z = new double[2];
    at(f, z, NOTHING, false);
    double[] branches = {0, 0, 0, 0, 1, 0};
    if (slots.stiffness() >= 0) {
      load.branches(f / loadFrequency, loadValues, branches);
    }
    out[0] = z[0] / gain;
    out[1] = z[1] / gain;
    double mRe = out[0] - takeRe - coilOut[0];
    double mIm = out[1] - coilOut[1];
    double inv = motor / (mRe * mRe + mIm * mIm);
    out[2] = mRe * inv;
    out[3] = -mIm * inv;
    System.arraycopy(branches, 0, out, 4, 6);
    out[10] = branches[0] + branches[2] + branches[4];
    out[11] = branches[1] + branches[3] + branches[5];
  }

  double fs() {
    return fs;
  }

  /** Coil resistance of this take, Ω. */
  double resistance() {
    return takeRe;
  }

  /** R_e/Q_es = Bl²/(ω_s M_ms), Ω. */
  double motor() {
    return motor;
  }

  /** Writes m, ∂m/∂a, ∂m/∂(κh) and h to dMass as pairs. */
  private void massTerm(double f, double a) {
    if (!choice.springySupport()) {
      dMass[0] = a;
      dMass[1] = 0;
      dMass[2] = 1;
      dMass[3] = 0;
      return;
    }
    double r = supportFrequency / f;
    double hRe = supportMass * (1 - r * r);
    double hIm = -supportMass * r / supportQ;
    double sRe = a + hRe;
    double inv = 1 / (sRe * sRe + hIm * hIm);
    // q = κh/(a+κh); m = a q; ∂m/∂a = q²; ∂m/∂(κh) = (1−q)²
    double qRe = (hRe * sRe + hIm * hIm) * inv;
    double qIm = (hIm * sRe - hRe * hIm) * inv;
    dMass[0] = a * qRe;
    dMass[1] = a * qIm;
    dMass[2] = qRe * qRe - qIm * qIm;
    dMass[3] = 2 * qRe * qIm;
    dMass[4] = (1 - qRe) * (1 - qRe) - qIm * qIm;
    dMass[5] = -2 * (1 - qRe) * qIm;
    dMass[6] = hRe;
    dMass[7] = hIm;
  }

  private void derivatives(
      double f,
      double u,
      double[] z,
      double[] dz,
      double mRe,
      double mIm,
      double iRe,
      double iIm,
      double bRe,
      double bIm) {
    java.util.Arrays.fill(dz, 0);
    // −Zmot/z, the factor from ∂z/∂θ to ∂Z/∂θ
    dzDa[0] = -(mRe * iRe - mIm * iIm);
    dzDa[1] = -(mRe * iIm + mIm * iRe);
    put(dz, Layout.RE, takeRe + mRe, mIm);
    put(dz, Layout.QES, -mRe, -mIm);
    // ∂z/∂ln f_s = −u ∂z/∂u: −ju m, −∂s/∂ln u, and +b for the box (y moves only where it counts
    // its losses at f_s); the support's m depends on f alone
    double fsRe = u * dMass[1] - suspensionOut[4];
    double fsIm = -u * dMass[0] - suspensionOut[5];
    chain(dz, Layout.QMS, -inverseQms * suspensionOut[2], -inverseQms * suspensionOut[3]);
    if (layout.suspension >= 0) {
      chain(dz, layout.suspension, suspensionOut[6], suspensionOut[7]);
    }
    for (int i = 0; i < coil.size(); i++) {
      put(dz, layout.coil + i, coilOut[2 + 2 * i], coilOut[3 + 2 * i]);
    }
    if (slots.resistance() >= 0) {
      put(dz, slots.resistance(), takeRe, 0);
    }
    if (slots.addedMass() >= 0) {
      chain(dz, slots.addedMass(), -u * added * dMass[3], u * added * dMass[2]);
    }
    if (slots.boxMass() >= 0) {
      chain(dz, slots.boxMass(), -u * boxMass * dMass[3], u * boxMass * dMass[2]);
    }
    if (choice.springySupport()) {
      supportDerivatives(f, u, dz);
    }
    if (slots.stiffness() >= 0) {
      fsRe += bRe;
      fsIm += bIm;
      double yInv = 1 / (loadOut[0] * loadOut[0] + loadOut[1] * loadOut[1]);
      // ∂b/∂θ = −b (∂y/∂θ)/y
      double gRe = -(bRe * loadOut[0] + bIm * loadOut[1]) * yInv;
      double gIm = -(bIm * loadOut[0] - bRe * loadOut[1]) * yInv;
      double vRe = gRe * loadOut[2] - gIm * loadOut[3];
      double vIm = gRe * loadOut[3] + gIm * loadOut[2];
      chain(dz, slots.stiffness(), bRe, bIm);
      int at = slots.load();
      if (load.ownFrequency()) {
        chain(dz, at++, -vRe, -vIm);
      } else {
        fsRe -= vRe;
        fsIm -= vIm;
      }
      for (int i = 0; i < loadValues.length; i++) {
        double yRe = loadOut[4 + 2 * i];
        double yIm = loadOut[5 + 2 * i];
        chain(dz, at + i, gRe * yRe - gIm * yIm, gRe * yIm + gIm * yRe);
      }
    }
    chain(dz, Layout.FS, fsRe, fsIm);
    for (int i = 0; i < 2 * layout.size; i++) {
      dz[i] *= gain;
    }
    if (layout.scaleError >= 0) {
      put(dz, layout.scaleError, z[0], z[1]);
    }
  }

  private void supportDerivatives(double f, double u, double[] dz) {
    double r = supportFrequency / f;
    // κh = κ (1 − r² − j r/Q)
    supportChain(dz, layout.supportMass, u, dMass[6], dMass[7]);
    supportChain(
        dz, layout.supportMass + 1, u, -2 * supportMass * r * r, -supportMass * r / supportQ);
    supportChain(dz, layout.supportMass + 2, u, 0, supportMass * r / supportQ);
  }

  /** ∂z/∂θ = ju ∂m/∂(κh) ∂(κh)/∂θ. */
  private void supportChain(double[] dz, int at, double u, double hRe, double hIm) {
    double re = dMass[4] * hRe - dMass[5] * hIm;
    double im = dMass[4] * hIm + dMass[5] * hRe;
    chain(dz, at, -u * im, u * re);
  }

  private static void put(double[] dz, int at, double re, double im) {
    dz[2 * at] = re;
    dz[2 * at + 1] = im;
  }

  private void chain(double[] dz, int at, double re, double im) {
    dz[2 * at] = dzDa[0] * re - dzDa[1] * im;
    dz[2 * at + 1] = dzDa[0] * im + dzDa[1] * re;
  }
}
