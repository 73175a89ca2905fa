package cutaway.bench.exam;

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
    List<String> basis = fit.bench().stream().map(t -> "takes." + t.id()).toList();
    results.add(
        "drive-unit.re", "DC resistance of the coil", "R_e", fit.best().re(), "Ω", METHOD, basis);
    results.add("box.fc", "Resonance in the box", "f_c", fit.best().fs(), "Hz", METHOD, basis);
    results.add("box.qmc", "Mechanical Q in the box", "Q_mc", fit.best().qms(), "1", METHOD, basis);
    results.add("box.qec", "Electrical Q in the box", "Q_ec", fit.best().qes(), "1", METHOD, basis);
    results.add("box.qtc", "Total Q in the box", "Q_tc", fit.best().qts(), "1", METHOD, basis);
    results.notice(
        Notice.caution(
            "box",
            "a sealed box alone tells only ratios: f_s, Q_ts, V_as and the box's volume cannot be"
                + " separated from f_c and Q_tc, nor leak from absorption and suspension loss",
            "add a take of the drive unit in free air"));
  }
}
