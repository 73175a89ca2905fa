package cutaway.bench.exam;

import cutaway.acoustics.driveunit.Copper;
import cutaway.acoustics.driveunit.ImpedanceCurve;
import cutaway.acoustics.driveunit.JointFit;
import cutaway.acoustics.driveunit.Mounting;
import cutaway.acoustics.driveunit.Plan;
import cutaway.acoustics.driveunit.Readings;
import cutaway.acoustics.driveunit.Suspension;
import cutaway.acoustics.driveunit.Take;
import cutaway.acoustics.estimate.Estimate;
import cutaway.acoustics.estimate.Noise;
import cutaway.acoustics.estimate.SingularInformationException;
import cutaway.bench.finding.CrossCheck;
import cutaway.bench.finding.NextReading;
import cutaway.bench.finding.Notice;
import cutaway.bench.finding.Shown;
import cutaway.bench.measure.Reading;
import cutaway.bench.sheet.Sheet;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** What is in the drive unit? */
final class DriveUnitExam {
  private static final String COPPER = "copper, 0.393 %/K at 20 °C (IEC 60028, from memory)";
  private static final Estimate ROOM = new Estimate(21, 4);
  private static final double WORST_FIT = 0.10;
  private static final double CONFLICT = 3.5;
  static final String ABOUT = "drive-unit";
  private static final String FIT = "joint least-squares fit of all impedance takes";

  private final Sheet sheet;
  private final Bench bench;
  private final Results results;

  /**
   * Resistance of the coil by the first take alone, where there is a meter's to hold against it.
   */
  private Optional<Estimate> alone = Optional.empty();

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
    Readings readings = withoutWrongMeter(takes);
    if (BoxedAlone.applies(takes)) {
      Optional<JointFit> fit = fit(BoxedAlone.asFree(takes), readings);
      fit.filter(f -> !isHopeless(f)).ifPresent(f -> BoxedAlone.tell(f, results));
      return Optional.empty();
    }
    Optional<JointFit> fit = together(takes, readings);
    if (fit.isEmpty()) {
      return Optional.empty();
    }
    findings(fit.get());
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

  /** A fit that comes close enough to every take. */
  static Optional<JointFit> attempt(List<Take> takes, Readings readings) {
    try {
      JointFit fit = JointFit.of(takes, readings);
      for (int k = 0; k < takes.size(); k++) {
        if (relative(fit, k) > WORST_FIT) {
          return Optional.empty();
        }
      }
      return Optional.of(fit);
    } catch (SingularInformationException | IllegalArgumentException e) {
      return Optional.empty();
    }
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
    Noise noise = fit.noise(k);
    ImpedanceCurve curve = fit.bench().get(k).curve();
    boolean mostKept = noise.rejectedShare() < 0.2;
    if (!curve.sigmaKnown() && mostKept) {
      return noise.sigma();
    }
    double sum = 0;
    double[] r = fit.residual(k);
    for (double x : r) {
      sum += x * x;
    }
    return Math.sqrt(sum / r.length);
  }

  /** Whether the only takes are in a closed box, so that only the boxed drive unit shows. */
  static boolean onlyBoxed(JointFit fit) {
    return fit.bench().stream().allMatch(t -> t.mounting() instanceof Mounting.Boxed);
  }

  private void findings(JointFit fit) {
    Grounds grounds = new Grounds(fit);
    List<String> takes = grounds.takes();
    List<String> scale = grounds.mass();
    List<String> area = grounds.area();
    String fm = FIT + "; f_s = 1/(2π√(M_ms C_ms))";
    results.add(
        "drive-unit.re",
        "DC resistance of the coil",
        "R_e",
        fit.averaged(JointFit::re),
        "Ω",
        FIT,
        takes);
    results.add(
        "drive-unit.fs", "Free-air resonance", "f_s", fit.averaged(JointFit::fs), "Hz", fm, takes);
    results.add(
        "drive-unit.qms",
        "Mechanical Q at f_s",
        "Q_ms",
        fit.averaged(JointFit::qms),
        "1",
        FIT + "; Q_ms = 2πf_s M_ms/R_ms (Small 1972)",
        takes);
    results.add(
        "drive-unit.qes",
        "Electrical Q at f_s",
        "Q_es",
        fit.averaged(JointFit::qes),
        "1",
        FIT + "; Q_es = 2πf_s M_ms R_e/Bl² (Small 1972)",
        takes);
    results.add(
        "drive-unit.qts",
        "Total Q at f_s",
        "Q_ts",
        fit.averaged(JointFit::qts),
        "1",
        FIT + "; 1/Q_ts = 1/Q_ms + 1/Q_es",
        takes);
    String kg = FIT + " with the readings that tell the moving mass";
    results.add(
        "drive-unit.mms",
        "Moving mass with air load",
        "M_ms",
        fit.averagedIfShown(JointFit::mms),
        "kg",
        kg,
        scale);
    results.add(
        "drive-unit.cms",
        "Compliance of the suspension",
        "C_ms",
        fit.averagedIfShown(JointFit::cms),
        "m/N",
        kg + "; C_ms = 1/((2πf_s)² M_ms)",
        scale);
    results.add(
        "drive-unit.rms",
        "Mechanical resistance at f_s",
        "R_ms",
        fit.averagedIfShown(JointFit::rms),
        "N·s/m",
        kg + "; R_ms = 2πf_s M_ms/Q_ms",
        scale);
    results.add(
        "drive-unit.bl",
        "Force factor",
        "Bl",
        fit.averagedIfShown(JointFit::bl),
        "T·m",
        kg + "; Bl = √(2πf_s M_ms R_e/Q_es)",
        scale);
    results.add(
        "drive-unit.motor",
        "Motor strength",
        "Bl²/R_e",
        fit.averagedIfShown(JointFit::motorDamping),
        "N·s/m",
        kg,
        scale);
    results.add(
        "drive-unit.sd",
        "Piston area",
        "S_d",
        fit.averagedIfShown(JointFit::sd),
        "m²",
        "πd²/4 of the piston diameter",
        area);
    results.add(
        "drive-unit.vas",
        "Equivalent volume of the suspension",
        "V_as",
        fit.averagedIfShown(JointFit::vas),
        "m³",
        kg + "; V_as = ρc² S_d² C_ms",
        area);
    results.add(
        "drive-unit.eta0",
        "Reference efficiency, half space",
        "η₀",
        fit.averagedIfShown(JointFit::efficiency),
        "1",
        kg + "; η₀ = ρ(Bl S_d/M_ms)²/(2πc R_e) (Small 1972)",
        area);
    sensitivity(fit, area);
    coil(fit, takes);
    suspension(fit, takes);
    temperature(fit);
  }

  private void sensitivity(JointFit fit, List<String> area) {
    String how = "half-space level in the piston range, ρ Bl S_d U/(2π R_e M_ms) at 1 m";
    fit.averagedIfShown(f -> f.pressure(2.83))
        .ifPresent(
            p ->
                results.add(
                    "drive-unit.sensitivity-voltage",
                    "Sensitivity, 2.83 V at 1 m",
                    "L_2.83V",
                    decibels(p),
                    "dB",
                    how,
                    area));
    double oneWatt = Math.sqrt(fit.re().value());
    fit.averagedIfShown(f -> f.pressure(oneWatt))
        .ifPresent(
            p ->
                results.add(
                    "drive-unit.sensitivity-power",
                    "Sensitivity, 1 W into R_e at 1 m",
                    "L_1W",
                    decibels(p),
                    "dB",
                    how + ", U = √(1 W · R_e)",
                    area));
  }

  static Estimate decibels(Estimate pressure) {
    return new Estimate(
        20 * Math.log10(pressure.value() / 20e-6), 20 / Math.log(10) * pressure.relativeSd());
  }

  private void coil(JointFit fit, List<String> takes) {
    String kind = "coil model: " + fit.coil().words() + ", chosen by Schwarz's criterion";
    double top =
        fit.bench().stream()
            .mapToDouble(t -> t.curve().frequency(t.curve().size() - 1))
            .max()
            .orElse(0);
    if (fit.coil().size() > 0) {
      if (top > 900) {
        results.add(
            "drive-unit.l-1k",
            "Coil reactance over ω at 1 kHz",
            "L(1 kHz)",
            fit.averaged(f -> f.inductance(1000)),
            "H",
            kind,
            takes);
      }
      if (top > 9000) {
        results.add(
            "drive-unit.l-10k",
            "Coil reactance over ω at 10 kHz",
            "L(10 kHz)",
            fit.averaged(f -> f.inductance(10000)),
            "H",
            kind,
            takes);
      }
    }
    for (int i = 0; i < fit.coil().size(); i++) {
      int index = i;
      Estimate value = fit.averaged(f -> f.coilValues().get(index));
      String symbol = fit.coil().symbols().get(i);
      String unit =
          symbol.startsWith("L")
              ? "H"
              : symbol.startsWith("R") ? "Ω" : symbol.equals("n") ? "1" : "Ω·sⁿ";
      String id = "drive-unit.coil." + symbol.toLowerCase(Locale.ROOT).replace("_", "");
      results.add(id, "Coil model, " + symbol, symbol, value, unit, kind, takes);
    }
  }

  private void suspension(JointFit fit, List<String> takes) {
    Suspension s = fit.suspension();
    if (s instanceof Suspension.Plain) {
      return;
    }
    boolean slope = s instanceof Suspension.DampingSlope;
    results.add(
        slope ? "drive-unit.damping-slope" : "drive-unit.creep",
        slope ? "Fall of mechanical resistance with frequency" : "Creep of the suspension",
        slope ? "β" : "λ",
        fit.averagedIfShown(
            f ->
                f.suspension().getClass() == s.getClass() ? f.suspensionShape() : Optional.empty()),
        "1",
        "suspension model: "
            + s.words()
            + ", chosen by Schwarz's criterion"
            + (slope ? "" : " (after Knudsen and Jensen 1993)"),
        takes);
  }

  private void temperature(JointFit fit) {
    Estimate room = sheet.air().temperature().map(Reading::estimate).orElse(ROOM);
    String first = fit.bench().get(0).id();
    alone.ifPresent(
        re ->
            sheet
                .driveUnit()
                .dcResistance()
                .map(Reading::estimate)
                .ifPresent(
                    cold ->
                        results.add(
                            "drive-unit.coil-temperature",
                            "Coil warmer in " + first + " than by the cold reading",
                            "ΔT",
                            Copper.warming(re.over(cold), room),
                            "K",
                            "R_e of " + first + " alone over the meter's; " + COPPER,
                            List.of("takes." + first, "drive-unit.dc-resistance", "air"),
                            "resistance of the meter's leads left in it looks like a cooler coil")));
    for (int k = 0; k < fit.bench().size(); k++) {
      if (fit.ownResistance(k)) {
        warmer(fit, k, room);
      }
    }
  }

  /** A take whose coil had another temperature than in the first. */
  private void warmer(JointFit fit, int k, Estimate room) {
    String id = fit.bench().get(k).id();
    String first = fit.bench().get(0).id();
    Estimate rise = Copper.warming(fit.resistanceRatio(k).orElseThrow(), room);
    results.add(
        "drive-unit.coil-temperature." + id,
        "Coil warmer in " + id + " than in " + first,
        "ΔT",
        rise,
        "K",
        "R_e of the take over that of the first; " + COPPER,
        List.of("takes." + id, "takes." + first, "air"));
    results.notice(
        Notice.caution(
            "takes." + id,
            String.format(
                Locale.ROOT,
                "the coil was %s than in %s by %.0f ± %.0f K (R_e %.3f against %.3f Ω); the"
                    + " take is used with a resistance of its own",
                rise.value() > 0 ? "warmer" : "cooler",
                first,
                Math.abs(rise.value()),
                rise.sd(),
                fit.re(k).value(),
                fit.re(0).value()),
            "measure at a lower level, let the coil cool between takes"));
  }

  /**
   * The single readings without a meter's resistance that the first take contradicts: a coil warmed
   * by the take, or a meter's leads, would else pull every parameter with them.
   */
  private Readings withoutWrongMeter(List<Take> takes) {
    Readings all = Bench.readings(sheet);
    Readings without = all.withoutDcResistance();
    Optional<Estimate> cold = all.dcResistance();
    alone =
        cold.isPresent()
            ? attempt(takes.subList(0, 1), without).map(f -> f.averaged(JointFit::re))
            : Optional.empty();
    if (cold.isEmpty() || alone.isEmpty()) {
      return all;
    }
    Estimate found = alone.get();
    double sigmas = cold.get().disagreement(found);
    results.crossCheck(
        new CrossCheck(
            "drive-unit.re-by-meter",
            "resistance of the coil",
            "meter, cold",
            cold.get(),
            "impedance takes",
            found,
            "Ω",
            sigmas));
    if (sigmas <= CONFLICT) {
      return all;
    }
    double kelvin = Copper.warming(found.over(cold.get()), ROOM).value();
    results.notice(
        Notice.caution(
            "drive-unit.dc-resistance",
            String.format(
                Locale.ROOT,
                "resistance by meter %.3f Ω and by impedance %.3f Ω disagree by %.1f σ, so the"
                    + " meter's is left out%s",
                cold.get().value(),
                found.value(),
                sigmas,
                kelvin > 0
                    ? String.format(Locale.ROOT, "; a coil %.0f K warm would explain it", kelvin)
                    : ""),
            "short the meter's leads and subtract; measure impedance at a lower level"));
    return without;
  }

  private void proposals(JointFit fit) {
    for (Plan.Proposal p : fit.proposals()) {
      String what =
          switch (p.step()) {
            case ADDED_MASS ->
                "take the impedance with "
                    + fit.mms()
                        .map(m -> "about " + Shown.digits(700 * m.value(), 2) + " g")
                        .orElse("a mass near that of the cone, weighed to 0.4 %,")
                    + " stuck to the diaphragm";
            case TEST_VOLUME ->
                "take the impedance over a test box of "
                    + fit.vas()
                        .map(v -> "about " + Shown.digits(500 * v.value(), 2) + " L")
                        .orElse("known volume");
            case PISTON_DIAMETER -> "measure the piston diameter to 0.3 %, several ways round";
            case DC_RESISTANCE -> "measure the cold coil with a meter to 0.5 %";
          };
      results.next(new NextReading(what, p.target(), p.before(), p.after()));
    }
  }
}
