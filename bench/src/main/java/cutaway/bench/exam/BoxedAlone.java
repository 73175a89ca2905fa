package cutaway.bench.exam;

import cutaway.acoustics.driveunit.Fitted;
import cutaway.acoustics.driveunit.JointFit;
import cutaway.acoustics.driveunit.Mounting;
import cutaway.acoustics.driveunit.Take;
import cutaway.bench.finding.Notice;
import java.util.List;

/**
 * A sealed box measured alone, with nothing in free air.
 *
 * <p>Suspension and air are then one spring that no impedance can take apart: the curve is that of
 * a drive unit in free air with the resonance and the Q of the whole.
 */
final class BoxedAlone {
  private static final String METHOD =
      "least-squares fit of the in-box impedance as one resonance (Small 1972)";

  private BoxedAlone() {}

  static boolean applies(List<Take> takes) {
    return takes.stream()
        .allMatch(
            t ->
                t.mounting() instanceof Mounting.Boxed b
                    && b.volume().isEmpty()
                    && !b.load().ownFrequency());
  }

  static List<Take> asFree(List<Take> takes) {
    return takes.stream().map(t -> t.withMounting(new Mounting.FreeAir())).toList();
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
        "box.fc", "Resonance in the box", "f_c", fit.averaged(Fitted::fs), "Hz", METHOD, basis);
    results.add(
        "box.qmc",
        "Mechanical Q in the box",
        "Q_mc",
        fit.averaged(Fitted::qms),
        "1",
        METHOD,
        basis);
    results.add(
        "box.qec",
        "Electrical Q in the box",
        "Q_ec",
        fit.averaged(Fitted::qes),
        "1",
        METHOD,
        basis);
    results.add(
        "box.qtc", "Total Q in the box", "Q_tc", fit.averaged(Fitted::qts), "1", METHOD, basis);
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
