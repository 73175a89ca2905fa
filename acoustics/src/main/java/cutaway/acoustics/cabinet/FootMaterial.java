package cutaway.acoustics.cabinet;

/**
 * What feet are made of. Constants are from memory, low trust, hence their spread; a pad between
 * plates that hold its faces is stiffer by 1 + 2S², S its loaded over its free area (A. N. Gent and
 * P. B. Lindley, Proc. Inst. Mech. Eng. 173 (1959), from memory).
 */
public enum FootMaterial {
  /** Of some 50 to 60 Shore A, at what a box does: half as stiff again as at rest. */
  RUBBER(4.0e6, 1.3e6, 2, 0.15, 0.5),
  /** Pressed cork, which hardly bulges. */
  CORK(15e6, 6e6, 0, 0.15, 0.7),
  /** Pressed felt. */
  FELT(1.5e6, 0.5e6, 0, 0.2, 0.8),
  /** Spikes, metal, wood or hard plastic: what gives is where they touch. */
  HARD(0, 0, 0, 0.02, 0.8);

  /** Of a hard foot on a hard floor, N/m. */
  private static final double TOUCH = 2e7;

  private static final double TOUCH_SIDEWAYS = 1e7;

  private final double modulus;
  private final double shear;
  private final double bulge;
  private final double loss;
  private final double spread;

  /**
   * Constants.
   *
   * @param modulus of compression between faces that do not hold it, Pa
   * @param shear modulus, Pa
   * @param bulge what S² counts by
   * @param loss factor
   * @param spread relative standard uncertainty of a stiffness
   */
  FootMaterial(double modulus, double shear, double bulge, double loss, double spread) {
    this.modulus = modulus;
    this.shear = shear;
    this.bulge = bulge;
    this.loss = loss;
    this.spread = spread;
  }

  /**
   * A foot of it.
   *
   * @param at its middle, in the axes of the wall's plane
   * @param diameter m
   * @param height m
   */
  public Foot foot(Point at, double diameter, double height) {
    if (this == HARD) {
      return new Foot(at, diameter, TOUCH, TOUCH_SIDEWAYS);
    }
    double area = Math.PI * diameter * diameter / 4;
    double free = diameter / (4 * height);
    double held = 1 + bulge * free * free;
    return new Foot(at, diameter, modulus * held * area / height, shear * area / height);
  }

  /** Its loss factor. */
  public double loss() {
    return loss;
  }

  /** Relative standard uncertainty of a foot's stiffness. */
  public double spread() {
    return spread;
  }
}
