package cutaway.bench.exam;

import cutaway.acoustics.driveunit.ImpedanceCurve;
import cutaway.acoustics.driveunit.JointFit;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** Points that stand off the model at the mains frequency and its multiples. */
final class MainsBump {
  private MainsBump() {}

  /**
   * What was found.
   *
   * @param take index of the take, as text
   * @param message what to say
   */
  record Found(String take, String message) {}

  /** Looks for outliers that cluster at mains multiples, two at least. */
  static Optional<Found> find(JointFit fit, int take, double mains) {
    ImpedanceCurve curve = fit.bench().get(take).curve();
    List<String> orders = new ArrayList<>();
    int bad = 0;
    for (int h = 1; h <= 6; h++) {
      int here = 0;
      for (int i = 0; i < curve.size(); i++) {
        double near = Math.max(3, 0.01 * h * mains);
        if (Math.abs(curve.frequency(i) - h * mains) < near && fit.noise(take).weight(i) < 0.5) {
          here++;
        }
      }
      if (here > 0) {
        orders.add(String.format(Locale.ROOT, "%.0f", h * mains));
        bad += here;
      }
    }
    if (bad < 2) {
      return Optional.empty();
    }
    return Optional.of(
        new Found(
            Integer.toString(take),
            String.format(
                Locale.ROOT,
                "%d points near %s Hz stand off the curve: mains hum; they were given no weight",
                bad,
                String.join(", ", orders))));
  }
}
