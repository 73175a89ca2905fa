package cutaway.acoustics.estimate;

import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.factory.LinearSolverFactory_DDRM;
import org.ejml.interfaces.linsol.LinearSolverDense;

/**
 * Weighted nonlinear least squares: minimizes Σ w_i r_i(θ)².
 *
 * <p>Source: D. W. Marquardt, J. SIAM 11 (1963) 431–441, with the damping rule of H. B. Nielsen,
 * IMM-REP-1999-05 (both from memory). The normal equations are scaled to unit diagonal before each
 * Cholesky step; their fixed point is the zero of the exact gradient, so squared conditioning slows
 * convergence but does not move the answer. Verified on certified NIST StRD sets in the tests.
 */
public final class LevenbergMarquardt {
  private static final int MAX_ITERATIONS = 500;
  private static final double STEP_TOLERANCE = 1e-11;

  private final Residuals model;
  private final double leastGain;
  private final int rows;
  private final int size;
  private Jacobian jacobian;
  private Jacobian trialJacobian;
  private final NormalEquations normal;
  private final double[] information;
  private final double[] gradient;
  private final double[] largest;
  private final double[] scale;
  private final DMatrixRMaj damped;
  private final DMatrixRMaj right;
  private final DMatrixRMaj step;
  private final LinearSolverDense<DMatrixRMaj> solver;

  private LevenbergMarquardt(Residuals model, double[] weights, double leastGain) {
    this.model = model;
    this.leastGain = leastGain;
    this.rows = model.rows();
    this.size = model.parameters();
    this.jacobian = model.room(0);
    this.trialJacobian = model.room(1);
    this.normal = new NormalEquations(size, weights, model.stretches());
    this.information = normal.information;
    this.gradient = normal.gradient;
    this.largest = new double[size];
    this.scale = new double[size];
    this.damped = new DMatrixRMaj(size, size);
    this.right = new DMatrixRMaj(size, 1);
    this.step = new DMatrixRMaj(size, 1);
    this.solver = LinearSolverFactory_DDRM.chol(size);
  }

  /**
   * Solves from a starting point.
   *
   * @param model residuals with Jacobian
   * @param start starting parameters, length p; read only
   * @param weights reciprocal variances of the residuals, length n, each ≥ 0; read only
   */
  public static Solution solve(Residuals model, double[] start, double[] weights) {
    return solve(model, start, weights, 0);
  }

  /**
   * Solves from a starting point, stopping early.
   *
   * @param leastGain stop once a step promises to lower the weighted square sum by less; where the
   *     weights are reciprocal variances, a gain of g moves no parameter by more than √g standard
   *     uncertainties
   */
  public static Solution solve(
      Residuals model, double[] start, double[] weights, double leastGain) {
    if (start.length != model.parameters() || weights.length != model.rows()) {
      throw new IllegalArgumentException(
          String.format(
              "%d starting values for %d parameters, %d weights for %d residuals",
              start.length, model.parameters(), weights.length, model.rows()));
    }
    return new LevenbergMarquardt(model, weights, leastGain).run(start.clone());
  }

  private Solution run(double[] theta) {
    double[] residual = new double[rows];
    double[] trial = new double[size];
    double[] trialResidual = new double[rows];
    model.evaluate(theta, residual, jacobian, true);
    double cost = cost(residual);
    double damping = 1e-3;
    double growth = 2;
    boolean converged = false;
    accumulate(residual);
    int iteration = 0;
    while (iteration < MAX_ITERATIONS && !converged) {
      iteration++;
      if (!solveDamped(damping)) {
        damping *= growth;
        growth *= 2;
        continue;
      }
      double promised = predictedGain(damping);
      if (damping < 1e-2 && promised < leastGain) {
        converged = true;
        break;
      }
      for (int i = 0; i < size; i++) {
        trial[i] = theta[i] + step.data[i];
      }
      // the trial's Jacobian is made at once: most trials are accepted, and then it is needed
      model.evaluate(trial, trialResidual, trialJacobian, true);
      double trialCost = cost(trialResidual);
      boolean tiny = negligibleStep(theta);
      if (trialCost < cost || (tiny && trialCost <= cost * (1 + 1e-13))) {
        double gain = (cost - trialCost) / promised;
        System.arraycopy(trial, 0, theta, 0, size);
        System.arraycopy(trialResidual, 0, residual, 0, rows);
        Jacobian spare = jacobian;
        jacobian = trialJacobian;
        trialJacobian = spare;
        cost = trialCost;
        accumulate(residual);
        converged = tiny;
        damping *= Math.max(1.0 / 3, 1 - Math.pow(2 * gain - 1, 3));
        growth = 2;
      } else {
        converged = tiny || damping > 1e20;
        damping *= growth;
        growth *= 2;
      }
    }
    return new Solution(theta, residual, information.clone(), cost, iteration, converged);
  }

  private double cost(double[] residual) {
    double sum = normal.cost(residual);
    return Double.isNaN(sum) ? Double.POSITIVE_INFINITY : sum;
  }

  /**
   * Forms the normal equations. A parameter's scale is the reciprocal of the largest column norm
   * met so far (J. J. Moré, Lect. Notes Math. 630 (1978), from memory): one that has lost its
   * influence must not be let loose.
   */
  private void accumulate(double[] residual) {
    normal.form(jacobian, residual);
    for (int i = 0; i < size; i++) {
      largest[i] = Math.max(largest[i], information[i * size + i]);
      scale[i] = largest[i] > 0 ? 1 / Math.sqrt(largest[i]) : 1;
    }
  }

  private boolean solveDamped(double damping) {
    for (int i = 0; i < size; i++) {
      double si = scale[i];
      for (int j = 0; j < size; j++) {
        damped.set(i, j, information[i * size + j] * si * scale[j]);
      }
      damped.add(i, i, damping);
      right.set(i, 0, -gradient[i] * si);
    }
    if (!solver.setA(damped)) {
      return false;
    }
    solver.solve(right, step);
    for (int i = 0; i < size; i++) {
      step.data[i] *= scale[i];
      if (!Double.isFinite(step.data[i])) {
        return false;
      }
    }
    return true;
  }

  private double predictedGain(double damping) {
    double gain = 0;
    for (int i = 0; i < size; i++) {
      double s = scale[i];
      gain += step.data[i] * (damping * step.data[i] / (s * s) - gradient[i]);
    }
    return Math.max(gain, Double.MIN_NORMAL);
  }

  private boolean negligibleStep(double[] theta) {
    for (int i = 0; i < size; i++) {
      if (Math.abs(step.data[i]) > STEP_TOLERANCE * (Math.abs(theta[i]) + STEP_TOLERANCE)) {
        return false;
      }
    }
    return true;
  }
}
