package cutaway.acoustics.fault;

import cutaway.acoustics.stimulus.Alignment;
import cutaway.acoustics.stimulus.TestSignal;
import java.util.Optional;

/**
 * The channel of a take by which what was played is found in it: the voltage if that holds it, else
 * the microphone most like it.
 *
 * @param alignment where the signal lies in that channel
 */
record ReferenceChannel(Sensor sensor, Alignment alignment) {
  /** Of a take, absent where no channel holds the signal. */
  static Optional<ReferenceChannel> of(NoiseTake take, TestSignal signal) {
    return take.alignment()
        .or(() -> in(take, Sensor.VOLTAGE, signal))
        .map(a -> new ReferenceChannel(Sensor.VOLTAGE, a))
        .or(() -> microphone(take, signal));
  }

  private static Optional<ReferenceChannel> microphone(NoiseTake take, TestSignal signal) {
    Optional<ReferenceChannel> best = Optional.empty();
    for (Sensor m : take.microphones()) {
      Optional<Alignment> found = in(take, m, signal);
      double most = best.map(b -> b.alignment.likeness()).orElse(0.0);
      if (found.isPresent() && found.get().likeness() > most) {
        best = Optional.of(new ReferenceChannel(m, found.get()));
      }
    }
    return best;
  }

  private static Optional<Alignment> in(NoiseTake take, Sensor sensor, TestSignal signal) {
    return Optional.of(sensor)
        .filter(take.channels()::containsKey)
        .flatMap(s -> Alignment.of(signal, take.channel(s), take.rate(), sensor == Sensor.VOLTAGE));
  }
}
