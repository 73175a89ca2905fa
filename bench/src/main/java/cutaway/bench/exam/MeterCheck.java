package cutaway.bench.exam;

import cutaway.acoustics.driveunit.Copper;
import cutaway.acoustics.driveunit.Fitted;
import cutaway.acoustics.driveunit.Readings;
import cutaway.acoustics.driveunit.Take;
import cutaway.acoustics.estimate.Estimate;
import cutaway.bench.finding.CrossCheck;
import cutaway.bench.finding.Notice;
import cutaway.bench.result.Results;
import cutaway.bench.sheet.Sheet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * A meter's cold resistance held against the first take.
 *
 * @param readings the single readings to go on with
 * @param alone resistance by the first take alone, Ω, absent where no meter's is to be checked
 */
record MeterCheck(Readings readings, Optional<Estimate> alone) {
  private static final double CONFLICT = 3.5;

  /** Neither a warm coil nor leads explain more: that is a slip of the pen. */
  private static final double FURTHEST = 0.25;

  /**
   * Where the first take contradicts the meter, a coil warmed by the take, or leads in the meter's
   * reading or in the takes, would pull every parameter with them. The meter's is then left out,
   * and what lies between the two is allowed for as leads in every take.
   */
  static MeterCheck of(Sheet sheet, List<Take> takes, Results results) {
    Readings all = Bench.readings(sheet);
    Readings without = all.withoutDcResistance();
    Optional<Estimate> cold = all.dcResistance();
    Optional<Estimate> alone =
        cold.isPresent()
            ? DriveUnitExam.attempt(takes.subList(0, 1), without).map(f -> f.averaged(Fitted::re))
            : Optional.empty();
    if (cold.isEmpty() || alone.isEmpty()) {
      return new MeterCheck(all, alone);
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
      return new MeterCheck(all, alone);
    }
    double apart = Math.abs(found.value() / cold.get().value() - 1);
    boolean leads = apart < FURTHEST;
    double kelvin = Copper.warming(found.over(cold.get()), DriveUnitFindings.room(sheet)).value();
    results.notice(
        Notice.caution(
            "drive-unit.dc-resistance",
            String.format(
                Locale.ROOT,
                "resistance by meter %.3f Ω and by impedance %.3f Ω disagree by %.1f σ, so the"
                    + " meter's is left out%s%s",
                cold.get().value(),
                found.value(),
                sigmas,
                leads ? " and R_e and Q_es are wide enough to cover both" : "",
                kelvin > 0 && leads
                    ? String.format(
                        Locale.ROOT,
                        "; a coil %.0f K warm, or leads in the takes, would explain it",
                        kelvin)
                    : ""),
            "short the leads and subtract them, the meter's and the takes'; measure impedance at a"
                + " lower level"));
    double between = Math.abs(found.value() - cold.get().value());
    return new MeterCheck(leads ? without.withLeads(between) : without, alone);
  }
}
