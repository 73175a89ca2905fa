package cutaway.acoustics.fault;

import java.util.Map;
import java.util.Optional;

/**
 * Where something is left over of a driven take.
 *
 * @param spot moment, band and microphone
 * @param without channel whose own sound was taken off before it was found: of a second place that
 *     another hides
 * @param picture of what is left over
 * @param played how strongly every sensor has the tone, or the music, dB over one unit of peak
 * @param audible that as the ear has it, absent where no silence tells the room
 */
public record Place(
    Spot spot,
    Optional<Sensor> without,
    ResiduePicture picture,
    Map<Sensor, Double> played,
    Optional<Audible> audible) {
  public Place {
    played = Map.copyOf(played);
  }

  static Place of(NoiseTake take, Remainder left, Spot spot, Optional<Sensor> without) {
    return new Place(
        spot,
        without,
        ResiduePicture.of(left, spot),
        left.played(spot),
        Audible.of(take, left, spot));
  }
}
