package cutaway.acoustics.driveunit;

import cutaway.acoustics.estimate.Estimate;

/**
 * Resistance of copper against temperature: R(t) = R(20 °C) [1 + 0.00393 (t − 20 °C)] (IEC 60028,
 * from memory; tables computed from it agree). Linear between −50 and 200 °C.
 */
public final class Copper {
  private static final double COEFFICIENT = 0.00393;
  private static final double REFERENCE = 20;

  private Copper() {}

  /** Resistance at a temperature in °C over that at 20 °C. */
  public static double ratio(double celsius) {
    return 1 + COEFFICIENT * (celsius - REFERENCE);
  }

  /**
   * How much warmer a coil is than it was, K.
   *
   * @param ratio its resistance over what it was
   * @param before what temperature it then had, °C
   */
  public static Estimate warming(Estimate ratio, Estimate before) {
    double span = ratio(before.value()) / COEFFICIENT;
    double rise = ratio.value() - 1;
    return new Estimate(rise * span, Math.hypot(ratio.sd() * span, rise * before.sd()));
  }
}
