package cutaway.acoustics.estimate;

/** Residuals of a model against data, with their analytic Jacobian. */
public interface Residuals {
  /** Number of residuals, n. */
  int rows();

  /** Number of parameters, p. */
  int parameters();

  /**
   * Rows of each stretch of residuals that belong together; their sum is n. One stretch where not
   * said otherwise.
   */
  default int[] stretches() {
    return new int[] {rows()};
  }

  /**
   * Evaluates residuals r = model − data (or any function whose square sum is to be least).
   *
   * @param theta parameters, length p; read only
   * @param residual written, length n
   * @param jacobian written, ∂r/∂θ; left alone where {@code wantJacobian} is false. It comes
   *     without columns or with what this method wrote before, so columns and entries that are zero
   *     whatever θ need not be written
   * @param wantJacobian whether the Jacobian is needed in this call
   */
  void evaluate(double[] theta, double[] residual, Jacobian jacobian, boolean wantJacobian);

  /**
   * Room for a Jacobian; a solve takes two, and leaves them when it ends. A model that is solved
   * again and again may hand out the same, which then lies near the processor already.
   *
   * @param which 0 or 1
   * @return without columns, or with what {@link #evaluate} wrote before
   */
  default Jacobian room(int which) {
    return new Jacobian(parameters(), stretches());
  }
}
