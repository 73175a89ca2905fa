package cutaway.acoustics.estimate;

/**
 * A quantity and how well it is known.
 *
 * <p>Both numbers are in the SI unit of the quantity. Two estimates of one fit are correlated: ask
 * the fit for a quantity derived from both.
 *
 * @param value best estimate
 * @param sd standard uncertainty (coverage factor 1), zero for an exact value
 */
public record Estimate(double value, double sd) {
  /** Rejects values that are not finite and uncertainties below zero. */
  public Estimate {
    if (!Double.isFinite(value) || !(sd >= 0 && sd < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(
          value + " ± " + sd + " is no estimate: give a finite value and an uncertainty ≥ 0");
    }
  }

  /** A value taken as known without error. */
  public static Estimate exact(double value) {
    return new Estimate(value, 0);
  }

  /** A value with a relative standard uncertainty, dimensionless. */
  public static Estimate relative(double value, double relativeSd) {
    return new Estimate(value, Math.abs(value) * relativeSd);
  }

  /** The standard uncertainty as a fraction of the value; infinite where the value is zero. */
  public double relativeSd() {
    return sd == 0 ? 0 : sd / Math.abs(value);
  }

  /** This estimate times an exact factor. */
  public Estimate times(double factor) {
    return new Estimate(value * factor, sd * Math.abs(factor));
  }

  /** This and an independent estimate together. */
  public Estimate plus(Estimate other) {
    return new Estimate(value + other.value, Math.hypot(sd, other.sd));
  }

  /** This over an independent estimate. */
  public Estimate over(Estimate other) {
    return relative(value / other.value, Math.hypot(relativeSd(), other.relativeSd()));
  }

  /** The same value with a further, independent relative uncertainty counted in. */
  public Estimate widened(double relative) {
    return new Estimate(value, Math.hypot(sd, value * relative));
  }

  /** How many standard deviations this lies from an independent estimate of the same thing. */
  public double disagreement(Estimate other) {
    return value == other.value ? 0 : Math.abs(value - other.value) / Math.hypot(sd, other.sd);
  }
}
