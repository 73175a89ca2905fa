package cutaway.bench.sheet;

import cutaway.bench.measure.Reading;
import java.util.List;
import java.util.Optional;

/**
 * What bears on noises.
 *
 * @param takes what microphones heard
 * @param resonance of the drive unit as another told it, Hz
 * @param tuning of the box as another told it, Hz
 */
public record SoundReadings(
    List<SoundTake> takes, Optional<Reading> resonance, Optional<Reading> tuning) {
  /** None. */
  public static final SoundReadings NONE =
      new SoundReadings(List.of(), Optional.empty(), Optional.empty());

  public SoundReadings {
    takes = List.copyOf(takes);
  }
}
