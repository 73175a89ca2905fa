package cutaway.acoustics.driveunit;

import cutaway.acoustics.estimate.Estimate;
import cutaway.acoustics.estimate.Jacobian;
import cutaway.acoustics.estimate.Residuals;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/**
 * Residuals of every take and scale reading under one choice of model.
 *
 * <p>A take's residual is ln(Z_model/Z_measured), real part the relative error of the magnitude,
 * imaginary part the error of the phase in radians. A reading's residual is linear in the
 * logarithms. The equations and derivatives are in {@code docs/methods/drive-unit.md}. A take's
 * rows are all its real parts, then all its imaginary parts. Not for use by two threads at once.
 */
final class JointModel implements Residuals {
  /**
   * In a sealed box alone, suspension and air are one spring: how it is shared is not seen, but
   * bears a little on what leaks do. Most boxes have α from a half to four (common practice, no
   * source).
   */
  private static final double USUAL_ALPHA = 1.5;

  private static final double USUAL_SPREAD = 1;

  private final ModelChoice choice;
  private final List<Take> bench;
  private final Layout layout;
  private final int[] firstRow;
  private final int curveRows;

  /** Each take's real parts, its imaginary parts where the phase is known; then the readings. */
  private final int[] stretches;

  private final List<ReadingRow> readingRows;
  private final List<TakeResponse> responses;
  private final List<LogRatio> measured;
  private final List<List<Bend>> bends;

  /** Jacobians, kept from one solve to the next. */
  private final List<Jacobian> rooms = new ArrayList<>();

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
    this.stretches = lengths();
    this.responses =
        bench.stream().map(t -> new TakeResponse(t.curve().frequencies(), layout.size)).toList();
    this.measured = bench.stream().map(t -> new LogRatio(t.curve())).toList();
    this.bends = bench.stream().map(t -> bends(t, layout)).toList();
  }

  /** ∂ln Z/∂θ at each point of a take, the same whatever θ. */
  private record Bend(int parameter, List<double[]> parts) {}

  private static List<Bend> bends(Take take, Layout layout) {
    return take.rigErrors().stream()
        .map(
            e ->
                new Bend(
                    layout.rig + layout.rigSources.indexOf(e.source()),
                    List.of(e.along(take.curve()))))
        .toList();
  }

  @Override
  public Jacobian room(int which) {
    while (rooms.size() <= which) {
      rooms.add(new Jacobian(layout.size, stretches));
    }
    return rooms.get(which);
  }

  private int[] lengths() {
    List<Integer> lengths = new ArrayList<>();
    for (int k = 0; k < bench.size(); k++) {
      lengths.addAll(Collections.nCopies(width(k), bench.get(k).curve().size()));
    }
    lengths.add(readingRows.size());
    return lengths.stream().mapToInt(Integer::intValue).toArray();
  }

  private int firstStretch(int take) {
    int stretch = 0;
    for (int k = 0; k < take; k++) {
      stretch += width(k);
    }
    return stretch;
  }

  @Override
  public int[] stretches() {
    return stretches.clone();
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

  /** Row of a point's real (component 0) or imaginary (1) part. */
  int row(int take, int point, int component) {
    return firstRow[take] + component * bench.get(take).curve().size() + point;
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
  public void evaluate(double[] theta, double[] residual, Jacobian jacobian, boolean wantJacobian) {
    for (int k = 0; k < bench.size(); k++) {
      TakeResponse response = responses.get(k);
      int stretch = firstStretch(k);
      response.writeTo(jacobian, stretch, width(k) == 2 ? stretch + 1 : -1);
      new TakeModel(choice, layout, k, theta).at(response, wantJacobian);
      compare(k, response, residual);
      bend(k, theta, residual, jacobian, wantJacobian);
    }
    for (int i = 0; i < readingRows.size(); i++) {
      ReadingRow reading = readingRows.get(i);
      int row = curveRows + i;
      double sum = -reading.target();
      for (Term term : reading.terms()) {
        sum += term.factor() * theta[term.at()];
        if (wantJacobian) {
          jacobian.column(stretches.length - 1, term.at())[i] = term.factor();
        }
      }
      residual[row] = sum;
    }
  }

  private void compare(int k, TakeResponse response, double[] residual) {
    LogRatio ratio = measured.get(k);
    ratio.of(response.impedance);
    int n = response.size();
    System.arraycopy(ratio.magnitude, 0, residual, firstRow[k], n);
    if (width(k) == 2) {
      System.arraycopy(ratio.angle, 0, residual, firstRow[k] + n, n);
    }
  }

  private void bend(
      int k, double[] theta, double[] residual, Jacobian jacobian, boolean wantJacobian) {
    int n = bench.get(k).curve().size();
    for (Bend bend : bends.get(k)) {
      double error = theta[bend.parameter()];
      for (int part = 0; part < width(k); part++) {
        double[] along = bend.parts().get(part);
        int from = firstRow[k] + part * n;
        for (int i = 0; i < n; i++) {
          residual[from + i] += error * along[i];
        }
        if (wantJacobian) {
          System.arraycopy(
              along, 0, jacobian.column(firstStretch(k) + part, bend.parameter()), 0, n);
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
    for (int k = 0; k < bench.size(); k++) {
      if (layout.take(k).drift() >= 0) {
        rows.add(
            new ReadingRow(
                "suspension in " + bench.get(k).id(),
                k,
                List.of(new Term(layout.take(k).drift(), 1)),
                0,
                readings.resonanceSpread().orElseThrow()));
      }
    }
    if (!bench.isEmpty() && bench.stream().allMatch(JointModel::sealedOfItsOwn)) {
      rows.add(
          new ReadingRow(
              "usual stiffness of a box",
              0,
              List.of(new Term(layout.take(0).stiffness(), 1)),
              Math.log(USUAL_ALPHA),
              USUAL_SPREAD));
    }
    if (layout.leads >= 0) {
      rows.add(new ReadingRow("leads", -1, List.of(new Term(layout.leads, 1)), 0, 1));
    }
    readings.pistonArea().ifPresent(a -> rows.add(logRow("piston diameter", layout.area, a)));
    readings.dcResistance().ifPresent(r -> rows.add(logRow("resistance by meter", Layout.RE, r)));
    for (int i = 0; i < layout.rigSources.size(); i++) {
      String source = layout.rigSources.get(i);
      rows.add(
          new ReadingRow(
              source, -1, List.of(new Term(layout.rig + i, 1)), 0, rigSd(bench, source)));
    }
    return List.copyOf(rows);
  }

  /** In the unit's own sealed box, or one with its vent blocked. */
  private static boolean sealedOfItsOwn(Take take) {
    return take.mounting() instanceof Mounting.Boxed b
        && b.volume().isEmpty()
        && !b.load().ownFrequency();
  }

  private static double rigSd(List<Take> bench, String source) {
    return bench.stream()
        .flatMap(t -> t.rigErrors().stream())
        .filter(e -> e.source().equals(source))
        .mapToDouble(RigError::sd)
        .max()
        .orElseThrow();
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
