package cutaway.acoustics.estimate;

import java.util.function.ToDoubleFunction;
import java.util.function.UnaryOperator;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.MatrixFeatures_DDRM;
import org.ejml.dense.row.factory.LinearSolverFactory_DDRM;

/** A symmetric positive definite covariance matrix of p parameters. */
public final class Covariance {
  private final double[] entries;
  private final int size;

  private Covariance(double[] entries, int size) {
    this.entries = entries;
    this.size = size;
  }

  /**
   * Inverts an information matrix after scaling its diagonal to one, which costs no digits where
   * parameters differ in magnitude.
   *
   * @param information p × p row-major, read only
   * @throws SingularInformationException where the scaled matrix is not positive definite
   */
  public static Covariance ofInformation(double[] information, int size) {
    double[] scale = new double[size];
    for (int i = 0; i < size; i++) {
      double diagonal = information[i * size + i];
      if (!(diagonal > 0)) {
        throw new SingularInformationException("parameter " + i + " has no influence on the data");
      }
      scale[i] = 1 / Math.sqrt(diagonal);
    }
    DMatrixRMaj scaled = new DMatrixRMaj(size, size);
    for (int i = 0; i < size; i++) {
      for (int j = 0; j < size; j++) {
        scaled.set(i, j, information[i * size + j] * scale[i] * scale[j]);
      }
    }
    DMatrixRMaj inverse = new DMatrixRMaj(size, size);
    var solver = LinearSolverFactory_DDRM.chol(size);
    if (!solver.setA(scaled) || solver.quality() < 1e-16) {
      throw new SingularInformationException("the data leave a combination of parameters open");
    }
    solver.invert(inverse);
    if (MatrixFeatures_DDRM.hasUncountable(inverse)) {
      throw new SingularInformationException("the data leave a combination of parameters open");
    }
    double[] entries = new double[size * size];
    for (int i = 0; i < size; i++) {
      for (int j = 0; j < size; j++) {
        entries[i * size + j] = inverse.get(i, j) * scale[i] * scale[j];
      }
    }
    return new Covariance(entries, size);
  }

  /**
   * What data would tell: (JᵀWJ)⁻¹ at given parameters.
   *
   * @param theta parameters, length p
   * @param weights reciprocal variances of the residuals, length n
   * @throws SingularInformationException where the data leave a parameter undetermined
   */
  public static Covariance of(Residuals model, double[] theta, double[] weights) {
    double[] residual = new double[model.rows()];
    Jacobian jacobian = model.room(0);
    model.evaluate(theta, residual, jacobian, true);
    NormalEquations normal = new NormalEquations(model.parameters(), weights, model.stretches());
    normal.form(jacobian, residual);
    return ofInformation(normal.information, model.parameters());
  }

  /** Number of parameters. */
  public int size() {
    return size;
  }

  /** Covariance of two parameters. */
  public double get(int i, int j) {
    return entries[i * size + j];
  }

  /** Standard uncertainty of one parameter. */
  public double sd(int i) {
    return Math.sqrt(get(i, i));
  }

  /** Variance of a linear form gᵀθ. */
  public double variance(double[] gradient) {
    return Math.max(0, between(gradient, gradient));
  }

  /** Covariance of two linear forms gᵀθ and hᵀθ. */
  public double between(double[] g, double[] h) {
    double sum = 0;
    for (int i = 0; i < size; i++) {
      double row = 0;
      for (int j = 0; j < size; j++) {
        row += entries[i * size + j] * h[j];
      }
      sum += g[i] * row;
    }
    return sum;
  }

  /**
   * Propagates to a derived curve, point by point, as {@link #propagate} does to a number.
   *
   * @return values, then standard uncertainties
   */
  public double[][] propagateCurve(double[] theta, UnaryOperator<double[]> curve) {
    double[] value = curve.apply(theta);
    int n = value.length;
    double[][] gradient = new double[n][size];
    double[] moved = theta.clone();
    for (int i = 0; i < size; i++) {
      double step = Math.max(1e-2 * sd(i), 1e-9 * Math.max(1, Math.abs(theta[i])));
      moved[i] = theta[i] + step;
      double[] up = curve.apply(moved);
      moved[i] = theta[i] - step;
      double[] down = curve.apply(moved);
      moved[i] = theta[i];
      for (int k = 0; k < n; k++) {
        gradient[k][i] = (up[k] - down[k]) / (2 * step);
      }
    }
    double[] sd = new double[n];
    for (int k = 0; k < n; k++) {
      sd[k] = Math.sqrt(variance(gradient[k]));
    }
    return new double[][] {value, sd};
  }

  /**
   * Propagates to a derived quantity by the law of propagation of uncertainty (JCGM 100:2008, 5.2),
   * its gradient by central differences of one hundredth of a standard uncertainty, which leaves a
   * relative error near 1e-4 of the uncertainty for a smooth quantity.
   */
  public Estimate propagate(double[] theta, ToDoubleFunction<double[]> quantity) {
    double[] gradient = new double[size];
    double[] moved = theta.clone();
    for (int i = 0; i < size; i++) {
      double step = Math.max(1e-2 * sd(i), 1e-9 * Math.max(1, Math.abs(theta[i])));
      moved[i] = theta[i] + step;
      double up = quantity.applyAsDouble(moved);
      moved[i] = theta[i] - step;
      double down = quantity.applyAsDouble(moved);
      moved[i] = theta[i];
      gradient[i] = (up - down) / (2 * step);
    }
    return new Estimate(quantity.applyAsDouble(theta), Math.sqrt(variance(gradient)));
  }
}
