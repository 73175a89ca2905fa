package cutaway.acoustics.driveunit;

import cutaway.acoustics.estimate.Covariance;
import cutaway.acoustics.estimate.LevenbergMarquardt;
import cutaway.acoustics.estimate.Noise;
import cutaway.acoustics.estimate.Solution;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** One choice of model, fitted to all takes, with the noise each take shows under it. */
final class Candidate {
  /** No bench repeats better than this, however smooth a curve looks. */
  private static final double LEAST_SIGMA = 1e-4;

  private static final int PASSES = 12;
  private static final double COARSE = 1;

  /** A logarithm known no better than this is not known. */
  private static final double VAGUE = 2;

  private static final double FINE = 1e-6;

  private final JointModel model;
  private final Solution solution;
  private final List<Noise> noise;

  private Candidate(JointModel model, Solution solution, List<Noise> noise) {
    this.model = model;
    this.solution = solution;
    this.noise = noise;
  }

  /** Fits by iterating least squares and noise estimates until the noise settles. */
  static Candidate fit(JointModel model, List<Take> bench, double[] start) {
    double[] weights = startingWeights(model, bench);
    Solution solution = LevenbergMarquardt.solve(model, start, weights, COARSE);
    List<Noise> noise = noise(model, bench, solution);
    double before = Double.NaN;
    for (int pass = 0; pass < PASSES; pass++) {
      solution =
          LevenbergMarquardt.solve(model, solution.theta(), weights(model, bench, noise), FINE);
      noise = noise(model, bench, solution);
      double now = noise.stream().mapToDouble(n -> Math.log(n.sigma())).sum();
      if (Math.abs(now - before) < 1e-3) {
        break;
      }
      before = now;
    }
    return new Candidate(model, solution, noise);
  }

  private static double[] startingWeights(JointModel model, List<Take> bench) {
    double[] weights = new double[model.rows()];
    Arrays.fill(weights, 1);
    for (int k = 0; k < bench.size(); k++) {
      ImpedanceCurve curve = bench.get(k).curve();
      int width = model.width(k);
      for (int i = 0; i < curve.size(); i++) {
        double sigma = curve.sigmaKnown() ? curve.sigma(i) : 0.02;
        for (int c = 0; c < width; c++) {
          weights[model.row(k, i, c)] = 1 / (sigma * sigma + 1e-4);
        }
      }
    }
    readingWeights(model, weights);
    return weights;
  }

  private static void readingWeights(JointModel model, double[] weights) {
    for (int i = 0; i < model.readingRows().size(); i++) {
      double sd = model.readingRows().get(i).sd();
      weights[model.curveRows() + i] = 1 / (sd * sd);
    }
  }

  private static double[] weights(JointModel model, List<Take> bench, List<Noise> noise) {
    double[] weights = new double[model.rows()];
    for (int k = 0; k < bench.size(); k++) {
      ImpedanceCurve curve = bench.get(k).curve();
      Noise n = noise.get(k);
      int width = model.width(k);
      for (int i = 0; i < curve.size(); i++) {
        double sigma = n.sigma() * (curve.sigmaKnown() ? curve.sigma(i) : 1);
        for (int c = 0; c < width; c++) {
          weights[model.row(k, i, c)] = n.weight(i) / (sigma * sigma * n.correlation());
        }
      }
    }
    readingWeights(model, weights);
    return weights;
  }

  private static List<Noise> noise(JointModel model, List<Take> bench, Solution solution) {
    double[] residual = solution.residual();
    List<Noise> noise = new ArrayList<>();
    int total = model.curveRows();
    for (int k = 0; k < bench.size(); k++) {
      ImpedanceCurve curve = bench.get(k).curve();
      int width = model.width(k);
      boolean known = curve.sigmaKnown();
      if (known) {
        for (int i = 0; i < curve.size() * width; i++) {
          residual[model.firstRow(k) + i] /= curve.sigma(i % curve.size());
        }
      }
      double share = (double) model.parameters() * curve.size() * width / total;
      noise.add(
          Noise.of(
              residual, model.firstRow(k), curve.size(), width, share, known ? 1 : LEAST_SIGMA));
    }
    return noise;
  }

  /**
   * How much better another candidate explains the takes, by Schwarz's criterion (G. Schwarz, Ann.
   * Statist. 6 (1978) 461–464): above zero where the other is to be preferred. Both are judged
   * against the smaller noise of the two, with outliers capped and correlated neighbours counted
   * once.
   */
  double advantageOf(Candidate other) {
    double[] mine = solution.residual();
    double[] its = other.solution.residual();
    double gain = 0;
    double points = 0;
    for (int k = 0; k < noise.size(); k++) {
      Noise a = noise.get(k);
      Noise b = other.noise.get(k);
      Noise better = a.sigma() <= b.sigma() ? a : b;
      int width = model.width(k);
      int n = a.weights().length;
      for (int i = 0; i < n; i++) {
        int row = model.row(k, i, 0);
        double scale = 1 / (better.sigma() * better.sigma());
        gain +=
            (capped(mine, row, n, width, scale * unit(k, i))
                    - capped(its, row, n, width, scale * unit(k, i)))
                / better.correlation();
      }
      points += n * width / better.correlation();
    }
    for (int i = 0; i < model.readingRows().size(); i++) {
      gain += standardSquare(this, i);
    }
    for (int i = 0; i < other.model.readingRows().size(); i++) {
      gain -= standardSquare(other, i);
    }
    int more = other.model.parameters() - model.parameters();
    return gain - more * Math.log(Math.max(points, 8));
  }

  private static double standardSquare(Candidate c, int reading) {
    double r = c.solution.residual()[c.model.curveRows() + reading];
    double sd = c.model.readingRows().get(reading).sd();
    return r * r / (sd * sd);
  }

  private double unit(int take, int point) {
    double sigma = model.takeSigma(take, point);
    return sigma == 0 ? 1 : 1 / (sigma * sigma);
  }

  private static double capped(double[] residual, int row, int apart, int width, double scale) {
    double square = 0;
    for (int c = 0; c < width; c++) {
      square += residual[row + c * apart] * residual[row + c * apart];
    }
    return Math.min(25, square * scale);
  }

  JointModel model() {
    return model;
  }

  Solution solution() {
    return solution;
  }

  Noise noise(int take) {
    return noise.get(take);
  }

  /**
   * Whether a springy support, if the model has one, is wider than a few points: a single bad point
   * looks like a very sharp resonance.
   */
  boolean supportIsResolved() {
    int at = model.layout().supportMass;
    if (at < 0) {
      return true;
    }
    double f = Math.exp(solution.theta(at + 1));
    double width = f / Math.exp(solution.theta(at + 2));
    return model.pointsBetween(f - width, f + width) >= 5;
  }

  /** Whether the fit came to an end and every parameter is determined by the data. */
  boolean determined() {
    if (!solution.converged()) {
      return false;
    }
    try {
      Covariance covariance = solution.covariance();
      for (int i = 0; i < covariance.size(); i++) {
        if (!(covariance.sd(i) < VAGUE)) {
          return false;
        }
      }
      return true;
    } catch (cutaway.acoustics.estimate.SingularInformationException undetermined) {
      return false;
    }
  }
}
