package cutaway.acoustics.cabinet;

import org.hipparchus.complex.Complex;

/**
 * What sound travels in at one frequency; time factor e^{+jωt}.
 *
 * @param density complex density, kg/m³
 * @param bulk complex bulk modulus, Pa
 */
public record Fluid(Complex density, Complex bulk) {
  /**
   * Air with a loss spread evenly.
   *
   * @param density kg/m³
   * @param soundSpeed m/s
   * @param loss loss factor η of its bulk modulus
   */
  public static Fluid air(double density, double soundSpeed, double loss) {
    double k = density * soundSpeed * soundSpeed;
    return new Fluid(new Complex(density), new Complex(k, k * loss));
  }

  /** What lies between this and another; by their mobility and compliance. */
  Fluid towards(Fluid other, double share) {
    return new Fluid(between(density, other.density(), share), between(bulk, other.bulk(), share));
  }

  private static Complex between(Complex a, Complex b, double share) {
    return a.reciprocal().multiply(1 - share).add(b.reciprocal().multiply(share)).reciprocal();
  }

  /** Characteristic impedance, Pa·s/m. */
  public Complex impedance() {
    return density.multiply(bulk).sqrt();
  }

  /** Wavenumber, rad/m; its imaginary part is not above zero. */
  public Complex wavenumber(double frequency) {
    return density.divide(bulk).sqrt().multiply(2 * Math.PI * frequency);
  }
}
