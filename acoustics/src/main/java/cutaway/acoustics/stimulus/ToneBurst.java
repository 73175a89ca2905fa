package cutaway.acoustics.stimulus;

import java.util.List;

/**
 * A short tone under a raised cosine.
 *
 * @param frequency Hz
 * @param cycles how many under it
 * @param lead silence before and after, s
 * @param amplitude peak
 */
public record ToneBurst(double frequency, double cycles, double lead, double amplitude)
    implements TestSignal {
  public ToneBurst {
    if (!(frequency > 0 && cycles > 0 && lead >= 0)) {
      throw new IllegalArgumentException("a burst needs a frequency and cycles");
    }
  }

  private double seconds() {
    return cycles / frequency;
  }

  @Override
  public double duration() {
    return 2 * lead + seconds();
  }

  @Override
  public List<Tone> tones() {
    return List.of(new Tone(lead, lead + seconds(), frequency, 0, 0, amplitude));
  }

  @Override
  public double[] samples(double rate) {
    return new Fade(seconds() / 2, seconds() / 2).sound(tones(), length(rate), rate);
  }
}
