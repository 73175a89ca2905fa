package cutaway.bench.exam;

import cutaway.acoustics.driveunit.Copper;
import cutaway.acoustics.driveunit.Fitted;
import cutaway.acoustics.driveunit.JointFit;
import cutaway.acoustics.driveunit.Suspension;
import cutaway.acoustics.estimate.Estimate;
import cutaway.bench.finding.Notice;
import cutaway.bench.finding.Shown;
import cutaway.bench.measure.Reading;
import cutaway.bench.result.Results;
import cutaway.bench.sheet.Sheet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** What a fitted drive unit's parameters are. */
final class DriveUnitFindings {
  private static final String FIT = "joint least-squares fit of all impedance takes";
  private static final String WEIGHED = FIT + " with the readings that tell the moving mass";
  private static final String COPPER = "copper, 0.393 %/K at 20 °C (IEC 60028, from memory)";

  private final JointFit fit;
  private final Sheet sheet;

  /**
   * Resistance of the coil by the first take alone, where there is a meter's to hold against it.
   */
  private final Optional<Estimate> alone;

  private final Results results;

  private DriveUnitFindings(JointFit fit, Sheet sheet, Optional<Estimate> alone, Results results) {
    this.fit = fit;
    this.sheet = sheet;
    this.alone = alone;
    this.results = results;
  }

  static void tell(JointFit fit, Sheet sheet, Optional<Estimate> alone, Results results) {
    new DriveUnitFindings(fit, sheet, alone, results).tell();
  }

  private void tell() {
    Grounds grounds = new Grounds(fit);
    resonance(grounds.takes());
    moving(grounds.mass());
    radiating(grounds.area());
    coil(grounds.takes());
    suspension(grounds.takes());
    temperature();
  }

  private void resonance(List<String> takes) {
    String fm = FIT + "; f_s = 1/(2π√(M_ms C_ms))";
    results.add(
        "drive-unit.re",
        "DC resistance of the coil",
        "R_e",
        fit.averaged(Fitted::re),
        "Ω",
        FIT,
        takes);
    results.add(
        "drive-unit.fs", "Free-air resonance", "f_s", fit.averaged(Fitted::fs), "Hz", fm, takes);
    results.add(
        "drive-unit.qms",
        "Mechanical Q at f_s",
        "Q_ms",
        fit.averaged(Fitted::qms),
        "1",
        FIT + "; Q_ms = 2πf_s M_ms/R_ms (Small 1972)",
        takes);
    results.add(
        "drive-unit.qes",
        "Electrical Q at f_s",
        "Q_es",
        fit.averaged(Fitted::qes),
        "1",
        FIT + "; Q_es = 2πf_s M_ms R_e/Bl² (Small 1972)",
        takes);
    results.add(
        "drive-unit.qts",
        "Total Q at f_s",
        "Q_ts",
        fit.averaged(Fitted::qts),
        "1",
        FIT + "; 1/Q_ts = 1/Q_ms + 1/Q_es",
        takes);
  }

  private void moving(List<String> scale) {
    results.add(
        "drive-unit.mms",
        "Moving mass with air load",
        "M_ms",
        fit.averagedIfShown(Fitted::mms),
        "kg",
        WEIGHED,
        scale);
    results.add(
        "drive-unit.cms",
        "Compliance of the suspension",
        "C_ms",
        fit.averagedIfShown(Fitted::cms),
        "m/N",
        WEIGHED + "; C_ms = 1/((2πf_s)² M_ms)",
        scale);
    results.add(
        "drive-unit.rms",
        "Mechanical resistance at f_s",
        "R_ms",
        fit.averagedIfShown(Fitted::rms),
        "N·s/m",
        WEIGHED + "; R_ms = 2πf_s M_ms/Q_ms",
        scale);
    results.add(
        "drive-unit.bl",
        "Force factor",
        "Bl",
        fit.averagedIfShown(Fitted::bl),
        "T·m",
        WEIGHED + "; Bl = √(2πf_s M_ms R_e/Q_es)",
        scale);
    results.add(
        "drive-unit.motor",
        "Motor strength",
        "Bl²/R_e",
        fit.averagedIfShown(Fitted::motorDamping),
        "N·s/m",
        WEIGHED,
        scale);
  }

  private void radiating(List<String> area) {
    results.add(
        "drive-unit.sd",
        "Piston area",
        "S_d",
        fit.averagedIfShown(Fitted::sd),
        "m²",
        "πd²/4 of the piston diameter",
        area);
    results.add(
        "drive-unit.vas",
        "Equivalent volume of the suspension",
        "V_as",
        fit.averagedIfShown(Fitted::vas),
        "m³",
        WEIGHED + "; V_as = ρc² S_d² C_ms",
        area);
    results.add(
        "drive-unit.eta0",
        "Reference efficiency, half space",
        "η₀",
        fit.averagedIfShown(Fitted::efficiency),
        "1",
        WEIGHED + "; η₀ = ρ(Bl S_d/M_ms)²/(2πc R_e) (Small 1972)",
        area);
    sensitivity(area);
  }

  private void sensitivity(List<String> area) {
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
    fit.averagedIfShown(Fitted::pressurePerWatt)
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

  private void coil(List<String> takes) {
    String kind = "coil model: " + fit.best().coil().words() + ", chosen by Schwarz's criterion";
    double top =
        fit.bench().stream()
            .mapToDouble(t -> t.curve().frequency(t.curve().size() - 1))
            .max()
            .orElse(0);
    if (fit.best().coil().size() > 0) {
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
    for (int i = 0; i < fit.best().coil().size(); i++) {
      int index = i;
      Estimate value = fit.averaged(f -> f.coilValues().get(index));
      String symbol = fit.best().coil().symbols().get(i);
      String unit = fit.best().coil().units().get(i);
      String id = "drive-unit.coil." + symbol.toLowerCase(Locale.ROOT).replace("_", "");
      results.add(id, "Coil model, " + symbol, symbol, value, unit, kind, takes);
    }
  }

  private void suspension(List<String> takes) {
    Suspension s = fit.best().suspension();
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

  /** Temperature of the air, °C; a usual room's where it was not read. */
  static Estimate room(Sheet sheet) {
    return sheet.air().temperature().map(Reading::estimate).orElse(new Estimate(21, 4));
  }

  private void temperature() {
    Estimate room = room(sheet);
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
      if (fit.best().ownResistance(k)) {
        warmer(k, room);
      }
    }
  }

  /** Temperature of the first take's coil, °C: the room's, and what the meter's reading tells. */
  private Estimate before(Estimate room) {
    Optional<Estimate> cold = fit.readings().dcResistance().isPresent() ? Optional.empty() : cold();
    return alone.isPresent() && cold.isPresent()
        ? room.plus(Copper.warming(alone.get().over(cold.get()), room))
        : room;
  }

  private Optional<Estimate> cold() {
    return sheet.driveUnit().dcResistance().map(Reading::estimate);
  }

  /** A take whose coil had another temperature than in the first. */
  private void warmer(int k, Estimate room) {
    String id = fit.bench().get(k).id();
    String first = fit.bench().get(0).id();
    Estimate rise = Copper.warming(fit.best().resistanceRatio(k).orElseThrow(), before(room));
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
                "the coil was %s than in %s by %s (R_e %.3f against %.3f Ω); the"
                    + " take is used with a resistance of its own",
                rise.value() > 0 ? "warmer" : "cooler",
                first,
                Shown.of(Math.abs(rise.value()), rise.sd(), "K").text(),
                fit.best().re(k).value(),
                fit.best().re(0).value()),
            "measure at a lower level, let the coil cool between takes"));
  }
}
