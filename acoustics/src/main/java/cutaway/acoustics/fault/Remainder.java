package cutaway.acoustics.fault;

import java.util.List;
import java.util.Map;
import java.util.Optional;

/** What is left of a driven take once what was played is taken out of it. */
sealed interface Remainder permits Residue, MusicResidue {
  /** So little of any unit is nothing. */
  double NOTHING = 1e-9;

  /**
   * Finds what was played in a take and takes it out.
   *
   * @return absent where the take is idle or does not hold what was played
   */
  static Optional<Remainder> of(NoiseTake take) {
    return take.signal().filter(s -> s.tones().isEmpty()).isPresent()
        ? MusicResidue.of(take).map(r -> r)
        : Residue.of(take).map(r -> r);
  }

  /** Where most is left over, absent where nothing stands out. */
  Optional<Spot> spot();

  /** In the take's order. */
  List<Sensor> microphones();

  /** How many bands there are. */
  int bands();

  /** When it starts to play, s. */
  double begins();

  /** When the last of it has played, s. */
  double ends();

  /** Whether a spot of another take lies within this one, and its microphone listened. */
  boolean holds(Spot spot);

  /** When a spot of this or of another take with the same signal falls, s. */
  double time(Spot spot);

  /** What is listened to about a spot, from and to, s. */
  double[] gathered(Spot spot);

  /** Frequency of the tone that sounds at a time, Hz; 0 where none does. */
  double frequency(double time);

  /** Whether a band can be judged at a time. */
  boolean isJudged(int band, double time);

  /**
   * What is left at a microphone in a band between two times over its background, dB; NaN where the
   * band cannot be judged there.
   */
  double over(Sensor microphone, int band, double from, double to);

  /** How strongly every sensor has the tone of a spot, or the music, dB over one unit of peak. */
  Map<Sensor, Double> played(Spot spot);

  /** What is left at a sensor, one number a sample; not to be changed. */
  double[] left(Sensor sensor);

  /**
   * Power at a spot in even parts of the cone's cycle, over its mean; empty where none is known.
   */
  double[] cycle(Spot spot, int parts);
}
