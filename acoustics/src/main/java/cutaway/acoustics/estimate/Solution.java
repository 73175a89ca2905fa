package cutaway.acoustics.estimate;

/** What a least-squares run found: parameters, residuals and the information they carry. */
public final class Solution {
  private final double[] theta;
  private final double[] residual;
  private final double[] information;
  private final double cost;
  private final int iterations;
  private final boolean converged;

  Solution(
      double[] theta,
      double[] residual,
      double[] information,
      double cost,
      int iterations,
      boolean converged) {
    this.theta = theta;
    this.residual = residual;
    this.information = information;
    this.cost = cost;
    this.iterations = iterations;
    this.converged = converged;
  }

  /** Best parameters, length p, a copy. */
  public double[] theta() {
    return theta.clone();
  }

  /** One best parameter. */
  public double theta(int index) {
    return theta[index];
  }

  /** Residuals at the best parameters, unweighted, length n, a copy. */
  public double[] residual() {
    return residual.clone();
  }

  /** Weighted sum of squared residuals. */
  public double cost() {
    return cost;
  }

  /** Number of accepted and rejected steps. */
  public int iterations() {
    return iterations;
  }

  /** Whether the step or the gradient fell under its threshold before the iterations ran out. */
  public boolean converged() {
    return converged;
  }

  /** The Fisher information JᵀWJ at the solution, p × p row-major, a copy. */
  public double[] information() {
    return information.clone();
  }

  /**
   * The covariance (JᵀWJ)⁻¹, valid where the weights are reciprocal variances.
   *
   * @throws SingularInformationException where the data leave a parameter undetermined
   */
  public Covariance covariance() {
    return Covariance.ofInformation(information, theta.length);
  }
}
