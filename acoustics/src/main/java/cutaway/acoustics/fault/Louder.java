package cutaway.acoustics.fault;

import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * Whether two takes of one signal were played alike, so that what an intervention silenced may be
 * told from what was only played softer. The voltage tells it best; a microphone does where the
 * intervention leaves the sound of the cone as it was.
 */
final class Louder {
  /** Volume controls are set back by ear, dB. */
  private static final double VOLTAGE = 3;

  /** A microphone that was set up anew, dB. */
  private static final double MICROPHONE = 6;

  /** One amplifier may have cut off what another does not, dB. */
  private static final double AMPLIFIER = 10;

  private Louder() {}

  /**
   * How much louder the second was played, dB; absent where they are alike or nothing tells.
   *
   * @param before how strongly each sensor had it, dB
   * @param after the same
   * @param done between them
   */
  static Optional<Double> by(
      Map<Sensor, Double> before, Map<Sensor, Double> after, Intervention done) {
    boolean changed = done == Intervention.PORT_BLOCKED || done == Intervention.OUT_OF_BOX;
    Stream<Sensor> telling =
        changed ? Stream.of(Sensor.VOLTAGE) : Stream.of(Sensor.VOLTAGE, Sensor.CONE, Sensor.WALL);
    return telling
        .filter(s -> before.containsKey(s) && after.containsKey(s))
        .findFirst()
        .flatMap(
            s -> {
              double alike =
                  done == Intervention.OTHER_AMPLIFIER
                      ? AMPLIFIER
                      : s == Sensor.VOLTAGE ? VOLTAGE : MICROPHONE;
              double more = after.getOrDefault(s, 0.0) - before.getOrDefault(s, 0.0);
              return Math.abs(more) > alike ? Optional.of(more) : Optional.empty();
            });
  }
}
