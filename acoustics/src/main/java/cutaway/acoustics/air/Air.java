package cutaway.acoustics.air;

import cutaway.acoustics.estimate.Estimate;

/**
 * Moist air at rest.
 *
 * <p>Density: CIPM-2007 (A. Picard et al., Metrologia 45 (2008) 149–155). Sound speed: O. Cramer,
 * J. Acoust. Soc. Am. 93 (1993) 2510–2516. Both coefficient sets as quoted in public secondary
 * copies; valid from 0 to 30 °C and 60 to 110 kPa (Cramer 75 to 102 kPa), extrapolated gently
 * beyond.
 *
 * @param density kg/m³
 * @param soundSpeed m/s
 */
public record Air(Estimate density, Estimate soundSpeed) {
  private static final double MOLAR_GAS_CONSTANT = 8.314472;
  private static final double CO2 = 4e-4;

  /**
   * Air from what a tester reads off.
   *
   * @param celsius temperature, °C
   * @param pascal pressure, Pa
   * @param humidity relative humidity, 0 to 1
   */
  public static Air of(Estimate celsius, Estimate pascal, Estimate humidity) {
    double t = celsius.value();
    double p = pascal.value();
    double h = humidity.value();
    return new Air(
        propagate(Air::density, celsius, pascal, humidity, density(t, p, h)),
        propagate(Air::soundSpeed, celsius, pascal, humidity, soundSpeed(t, p, h)));
  }

  private interface Law {
    double at(double celsius, double pascal, double humidity);
  }

  private static Estimate propagate(Law law, Estimate t, Estimate p, Estimate h, double value) {
    double byT = (law.at(t.value() + 0.01, p.value(), h.value()) - value) / 0.01 * t.sd();
    double byP = (law.at(t.value(), p.value() + 1, h.value()) - value) * p.sd();
    double byH = (law.at(t.value(), p.value(), h.value() + 1e-4) - value) / 1e-4 * h.sd();
    return new Estimate(value, Math.sqrt(byT * byT + byP * byP + byH * byH));
  }

  /** Bulk modulus ρc², Pa: what makes an air volume a spring. */
  public Estimate stiffness() {
    double c = soundSpeed.value();
    double value = density.value() * c * c;
    // a warmer day lowers ρ as it raises c², so ρc² = γp hardly knows of temperature: what is left
    // is the pressure, which the density carries alone once temperature is taken out
    double byTemperature = 2 * soundSpeed.relativeSd();
    double own = Math.sqrt(Math.max(0, sq(density.relativeSd()) - sq(byTemperature)));
    return new Estimate(value, value * own);
  }

  private static double sq(double x) {
    return x * x;
  }

  /** Saturation vapour pressure over water, Pa. */
  static double saturationPressure(double celsius) {
    double t = celsius + 273.15;
    return Math.exp(1.2378847e-5 * t * t - 1.9121316e-2 * t + 33.93711047 - 6.3431645e3 / t);
  }

  private static double enhancement(double celsius, double pascal) {
    return 1.00062 + 3.14e-8 * pascal + 5.6e-7 * celsius * celsius;
  }

  /** Mole fraction of water vapour. */
  static double vapourFraction(double celsius, double pascal, double humidity) {
    return humidity * enhancement(celsius, pascal) * saturationPressure(celsius) / pascal;
  }

  /** Compressibility factor. */
  static double compressibility(double celsius, double pascal, double xv) {
    double t = celsius + 273.15;
    double ratio = pascal / t;
    double first =
        1.58123e-6
            - 2.9331e-8 * celsius
            + 1.1043e-10 * celsius * celsius
            + (5.707e-6 - 2.051e-8 * celsius) * xv
            + (1.9898e-4 - 2.376e-6 * celsius) * xv * xv;
    return 1 - ratio * first + ratio * ratio * (1.83e-11 - 0.765e-8 * xv * xv);
  }

  /** Density, kg/m³. */
  static double density(double celsius, double pascal, double humidity) {
    double xv = vapourFraction(celsius, pascal, humidity);
    double z = compressibility(celsius, pascal, xv);
    double molarMass = (28.96546 + 12.011 * (CO2 - 4e-4)) * 1e-3;
    return pascal
        * molarMass
        / (z * MOLAR_GAS_CONSTANT * (celsius + 273.15))
        * (1 - xv * (1 - 18.01528e-3 / molarMass));
  }

  /** Sound speed at zero frequency, m/s. */
  static double soundSpeed(double celsius, double pascal, double humidity) {
    double t = celsius;
    double xw = vapourFraction(celsius, pascal, humidity);
    double p = pascal;
    double xc = CO2;
    return 331.5024
        + 0.603055 * t
        - 0.000528 * t * t
        + (51.471935 + 0.1495874 * t - 0.000782 * t * t) * xw
        + (-1.82e-7 + 3.73e-8 * t - 2.93e-10 * t * t) * p
        + (-85.20931 - 0.228525 * t + 5.91e-5 * t * t) * xc
        - 2.835149 * xw * xw
        - 2.15e-13 * p * p
        + 29.179762 * xc * xc
        + 0.000486 * xw * p * xc;
  }
}
