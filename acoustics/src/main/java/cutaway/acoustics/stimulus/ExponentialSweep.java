package cutaway.acoustics.stimulus;

import java.util.List;

/**
 * A sweep sin(2π f₁ L e^{t/L}), synchronized: f₁ L is a whole number, so that each harmonic that a
 * loudspeaker adds is the sweep itself, L ln n seconds earlier and in phase (A. Novak, P. Lotton
 * and L. Simon, J. Audio Eng. Soc. 63 (2015) 786; formula as published, from memory).
 *
 * @param low f₁, Hz
 * @param high f₂, Hz
 * @param growth L, time in which the frequency grows e-fold, s
 * @param lead silence before and after, s
 * @param amplitude peak
 */
public record ExponentialSweep(
    double low, double high, double growth, double lead, double amplitude) implements TestSignal {
  public ExponentialSweep {
    if (!(low > 0 && high > low && growth > 0 && lead >= 0)) {
      throw new IllegalArgumentException("a sweep needs 0 < low < high and a time");
    }
  }

  /**
   * As near to a wished duration as the synchronization allows.
   *
   * @param seconds wished, without the silence
   */
  public static ExponentialSweep of(double low, double high, double seconds, double lead) {
    double periods = Math.max(1, Math.rint(low * seconds / Math.log(high / low)));
    return new ExponentialSweep(low, high, periods / low, lead, 1);
  }

  /** Of the sweep alone, s. */
  public double seconds() {
    return growth * Math.log(high / low);
  }

  /** By how much the n-th harmonic comes before the sweep itself once it is undone, s. */
  public double leadOfHarmonic(int n) {
    return growth * Math.log(n);
  }

  @Override
  public double duration() {
    return seconds() + 2 * lead;
  }

  @Override
  public List<Tone> tones() {
    return List.of(new Tone(lead, lead + seconds(), low, 1 / growth, 0, amplitude));
  }

  @Override
  public double[] samples(double rate) {
    return new Fade(1 / low, Math.max(0.005, 20 / high)).sound(tones(), length(rate), rate);
  }
}
