package cutaway.acoustics.fault;

import cutaway.acoustics.hearing.CriticalBands;
import cutaway.acoustics.hearing.Masking;
import cutaway.acoustics.meter.PowerSpectrum;
import java.util.Optional;
import java.util.function.ToDoubleFunction;

/**
 * What is left over at a spot as the ear sorts it, with what is played beside it and the room's
 * noise. Method: docs/methods/hearing.md.
 *
 * @param noiseAt microphone that has what is left over
 * @param noise that, the silence taken off
 * @param playedAt microphone that has what is played
 * @param played the tone with its low harmonics
 * @param room noise of the quietest microphone while nothing plays
 */
public record Audible(
    Sensor noiseAt,
    CriticalBands noise,
    Sensor playedAt,
    CriticalBands played,
    CriticalBands room) {
  /** A stretch of a spectrum is as long, s; a silence is no shorter. */
  private static final double STRETCH = 0.1;

  /**
   * Of a spot.
   *
   * @return absent where the take has no silence before its signal to tell the room by
   */
  static Optional<Audible> of(NoiseTake take, Remainder residue, Spot spot) {
    double first = residue.begins();
    if (first < 2 * STRETCH) {
      return Optional.empty();
    }
    int from = (int) (STRETCH / 4 * take.rate());
    int to = (int) ((first - STRETCH / 4) * take.rate());
    Stretch silence = new Stretch(take.rate(), from, to);
    Stretch heard = heard(take, residue, spot);
    Sensor noiseAt = listener(residue, spot).orElse(spot.sensor());
    boolean near = noiseAt != Sensor.LISTENER && take.channels().containsKey(Sensor.CONE);
    Sensor playedAt = near ? Sensor.CONE : noiseAt;
    double[] left = OctaveBands.above(residue.left(noiseAt), take.rate());
    return Optional.of(
        new Audible(
            noiseAt,
            heard.bands(left).without(silence.bands(left)),
            playedAt,
            heard.bands(take.channel(playedAt)).without(heard.bands(residue.left(playedAt))),
            room(take, residue, silence)));
  }

  /** A microphone where a listener sits, if what is left over stands out there too. */
  private static Optional<Sensor> listener(Remainder residue, Spot spot) {
    double time = residue.time(spot);
    int band = OctaveBands.at(spot.band());
    return Optional.of(Sensor.LISTENER)
        .filter(residue.microphones()::contains)
        .filter(s -> residue.over(s, band, time - spot.half(), time + spot.half()) >= Clue.HEARD);
  }

  private static Stretch heard(NoiseTake take, Remainder residue, Spot spot) {
    double[] times = residue.gathered(spot);
    return new Stretch(take.rate(), (int) (times[0] * take.rate()), (int) (times[1] * take.rate()));
  }

  private static CriticalBands room(NoiseTake take, Remainder residue, Stretch silence) {
    CriticalBands quietest = silence.bands(take.channel(residue.microphones().get(0)));
    for (Sensor s : residue.microphones()) {
      CriticalBands other = silence.bands(take.channel(s));
      quietest = other.power() < quietest.power() ? other : quietest;
    }
    return quietest;
  }

  /** Some samples of a take. */
  private record Stretch(double rate, int from, int to) {
    CriticalBands bands(double[] x) {
      return CriticalBands.of(
          PowerSpectrum.averaged(x, from, Math.min(to, x.length), rate, (int) (STRETCH * rate)));
    }
  }

  /**
   * At a distance, m.
   *
   * @param from how far off its source each microphone is, m
   */
  public Masking at(double distance, ToDoubleFunction<Sensor> from) {
    return Masking.of(
        noise.scaled(from.applyAsDouble(noiseAt) / distance),
        played.scaled(from.applyAsDouble(playedAt) / distance).with(room));
  }

  /**
   * How far off half of the listeners hear it.
   *
   * @param from how far off its source each microphone is, m
   * @param louder how much louder it is than was measured, dB
   * @return m, from 0.1 to 100
   */
  public double reach(ToDoubleFunction<Sensor> from, double louder) {
    return Masking.reach(
        noise.scaled(from.applyAsDouble(noiseAt) * Math.pow(10, louder / 20)),
        played.scaled(from.applyAsDouble(playedAt)),
        room);
  }
}
