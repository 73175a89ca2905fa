package cutaway.acoustics.fault;

import java.util.Arrays;
import java.util.Optional;

/**
 * A stretch of a take about a spot, as the microphone that hears it loudest has it.
 *
 * @param spot what it is about
 * @param recording as it is
 * @param leftOver with what was played and its low harmonics taken out, from 177 Hz up
 */
@SuppressWarnings("ArrayRecordComponent") // never compared
public record NoiseClip(Spot spot, double[] recording, double[] leftOver) {
  /**
   * Cuts it out where most is left over.
   *
   * @param seconds how long, less where the take ends
   * @return absent where the take does not hold its signal, or nothing stands out
   */
  public static Optional<NoiseClip> of(NoiseTake take, double seconds) {
    return Remainder.of(take).flatMap(r -> r.spot().map(spot -> cut(take, r, spot, seconds)));
  }

  /**
   * Cuts it out.
   *
   * @param spot in another take of the same signal
   * @param seconds how long, less where the take ends
   * @return absent where the take does not hold its signal, or lacks the microphone
   */
  public static Optional<NoiseClip> of(NoiseTake take, Spot spot, double seconds) {
    return Remainder.of(take).filter(r -> r.holds(spot)).map(r -> cut(take, r, spot, seconds));
  }

  /** What was played, without what is left over, by which takes are brought to one level. */
  public double[] played() {
    double[] out = recording.clone();
    for (int i = 0; i < out.length; i++) {
      out[i] -= leftOver[i];
    }
    return out;
  }

  private static NoiseClip cut(NoiseTake take, Remainder left, Spot spot, double seconds) {
    double middle = left.time(spot);
    int from = (int) Math.max(0, (middle - seconds / 2) * take.rate());
    int to = (int) Math.min(take.length(), from + seconds * take.rate());
    double[] over = OctaveBands.above(left.left(spot.sensor()), take.rate());
    return new NoiseClip(
        spot,
        Arrays.copyOfRange(take.channel(spot.sensor()), from, to),
        Arrays.copyOfRange(over, from, to));
  }
}
