package cutaway.acoustics.hearing;

import org.hipparchus.special.Erf;

/**
 * How likely an added resonance is heard on continuous broadband sound.
 *
 * <p>Thresholds after F. E. Toole and S. E. Olive, J. Audio Eng. Soc. 36 (1988) 122: trained
 * listeners, pink noise, a quiet room; a resonance of low Q is heard at the lowest level, one of
 * high Q needs some 3 dB more for every doubling of Q. The figures are from memory, and rounded;
 * the spread about them counts listeners, sounds and that memory.
 */
public final class ResonanceAudibility {
  /** Level at threshold for Q = 1 under the direct sound, dB. */
  private static final double AT_ONE = -27;

  private static final double PER_DOUBLING = 3;

  /** Standard deviation of the threshold, dB. */
  private static final double SPREAD = 6;

  private ResonanceAudibility() {}

  /**
   * Level at which half of the listeners hear it.
   *
   * @param q quality of the resonance, at least 1 counts
   * @return dB of its peak over the direct sound
   */
  public static double threshold(double q) {
    return AT_ONE + PER_DOUBLING * Math.log(Math.max(1, q)) / Math.log(2);
  }

  /**
   * Probability that it is heard.
   *
   * @param level of its peak over the direct sound, dB
   * @param levelUncertainty standard, dB
   * @param q quality
   */
  public static double likelihood(double level, double levelUncertainty, double q) {
    double over = (level - threshold(q)) / Math.hypot(SPREAD, levelUncertainty);
    return 0.5 + 0.5 * Erf.erf(over / Math.sqrt(2));
  }
}
