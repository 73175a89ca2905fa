package cutaway.acoustics.fault;

import cutaway.acoustics.stimulus.TestSignal;
import cutaway.acoustics.stimulus.Tone;
import java.util.List;
import java.util.Optional;

/**
 * Tones as they lie in a recording, as far as they were recorded.
 *
 * @param all one after another, at least one
 */
record TonesPlayed(List<Tone> all) {
  /** Orders reach to here, so that what is judged lies where ordinary distortion has fallen off. */
  private static final double REACH = 600;

  private static final int FEWEST = 5;
  private static final int MOST = 14;

  /** A band is judged that begins so far over the last order: both have some width. */
  private static final double CLEAR = 1.07;

  /** A loudspeaker that was just set going, or a hall that was just left, s. */
  static final double SETTLING = 0.35;

  static final double EDGE = 0.05;

  TonesPlayed {
    all = List.copyOf(all);
  }

  /** Looks for them, absent where the take does not hold them or they are none. */
  static Optional<TonesPlayed> of(NoiseTake take, TestSignal signal) {
    return Optional.of(signal)
        .filter(s -> !s.tones().isEmpty())
        .flatMap(s -> ReferenceChannel.of(take, s))
        .map(r -> within(r.alignment().recorded(signal), take.length() / take.rate()))
        .filter(tones -> !tones.isEmpty())
        .map(TonesPlayed::new);
  }

  private static List<Tone> within(List<Tone> tones, double seconds) {
    return tones.stream()
        .filter(t -> settled(t) < seconds)
        .map(
            t ->
                new Tone(
                    t.start(),
                    Math.min(t.end(), seconds),
                    t.frequency(),
                    t.glide(),
                    t.phase(),
                    t.amplitude()))
        .toList();
  }

  Tone get(int tone) {
    return all.get(tone);
  }

  /** When the first begins, s. */
  double begins() {
    return all.get(0).start();
  }

  /** When the last ends, s. */
  double ends() {
    return all.get(all.size() - 1).end();
  }

  /** Frequency of the one that sounds at a time, Hz; 0 where none does. */
  double frequency(double time) {
    return all.stream()
        .filter(t -> t.start() <= time && time < t.end())
        .mapToDouble(t -> t.frequency(time))
        .findFirst()
        .orElse(0);
  }

  /** Whether one sounds at a time and the loudspeaker has settled to it. */
  boolean isSettled(double time) {
    return all.stream().anyMatch(t -> settled(t) <= time && time < ends(t));
  }

  static double settled(Tone tone) {
    return tone.start() + (tone.isSteady() ? SETTLING : 2 / tone.frequency());
  }

  /** Half a window of the harmonics before its end a tone is followed no further. */
  static double ends(Tone tone) {
    double half = tone.isSteady() ? 2 / tone.frequency() : 0;
    return tone.end() - Math.max(EDGE, half);
  }

  /** How many orders are taken out of a tone of a frequency in Hz. */
  static int orders(double frequency) {
    return (int) Math.max(FEWEST, Math.min(MOST, Math.rint(REACH / frequency)));
  }

  /** Whether ordinary distortion of a tone of a frequency in Hz has fallen off below a band. */
  static boolean isJudged(int band, double frequency) {
    return OctaveBands.lowerEdge(band) >= CLEAR * orders(frequency) * frequency;
  }
}
