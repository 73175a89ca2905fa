package cutaway.bench.sheet;

import cutaway.acoustics.fault.Sensor;
import cutaway.bench.measure.Reading;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What bears on noises.
 *
 * @param takes what microphones heard
 * @param resonance of the drive unit as another told it, Hz
 * @param tuning of the box as another told it, Hz
 * @param distances from microphones to what they are held at, where told, m
 * @param listening how far off listeners sit, m
 */
public record SoundReadings(
    List<SoundTake> takes,
    Optional<Reading> resonance,
    Optional<Reading> tuning,
    Map<Sensor, Double> distances,
    Optional<Reading> listening) {
  /** None. */
  public static final SoundReadings NONE =
      new SoundReadings(List.of(), Optional.empty(), Optional.empty(), Map.of(), Optional.empty());

  public SoundReadings {
    takes = List.copyOf(takes);
    distances = Map.copyOf(distances);
  }

  /** How far off its source a microphone is, m: as told, else as is usual. */
  public double distance(Sensor sensor) {
    return distances.getOrDefault(sensor, sensor.usualDistance());
  }
}
