package cutaway.acoustics.driveunit;

import cutaway.acoustics.estimate.Estimate;
import cutaway.acoustics.estimate.Residuals;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Residuals of every take and scale reading under one choice of model.
 *
 * <p>A take's residual is ln(Z_model/Z_measured), real part the relative error of the magnitude,
 * imaginary part the error of the phase in radians. A reading's residual is linear in the
 * logarithms. The equations and derivatives are in {@code docs/methods/drive-unit.md}.
 */
final class JointModel implements Residuals {
  private final ModelChoice choice;
  private final List<Take> bench;
  private final Layout layout;
  private final int[] firstRow;
  private final int curveRows;
  private final List<ReadingRow> readingRows;

  /**
   * A residual that is linear in the parameters: Σ c_i θ_i − target.
   *
   * @param about what the reading is, for messages
   * @param take index of the take it belongs to, −1 for none
   */
  record ReadingRow(String about, int take, List<Term> terms, double target, double sd) {}

  /** One c_i θ_i. */
  record Term(int at, double factor) {}

  /**
   * Sets the model up.
   *
   * @param scale readings that tell the moving mass; with none, the mass is not among the unknowns
   */
  JointModel(ModelChoice choice, List<Take> bench, Readings readings, List<ScaleReading> scale) {
    this.choice = choice;
    this.bench = bench;
    this.layout = new Layout(choice, bench, readings, !scale.isEmpty());
    this.firstRow = new int[bench.size()];
    int row = 0;
    for (int k = 0; k < bench.size(); k++) {
      firstRow[k] = row;
      row += bench.get(k).curve().size() * width(k);
    }
    this.curveRows = row;
    this.readingRows = readingRows(bench, readings, scale, layout);
  }

  ModelChoice choice() {
    return choice;
  }

  Layout layout() {
    return layout;
  }

  int firstRow(int take) {
    return firstRow[take];
  }

  int curveRows() {
    return curveRows;
  }

  List<ReadingRow> readingRows() {
    return readingRows;
  }

  /** Residual components for each point of a take: two with phase, one without. */
  int width(int take) {
    return bench.get(take).curve().phaseKnown() ? 2 : 1;
  }

  /** Relative standard uncertainty a take gives one of its points, or 0. */
  double takeSigma(int take, int point) {
    return bench.get(take).curve().sigma(point);
  }

  /** Points of the first take between two frequencies, Hz. */
  int pointsBetween(double low, double high) {
    return bench.get(0).curve().between(low, high).size();
  }

  @Override
  public int rows() {
    return curveRows + readingRows.size();
  }

  @Override
  public int parameters() {
    return layout.size;
  }

  @Override
  public void evaluate(double[] theta, double[] residual, double[] jacobian, boolean wantJacobian) {
    if (wantJacobian) {
      Arrays.fill(jacobian, 0);
    }
    for (int k = 0; k < bench.size(); k++) {
      TakeModel take = new TakeModel(choice, layout, k, theta);
      evaluateTake(k, take, residual, jacobian, wantJacobian);
    }
    for (int i = 0; i < readingRows.size(); i++) {
      ReadingRow reading = readingRows.get(i);
      int row = curveRows + i;
      double sum = -reading.target();
      for (Term term : reading.terms()) {
        sum += term.factor() * theta[term.at()];
        if (wantJacobian) {
          jacobian[row * layout.size + term.at()] += term.factor();
        }
      }
      residual[row] = sum;
    }
  }

  private void evaluateTake(
      int k, TakeModel take, double[] residual, double[] jacobian, boolean wantJacobian) {
    ImpedanceCurve curve = bench.get(k).curve();
    int width = width(k);
    int p = layout.size;
    double[] z = new double[2];
    double[] dz = new double[2 * p];
    for (int i = 0; i < curve.size(); i++) {
      take.at(curve.frequency(i), z, dz, wantJacobian);
      int row = firstRow[k] + i * width;
      double square = z[0] * z[0] + z[1] * z[1];
      double mRe = curve.re(i);
      double mIm = curve.im(i);
      double inverse = 1 / (mRe * mRe + mIm * mIm);
      residual[row] = 0.5 * SmallArgument.log(square * inverse);
      if (width == 2) {
        double across = z[1] * mRe - z[0] * mIm;
        double along = z[0] * mRe + z[1] * mIm;
        residual[row + 1] = SmallArgument.angle(across, along);
      }
      if (wantJacobian) {
        double a = z[0] / square;
        double b = z[1] / square;
        for (int j = 0; j < p; j++) {
          double dRe = dz[2 * j];
          double dIm = dz[2 * j + 1];
          jacobian[row * p + j] = dRe * a + dIm * b;
          if (width == 2) {
            jacobian[(row + 1) * p + j] = dIm * a - dRe * b;
          }
        }
      }
    }
  }

  private static List<ReadingRow> readingRows(
      List<Take> bench, Readings readings, List<ScaleReading> scale, Layout layout) {
    List<ReadingRow> rows = new ArrayList<>();
    for (ScaleReading reading : scale) {
      rows.add(scaleRow(reading, readings, layout));
    }
    for (int k = 0; k < bench.size(); k++) {
      if (layout.take(k).boxMass() >= 0 && layout.area >= 0 && layout.movingMass >= 0) {
        rows.add(boxMassRow(k, bench, readings, layout));
      }
    }
    readings.pistonArea().ifPresent(a -> rows.add(logRow("piston diameter", layout.area, a)));
    readings.dcResistance().ifPresent(r -> rows.add(logRow("resistance by meter", Layout.RE, r)));
    if (layout.scaleError >= 0) {
      rows.add(
          new ReadingRow(
              "reference resistor",
              -1,
              List.of(new Term(layout.scaleError, 1)),
              0,
              readings.impedanceScale()));
    }
    return List.copyOf(rows);
  }

  private static ReadingRow logRow(String about, int at, Estimate reading) {
    return new ReadingRow(
        about, -1, List.of(new Term(at, 1)), Math.log(reading.value()), relative(reading));
  }

  private static ReadingRow scaleRow(ScaleReading reading, Readings readings, Layout layout) {
    String about = reading.about();
    Estimate value = reading.reading();
    if (reading instanceof ScaleReading.Mass mass) {
      // μ M = m
      List<Term> terms =
          List.of(
              new Term(layout.take(mass.take()).addedMass(), 1), new Term(layout.movingMass, 1));
      return new ReadingRow(about, mass.take(), terms, Math.log(value.value()), relative(value));
    }
    if (reading instanceof ScaleReading.Volume volume) {
      // α ω_s² M V = ρc² S_d²
      Estimate stiffness = readings.air().stiffness();
      List<Term> terms =
          List.of(
              new Term(layout.take(volume.take()).stiffness(), 1),
              new Term(Layout.FS, 2),
              new Term(layout.movingMass, 1),
              new Term(layout.area, -2));
      double target = Math.log(stiffness.value() / value.value()) - 2 * Math.log(2 * Math.PI);
      double sd = Math.hypot(relative(value), stiffness.relativeSd());
      return new ReadingRow(about, volume.take(), terms, target, sd);
    }
    return logRow(about, layout.movingMass, value);
  }

  private static ReadingRow boxMassRow(int k, List<Take> bench, Readings readings, Layout layout) {
    // μ_box M = (4/3) ρ a³ with a = √(S/π): a rear face that radiates into a box instead of round
    // the edge; the rear of a real box lies between none of it and a little more, hence 30 %
    double target = Math.log(4.0 / 3 * readings.air().density().value() / Math.pow(Math.PI, 1.5));
    return new ReadingRow(
        "air moved in the box of " + bench.get(k).id(),
        k,
        List.of(
            new Term(layout.take(k).boxMass(), 1),
            new Term(layout.movingMass, 1),
            new Term(layout.area, -1.5)),
        target,
        0.3);
  }

  private static double relative(Estimate reading) {
    return Math.max(1e-7, reading.relativeSd());
  }
}
