package cutaway.acoustics.driveunit;

/**
 * How an error of the rig, one for a whole take, bends its impedance: ∂ln Z/∂x = constant +
 * byImpedance Z + byAdmittance/Z, x the relative error of what is at fault. Derived in {@code
 * docs/methods/captures.md}.
 *
 * @param source what is at fault; takes that name the same source share its error
 * @param relativeSd relative standard uncertainty of the source, dimensionless
 * @param constant part that scales every impedance alike
 * @param byImpedance part that grows with the impedance, 1/Ω
 * @param byAdmittance part that grows as it falls, Ω
 */
public record RigError(
    String source, double relativeSd, double constant, double byImpedance, double byAdmittance) {

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
      out[0][i] = constant + byImpedance * re + byAdmittance * re / square;
      out[1][i] = byImpedance * im - byAdmittance * im / square;
    }
    return out;
  }
}
