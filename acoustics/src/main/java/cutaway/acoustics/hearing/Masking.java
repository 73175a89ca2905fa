package cutaway.acoustics.hearing;

import org.hipparchus.special.Erf;

/**
 * Whether a sound is heard beside a louder one: it must stand over the other's excitation less a
 * few dB, and over the threshold in quiet, in some critical band or a little in several.
 *
 * <p>Slopes of excitation as in ITU-R BS.1387 (27 dB/Bark down, 24 + 230/f − 0.2 L up), masking
 * index of E. Zwicker and H. Fastl, Psychoacoustics; formulas from memory. Bands are joined as in
 * multiband detection, d'² = Σ d'ᵢ² (D. M. Green and J. A. Swets, from memory).
 *
 * @param over how far it stands over the threshold, all bands together, dB
 * @param frequency of the band in which it stands out most, Hz
 */
public record Masking(double over, double frequency) {
  private static final double DOWN = 27;

  /** Half of a critical band, Bark: excitation falls off outside it only. */
  private static final double FLAT = 0.5;

  /** Thresholds of listeners and moments scatter by so much, dB; judgement. */
  private static final double SPREAD = 4;

  /** Nobody hears nothing, dB. */
  private static final double LEAST = -60;

  /**
   * Judges one sound beside another.
   *
   * @param sound the one in question
   * @param beside all else at the same moment
   */
  public static Masking of(CriticalBands sound, CriticalBands beside) {
    double[] masked = masked(beside);
    double joined = 0;
    double best = Double.NEGATIVE_INFINITY;
    double at = 0;
    for (int i = 0; i < CriticalBands.COUNT; i++) {
      // the powers at both thresholds add up
      double overMasked = sound.band(i) / (masked[i] + 1e-30);
      double overQuiet = sound.bandOverQuiet(i);
      double over = -10 * Math.log10(1 / (overMasked + 1e-20) + 1 / (overQuiet + 1e-20));
      if (over > best) {
        best = over;
        at = CriticalBands.frequency(i * CriticalBands.STEP);
      }
      // four steps are one band
      joined += CriticalBands.STEP * Math.pow(10, over / 5);
    }
    return new Masking(Math.max(LEAST, Math.max(best, 5 * Math.log10(joined))), at);
  }

  /** Probability that a listener hears it. */
  public double likelihood() {
    return likelihood(0);
  }

  /** The same where the sound is so much louder than was measured, dB. */
  public double likelihood(double louder) {
    return 0.5 + 0.5 * Erf.erf((over + louder) / SPREAD / Math.sqrt(2));
  }

  /**
   * Power in each critical band that a sound just hides, Pa², in steps of {@link
   * CriticalBands#STEP}.
   */
  private static double[] masked(CriticalBands beside) {
    double[] out = new double[CriticalBands.COUNT];
    for (int i = 0; i < out.length; i++) {
      if (beside.power(i) > 0) {
        spread(beside, i, out);
      }
    }
    for (int i = 0; i < out.length; i++) {
      out[i] *= Math.pow(10, -index(CriticalBands.frequency(i * CriticalBands.STEP)) / 10);
    }
    return out;
  }

  private static void spread(CriticalBands beside, int from, double[] excitation) {
    double f = Math.max(20, CriticalBands.frequency(from * CriticalBands.STEP));
    double up = slope(f, CriticalBands.level(beside.band(from)));
    for (int i = 0; i < excitation.length; i++) {
      double apart = (i - from) * CriticalBands.STEP;
      double beyond = Math.max(0, Math.abs(apart) - FLAT);
      // the band's own edges count half, so that noise excites with just its power in a band
      double edge = Math.abs(Math.abs(apart) - FLAT) < 1e-9 ? 0.5 : 1;
      double loss = beyond * (apart < 0 ? DOWN : up);
      excitation[i] += edge * beside.power(from) * Math.pow(10, -loss / 10);
    }
  }

  /** How steeply excitation falls towards higher bands, dB/Bark. */
  static double slope(double frequency, double level) {
    return Math.max(4, 24 + 230 / frequency - 0.2 * level);
  }

  /** How far under its excitation a sound masks a tone, dB. */
  static double index(double frequency) {
    double f = frequency / 1000;
    double g = f / 1.6;
    return 2 + 2.05 * Math.atan(f / 4) + 0.75 * Math.atan(g * g);
  }

  /**
   * How far off it is heard by half of the listeners: sound and what is played fall by 6 dB for
   * each doubling of the distance, the noise of the room does not.
   *
   * @param sound at 1 m
   * @param beside what is played, at 1 m
   * @param room noise where the listener is
   * @return m, between 0.1 and 100
   */
  public static double reach(CriticalBands sound, CriticalBands beside, CriticalBands room) {
    double near = 0.1;
    double far = 100;
    for (int i = 0; i < 30; i++) {
      double middle = Math.sqrt(near * far);
      CriticalBands wanted = beside.scaled(1 / middle).with(room);
      if (of(sound.scaled(1 / middle), wanted).over() > 0) {
        near = middle;
      } else {
        far = middle;
      }
    }
    return near;
  }
}
