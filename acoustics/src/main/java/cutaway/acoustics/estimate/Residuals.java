package cutaway.acoustics.estimate;

/** Residuals of a model against data, with their analytic Jacobian. */
public interface Residuals {
  /** Number of residuals, n. */
  int rows();

  /** Number of parameters, p. */
  int parameters();

  /**
   * Evaluates residuals r = model − data (or any function whose square sum is to be least).
   *
   * @param theta parameters, length p; read only
   * @param residual written, length n
   * @param jacobian written, ∂r_i/∂θ_j at {@code [j][i]}, p rows of length n; left alone where
   *     {@code wantJacobian} is false. It comes filled with zeros or with what this method wrote
   *     before, so entries that are zero whatever θ need not be written
   * @param wantJacobian whether the Jacobian is needed in this call
   */
  void evaluate(double[] theta, double[] residual, double[][] jacobian, boolean wantJacobian);
}
