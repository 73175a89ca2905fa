package cutaway.acoustics.driveunit;

/**
 * How an error of the rig, one for a whole take, bends its impedance: ∂ln Z/∂x = constant +
 * byImpedance Z + byAdmittance/Z, x the relative error of what is at fault; or jω times as much, x
 * then a delay in s. Derived in {@code docs/methods/captures.md}.
 *
 * @param source what is at fault; takes that name the same source share its error
 * @param sd standard uncertainty of x, dimensionless, or s for a delay
 * @param constant part that scales every impedance alike
 * @param byImpedance part that grows with the impedance, 1/Ω
 * @param byAdmittance part that grows as it falls, Ω
 * @param delay whether x is a delay
 */
public record RigError(
    String source,
    double sd,
    double constant,
    double byImpedance,
    double byAdmittance,
    boolean delay) {
  /** An error that is a fraction of something. */
  public RigError(
      String source, double sd, double constant, double byImpedance, double byAdmittance) {
    this(source, sd, constant, byImpedance, byAdmittance, false);
  }

  /**
   * Writes ∂ln Z/∂x at each point of a curve.
   *
   * @return real parts, then imaginary parts
   */
  double[][] along(ImpedanceCurve curve) {
    double[][] out = new double[2][curve.size()];
    for (int i = 0; i < curve.size(); i++) {
      double re = curve.re(i);
      double im = curve.im(i);
      double square = re * re + im * im;
      double along = constant + byImpedance * re + byAdmittance * re / square;
      double across = byImpedance * im - byAdmittance * im / square;
      double omega = 2 * Math.PI * curve.frequency(i);
      out[0][i] = delay ? -omega * across : along;
      out[1][i] = delay ? omega * along : across;
    }
    return out;
  }
}
