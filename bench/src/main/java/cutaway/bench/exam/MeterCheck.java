package cutaway.bench.exam;

import cutaway.acoustics.driveunit.Copper;
import cutaway.acoustics.driveunit.Fitted;
import cutaway.acoustics.driveunit.Readings;
import cutaway.acoustics.driveunit.Take;
import cutaway.acoustics.estimate.Estimate;
import cutaway.bench.finding.CrossCheck;
import cutaway.bench.finding.Notice;
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

  /**
   * The single readings without a meter's resistance that the first take contradicts: a coil warmed
   * by the take, or a meter's leads, would else pull every parameter with them.
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
    double kelvin = Copper.warming(found.over(cold.get()), DriveUnitFindings.room(sheet)).value();
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
    return new MeterCheck(without, alone);
  }
}
