package cutaway.bench.exam;

import cutaway.acoustics.driveunit.Fitted;
import cutaway.acoustics.driveunit.JointFit;
import cutaway.acoustics.driveunit.Mounting;
import cutaway.acoustics.driveunit.Take;
import cutaway.bench.finding.Notice;
import cutaway.bench.result.Results;
import java.util.List;

/**
 * A sealed box measured alone, with nothing in free air.
 *
 * <p>Suspension and air are then one spring that no impedance can take apart. A leak shows all the
 * same, so that the box stays in the model, with a usual share of the spring as vague data.
 */
final class BoxedAlone {
  private static final String METHOD =
      "least-squares fit of the in-box impedance (Small 1972); how suspension and air share the"
          + " spring is left open";

  private BoxedAlone() {}

  static boolean applies(List<Take> takes) {
    return takes.stream()
        .allMatch(
            t ->
                t.mounting() instanceof Mounting.Boxed b
                    && b.volume().isEmpty()
                    && !b.load().ownFrequency());
  }

  static void tell(JointFit fit, Results results) {
    List<String> basis = new Grounds(fit).takes();
    results.add(
        "drive-unit.re",
        "DC resistance of the coil",
        "R_e",
        fit.averaged(Fitted::re),
        "Ω",
        METHOD,
        basis);
    results.add(
        "box.fc",
        "Resonance in the box",
        "f_c",
        fit.averagedIfShown(f -> f.box(0).fc()),
        "Hz",
        METHOD,
        basis);
    results.add(
        "box.qmc",
        "Mechanical Q in the box",
        "Q_mc",
        fit.averagedIfShown(f -> f.box(0).qmc()),
        "1",
        METHOD,
        basis);
    results.add(
        "box.qec",
        "Electrical Q in the box",
        "Q_ec",
        fit.averagedIfShown(f -> f.box(0).qec()),
        "1",
        METHOD,
        basis);
    results.add(
        "box.qtc",
        "Total Q in the box",
        "Q_tc",
        fit.averagedIfShown(f -> f.box(0).qtc()),
        "1",
        METHOD,
        basis);
    DriveUnitNotices.drift(
        fit,
        "f_c",
        "is it the same box, with the same lining and nothing leaking? then exercise the suspension"
            + " first",
        results);
    results.notice(
        Notice.caution(
            "box",
            "a sealed box alone tells only ratios: f_s, Q_ts, V_as and the box's volume cannot be"
                + " separated from f_c and Q_tc, nor leak from absorption and suspension loss",
            "add a take of the drive unit in free air"));
  }
}
