package cutaway.bench.exam;

import cutaway.acoustics.air.Air;
import cutaway.acoustics.driveunit.ImpedanceCurve;
import cutaway.acoustics.driveunit.JointFit;
import cutaway.acoustics.driveunit.Readings;
import cutaway.acoustics.driveunit.Take;
import cutaway.acoustics.estimate.Estimate;
import cutaway.acoustics.estimate.SingularInformationException;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * Whether a curve's phase belongs to its magnitude: an impedance is of minimum phase, so a model
 * fitted to the magnitude alone must give the phase as well.
 */
final class PhaseCheck {
  private static final double WORST = 0.12;

  private PhaseCheck() {}

  /** What is wrong with the phase, absent where it fits. */
  static Optional<String> of(Take take) {
    ImpedanceCurve curve = take.curve();
    Take magnitude =
        take.withCurve(ImpedanceCurve.ofMagnitude(curve.frequencies(), curve.magnitudes()));
    JointFit fit;
    try {
      fit =
          JointFit.of(
              List.of(magnitude), Readings.of(new Air(Estimate.exact(1.2), Estimate.exact(343))));
    } catch (SingularInformationException | IllegalArgumentException e) {
      return Optional.empty();
    }
    double[][] z = fit.best().impedance(0, curve.frequencies());
    double straight = 0;
    double turned = 0;
    for (int i = 0; i < curve.size(); i++) {
      double model = Math.atan2(z[1][i], z[0][i]);
      straight += square(curve.phase(i) - model);
      turned += square(curve.phase(i) + model);
    }
    double off = Math.sqrt(straight / curve.size());
    double offTurned = Math.sqrt(turned / curve.size());
    if (off < WORST || fit.best().noise(0).sigma() > 0.04) {
      return Optional.empty();
    }
    return Optional.of(
        offTurned < 0.5 * off
            ? "the phase has the wrong sign: it fits the magnitude upside down"
            : String.format(
                Locale.ROOT,
                "the phase does not belong to the magnitude: %.0f° off on average",
                Math.toDegrees(off)));
  }

  private static double square(double angle) {
    double a = angle - 2 * Math.PI * Math.rint(angle / (2 * Math.PI));
    return a * a;
  }
}
