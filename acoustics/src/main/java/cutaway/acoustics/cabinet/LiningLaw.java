package cutaway.acoustics.cabinet;

import org.hipparchus.complex.Complex;

/**
 * Fibrous lining as an equivalent fluid, from its flow resistivity.
 *
 * <p>Coefficients as quoted in secondary copies. Both laws were fitted for 0.01 &lt; f/σ &lt; 1 (SI
 * units); outside they are an extrapolation.
 */
public enum LiningLaw {
  /** Y. Miki, J. Acoust. Soc. Jpn. (E) 11 (1990) 19–24; X = f/σ. */
  MIKI(0.070, -0.632, 0.107, -0.632, 0.109, -0.618, 0.160, -0.618),
  /** M. E. Delany and E. N. Bazley, Appl. Acoust. 3 (1970) 105–116; X = ρf/σ. */
  DELANY_BAZLEY(0.0571, -0.754, 0.087, -0.732, 0.0978, -0.700, 0.189, -0.595);

  private final double zr;
  private final double zrPower;
  private final double zi;
  private final double ziPower;
  private final double kr;
  private final double krPower;
  private final double ki;
  private final double kiPower;

  LiningLaw(
      double zr,
      double zrPower,
      double zi,
      double ziPower,
      double kr,
      double krPower,
      double ki,
      double kiPower) {
    this.zr = zr;
    this.zrPower = zrPower;
    this.zi = zi;
    this.ziPower = ziPower;
    this.kr = kr;
    this.krPower = krPower;
    this.ki = ki;
    this.kiPower = kiPower;
  }

  /**
   * The fluid that behaves as the lining does: ρ = Z_c k/ω, K = Z_c ω/k.
   *
   * @param flowResistivity σ, Pa·s/m²
   * @param frequency Hz
   * @param density of air, kg/m³
   * @param soundSpeed of air, m/s
   */
  public Fluid fluid(double flowResistivity, double frequency, double density, double soundSpeed) {
    double x = frequency / flowResistivity * (this == MIKI ? 1 : density);
    double omega = 2 * Math.PI * frequency;
    Complex z =
        new Complex(1 + zr * Math.pow(x, zrPower), -zi * Math.pow(x, ziPower))
            .multiply(density * soundSpeed);
    Complex k =
        new Complex(1 + kr * Math.pow(x, krPower), -ki * Math.pow(x, kiPower))
            .multiply(omega / soundSpeed);
    return new Fluid(z.multiply(k).divide(omega), z.multiply(omega).divide(k));
  }

  /** Whether the law was fitted where it is used. */
  public boolean holds(double flowResistivity, double frequency) {
    double x = frequency / flowResistivity;
    return x > 0.01 && x < 1;
  }
}
