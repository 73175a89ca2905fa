package cutaway.acoustics.fault;

import cutaway.acoustics.stimulus.Alignment;
import cutaway.acoustics.stimulus.TestSignal;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * A recording in which a noise is looked for.
 *
 * @param signal what was played; none when idle
 * @param intervention what was done to the unit meanwhile
 * @param rate samples a second
 * @param channels samples by sensor, all as long: Pa, V, A or m/s²; kept, not copied
 * @param alignment of the signal with the voltage, where it is known already
 */
@SuppressWarnings("ArrayRecordComponent") // never compared
public record NoiseTake(
    Optional<TestSignal> signal,
    Intervention intervention,
    double rate,
    Map<Sensor, double[]> channels,
    Optional<Alignment> alignment) {
  public NoiseTake {
    if (channels.isEmpty()) {
      throw new IllegalArgumentException("a take needs a channel");
    }
    channels = Collections.unmodifiableMap(new EnumMap<>(channels));
    if (channels.values().stream().mapToInt(c -> c.length).distinct().count() > 1) {
      throw new IllegalArgumentException("the channels of a take must be as long as each other");
    }
  }

  /** Whose signal is still to be found. */
  public NoiseTake(
      Optional<TestSignal> signal,
      Intervention intervention,
      double rate,
      Map<Sensor, double[]> channels) {
    this(signal, intervention, rate, channels, Optional.empty());
  }

  /** Those that hear sound in the air. */
  public List<Sensor> microphones() {
    return channels.keySet().stream().filter(Sensor::isMicrophone).toList();
  }

  /** Samples in each channel. */
  public int length() {
    return channels.values().iterator().next().length;
  }

  /** Samples of a sensor that the take has. */
  public double[] channel(Sensor sensor) {
    double[] out = channels.get(sensor);
    if (out == null) {
      throw new IllegalArgumentException("the take has no channel for " + sensor);
    }
    return out;
  }
}
