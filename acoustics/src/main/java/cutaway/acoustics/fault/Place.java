package cutaway.acoustics.fault;

import java.util.Optional;

/**
 * Where something is left over of a driven take.
 *
 * @param spot moment, band and microphone
 * @param without channel whose own sound was taken off before it was found: of a second place that
 *     another hides
 * @param picture of what is left over
 * @param audible that as the ear has it, absent where no silence tells the room
 */
public record Place(
    Spot spot, Optional<Sensor> without, ResiduePicture picture, Optional<Audible> audible) {
  static Place of(NoiseTake take, Remainder left, Spot spot, Optional<Sensor> without) {
    return new Place(spot, without, ResiduePicture.of(left, spot), Audible.of(take, left, spot));
  }
}
