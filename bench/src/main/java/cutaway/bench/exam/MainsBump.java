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
   * Looks for outliers that stand close about mains multiples with clean neighbours, two points at
   * least: a model that does not fit has its outliers everywhere.
   *
   * @return what to say
   */
  static Optional<String> find(JointFit fit, int take, double mains) {
    List<String> orders = new ArrayList<>();
    int bad = 0;
    for (int h = 1; h <= 6; h++) {
      double centre = h * mains;
      double near = Math.max(3, 0.01 * centre);
      int here = outliers(fit, take, centre - near, centre + near);
      int beside = outliers(fit, take, 0.8 * centre, 1.2 * centre) - here;
      if (here > 0 && beside <= here / 2) {
        orders.add(String.format(Locale.ROOT, "%.0f", centre));
        bad += here;
      }
    }
    if (bad < 2) {
      return Optional.empty();
    }
    return Optional.of(
        String.format(
            Locale.ROOT,
            "%d points near %s Hz stand off the curve: mains hum; they were given little weight or"
                + " none",
            bad,
            String.join(", ", orders)));
  }

  private static int outliers(JointFit fit, int take, double low, double high) {
    ImpedanceCurve curve = fit.bench().get(take).curve();
    int count = 0;
    for (int i = 0; i < curve.size(); i++) {
      boolean within = curve.frequency(i) > low && curve.frequency(i) < high;
      count += within && fit.best().noise(take).weight(i) < 0.5 ? 1 : 0;
    }
    return count;
  }
}
