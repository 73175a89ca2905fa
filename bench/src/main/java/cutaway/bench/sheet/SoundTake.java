package cutaway.bench.sheet;

import cutaway.acoustics.fault.Intervention;
import cutaway.acoustics.fault.Sensor;
import cutaway.acoustics.stimulus.TestSignal;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * What microphones heard, as the sheet lists it.
 *
 * @param id its name
 * @param file path within the dossier
 * @param played what was played; more than one where what is written may mean either; none at rest
 *     or for music
 * @param music file of the music that was played
 * @param done what was done to the unit meanwhile
 * @param channels what each channel hears, in order
 * @param wall the wall that a microphone or a hand was at
 */
public record SoundTake(
    String id,
    String file,
    List<TestSignal> played,
    Optional<String> music,
    Intervention done,
    List<Channel> channels,
    Optional<String> wall) {
  public SoundTake {
    played = List.copyOf(played);
    channels = List.copyOf(channels);
  }

  /** Files it is told by, paths within the dossier. */
  public List<String> files() {
    return Stream.concat(Stream.of(file), music.stream()).toList();
  }

  /** Whether nothing was played. */
  public boolean atRest() {
    return played.isEmpty() && music.isEmpty();
  }

  /**
   * A channel.
   *
   * @param sensor absent where it hears nothing
   * @param fullScale what makes full scale: Pa, V, A or m/s²; a usual value where not told
   * @param told whether it was
   */
  public record Channel(Optional<Sensor> sensor, double fullScale, boolean told) {}
}
