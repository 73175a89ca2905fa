package cutaway.bench.exam;

import cutaway.acoustics.driveunit.ImpedanceCurve;
import cutaway.acoustics.driveunit.JointFit;
import cutaway.acoustics.driveunit.Mounting;
import cutaway.acoustics.driveunit.Plan;
import cutaway.acoustics.driveunit.Readings;
import cutaway.acoustics.driveunit.Take;
import cutaway.acoustics.driveunit.VoltageDivider;
import cutaway.acoustics.estimate.Noise;
import cutaway.acoustics.estimate.SingularInformationException;
import cutaway.bench.finding.NextReading;
import cutaway.bench.finding.Notice;
import cutaway.bench.finding.Shown;
import cutaway.bench.result.Results;
import cutaway.bench.sheet.Sheet;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** What is in the drive unit? */
final class DriveUnitExam {
  private static final double WORST_FIT = 0.10;

  /** Scatter at which the phase is looked at by itself. */
  private static final double ODD_FIT = 0.03;

  private static final double UNLIKE = 4;
  static final String ABOUT = "drive-unit";

  private final Sheet sheet;
  private final Bench bench;
  private final Results results;

  private DriveUnitExam(Sheet sheet, Bench bench, Results results) {
    this.sheet = sheet;
    this.bench = bench;
    this.results = results;
  }

  /** Runs the exam; absent where no take can be believed. */
  static Optional<JointFit> run(Sheet sheet, Bench bench, Results results) {
    return new DriveUnitExam(sheet, bench, results).run();
  }

  private Optional<JointFit> run() {
    if (bench.believed().isEmpty()) {
      results.notice(
          Notice.fault(
              ABOUT,
              sheet.takes().isEmpty()
                  ? "there is no impedance take"
                  : "no take shows a plain drive unit or box",
              "take the impedance in free air and list it under 'takes'"));
      return Optional.empty();
    }
    List<Take> takes = inOrder(bench.believed());
    MeterCheck meter = MeterCheck.of(sheet, takes, results);
    Readings readings = meter.readings();
    if (BoxedAlone.applies(takes)) {
      Optional<JointFit> fit = fit(takes, readings);
      fit.filter(f -> !isHopeless(f)).ifPresent(f -> BoxedAlone.tell(f, results));
      return Optional.empty();
    }
    Optional<JointFit> fit = together(takes, readings).filter(this::channelsAlike);
    if (fit.isEmpty()) {
      return Optional.empty();
    }
    DriveUnitFindings.tell(fit.get(), sheet, meter.alone(), results);
    DriveUnitNotices.tell(fit.get(), sheet, results);
    proposals(fit.get());
    return fit;
  }

  /**
   * All takes in one fit; where no model serves them all, those that go with the first one, the
   * others set aside and named.
   */
  private Optional<JointFit> together(List<Take> takes, Readings readings) {
    Optional<JointFit> all = attempt(takes, readings);
    if (all.isPresent() || takes.size() == 1) {
      return all.isPresent() ? all : explained(takes, readings);
    }
    List<Take> used = new ArrayList<>(takes.subList(0, 1));
    Optional<JointFit> fit = attempt(used, readings);
    if (fit.isEmpty()) {
      return explained(takes, readings);
    }
    for (Take take : takes.subList(1, takes.size())) {
      used.add(take);
      Optional<JointFit> with = attempt(used, readings);
      if (with.isPresent()) {
        fit = with;
      } else {
        used.remove(take);
        DriveUnitNotices.phase(take, results);
        results.notice(
            Notice.fault(
                "takes." + take.id(),
                "no model serves this take together with "
                    + String.join(", ", used.stream().map(Take::id).toList())
                    + "; it is set aside",
                "check that it is the same drive unit in the set-up the sheet says"));
      }
    }
    return fit;
  }

  /** Without a calibration, channels that are further apart than one interface's tell nothing. */
  private boolean channelsAlike(JointFit fit) {
    boolean alike = true;
    for (String source : List.of(VoltageDivider.GAIN, VoltageDivider.DELAY)) {
      if (fit.best().rigPull(source) > UNLIKE) {
        alike = false;
        results.notice(
            Notice.fault(
                "takes",
                "the "
                    + source
                    + " is larger than that of one interface, and without a calibration nothing can be"
                    + " told",
                "record the sweep once more with a known resistor in the drive unit's place, at the"
                    + " same gains"));
      }
    }
    return alike;
  }

  /** A fit that comes close enough to every take. */
  static Optional<JointFit> attempt(List<Take> takes, Readings readings) {
    try {
      JointFit fit = JointFit.of(takes, readings);
      for (int k = 0; k < takes.size(); k++) {
        if (relative(fit, k) > WORST_FIT || phaseIsWrong(fit, k)) {
          return Optional.empty();
        }
      }
      return Optional.of(fit);
    } catch (SingularInformationException | IllegalArgumentException e) {
      return Optional.empty();
    }
  }

  /** A take whose phase does not belong to its magnitude would pull every figure with it. */
  private static boolean phaseIsWrong(JointFit fit, int k) {
    Take take = fit.bench().get(k);
    return relative(fit, k) > ODD_FIT
        && take.curve().phaseKnown()
        && PhaseCheck.of(take).isPresent();
  }

  /** Says why nothing can be fitted; always empty. */
  private Optional<JointFit> explained(List<Take> takes, Readings readings) {
    return fit(takes, readings).filter(f -> !isHopeless(f));
  }

  /** Free air first: its resistance is the one others are compared with. */
  private static List<Take> inOrder(List<Take> takes) {
    List<Take> out = new ArrayList<>(takes);
    out.sort(
        java.util.Comparator.comparingInt(
            t ->
                t.mounting() instanceof Mounting.FreeAir
                    ? 0
                    : t.mounting() instanceof Mounting.AddedMass ? 1 : 2));
    return out;
  }

  private Optional<JointFit> fit(List<Take> takes, Readings readings) {
    try {
      return Optional.of(JointFit.of(takes, readings));
    } catch (SingularInformationException | IllegalArgumentException e) {
      boolean told =
          takes.stream()
              .map(t -> DriveUnitNotices.phase(t, results))
              .reduce(false, Boolean::logicalOr);
      if (told) {
        return Optional.empty();
      }
      results.notice(
          Notice.fault(
              ABOUT,
              "the takes leave the model open: " + e.getMessage(),
              "add a take in free air that reaches well below and above the resonance"));
      return Optional.empty();
    }
  }

  private boolean isHopeless(JointFit fit) {
    boolean hopeless = false;
    for (int k = 0; k < fit.bench().size(); k++) {
      double sigma = relative(fit, k);
      if (sigma <= WORST_FIT && phaseIsWrong(fit, k)) {
        hopeless = DriveUnitNotices.phase(fit.bench().get(k), results);
      }
      if (sigma > WORST_FIT) {
        hopeless = true;
        DriveUnitNotices.phase(fit.bench().get(k), results);
        results.notice(
            Notice.fault(
                "takes." + fit.bench().get(k).id(),
                String.format(
                    Locale.ROOT,
                    "no model of a drive unit comes closer than %.0f %% to this curve, so none is"
                        + " forced on it",
                    100 * sigma),
                "check that it is one drive unit, mounted as the sheet says, with no crossover"));
      }
    }
    return hopeless;
  }

  /** Relative scatter of a take about the model. */
  static double relative(JointFit fit, int k) {
    Noise noise = fit.best().noise(k);
    ImpedanceCurve curve = fit.bench().get(k).curve();
    boolean mostKept = noise.rejectedShare() < 0.2;
    if (!curve.sigmaKnown() && mostKept) {
      return noise.sigma();
    }
    double sum = 0;
    double[] r = fit.best().residual(k);
    for (double x : r) {
      sum += x * x;
    }
    return Math.sqrt(sum / r.length);
  }

  /** Whether the only takes are in a closed box, so that only the boxed drive unit shows. */
  static boolean onlyBoxed(JointFit fit) {
    return fit.bench().stream().allMatch(t -> t.mounting() instanceof Mounting.Boxed);
  }

  private void proposals(JointFit fit) {
    for (Plan.Proposal p : fit.proposals()) {
      String what =
          switch (p.step()) {
            case ADDED_MASS ->
                "take the impedance with "
                    + fit.best()
                        .mms()
                        .map(m -> "about " + Shown.digits(700 * m.value(), 2) + " g")
                        .orElse("a mass near that of the cone, weighed to 0.4 %,")
                    + " stuck to the diaphragm";
            case TEST_VOLUME ->
                "take the impedance over a test box of "
                    + fit.best()
                        .vas()
                        .map(v -> "about " + Shown.digits(500 * v.value(), 2) + " L")
                        .orElse("known volume");
            case PISTON_DIAMETER -> "measure the piston diameter to 0.3 %, several ways round";
            case DC_RESISTANCE -> "measure the cold coil with a meter to 0.5 %";
          };
      results.next(new NextReading(what, p.target(), p.before(), p.after()));
    }
  }
}
