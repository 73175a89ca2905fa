package cutaway.acoustics.stimulus;

import java.util.List;

/** A sound that is played to learn something of a loudspeaker. Peaks stay within ±1. */
public sealed interface TestSignal
    permits ExponentialSweep, MusicClip, SteadyTone, SteppedTones, ToneBurst, TestNoise {
  /** From the first sample to the last, silence before and after included, s. */
  double duration();

  /** The tones it is made of, one after another; none where it is noise. */
  List<Tone> tones();

  /**
   * The sound itself.
   *
   * @param rate samples per second
   */
  double[] samples(double rate);

  /** How many samples it takes. */
  default int length(double rate) {
    return (int) Math.ceil(duration() * rate - 1e-6);
  }
}
