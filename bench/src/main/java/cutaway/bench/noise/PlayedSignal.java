package cutaway.bench.noise;

import cutaway.acoustics.fault.Sensor;
import cutaway.acoustics.stimulus.Alignment;
import cutaway.acoustics.stimulus.TestSignal;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What was played, and where it lies in a recording.
 *
 * @param signal of several that may be meant the one that the recording follows best
 * @param alignment with the voltage; absent where that does not hold it or there is none
 */
record PlayedSignal(TestSignal signal, Optional<Alignment> alignment) {
  /**
   * Looks for it.
   *
   * @param meant what may have been played
   * @param channels samples by sensor
   * @param rate samples a second
   * @return absent where nothing was played
   */
  static Optional<PlayedSignal> of(
      List<TestSignal> meant, Map<Sensor, double[]> channels, double rate) {
    double[] voltage = channels.get(Sensor.VOLTAGE);
    if (voltage != null) {
      return meant.stream()
          .map(s -> new PlayedSignal(s, Alignment.of(s, voltage, rate, true)))
          .max(Comparator.comparingDouble(PlayedSignal::likeness));
    }
    if (meant.size() < 2) {
      return meant.stream().map(s -> new PlayedSignal(s, Optional.empty())).findFirst();
    }
    double[] first = channels.values().iterator().next();
    return meant.stream()
        .map(s -> new PlayedSignal(s, Optional.empty()))
        .max(Comparator.comparingDouble(s -> s.likeness(first, rate)));
  }

  /** How well the voltage follows it, 0 to 1. */
  double likeness() {
    return alignment.map(Alignment::likeness).orElse(0.0);
  }

  /** How well a channel follows it, 0 to 1. */
  double likeness(double[] samples, double rate) {
    return Alignment.of(signal, samples, rate, false).map(Alignment::likeness).orElse(0.0);
  }
}
