package cutaway.acoustics.hearing;

/**
 * The faintest pure tone that young ears hear in a quiet free field, from the front with both ears:
 * T_f of ISO 226:2023, table 1, as quoted in secondary copies.
 */
public final class HearingThreshold {
  private static final double[] FREQUENCIES = {
    20, 25, 31.5, 40, 50, 63, 80, 100, 125, 160, 200, 250, 315, 400, 500, 630, 800, 1000, 1250,
    1600, 2000, 2500, 3150, 4000, 5000, 6300, 8000, 10000, 12500
  };

  private static final double[] LEVELS = {
    78.1, 68.7, 59.5, 51.1, 44.0, 37.5, 31.5, 26.5, 22.1, 17.9, 14.4, 11.4, 8.6, 6.2, 4.4, 3.0, 2.2,
    2.4, 3.5, 1.7, -1.3, -4.2, -6.0, -5.4, -1.5, 6.0, 12.6, 13.9, 12.3
  };

  private HearingThreshold() {}

  /**
   * Sound pressure level at the threshold, dB; between the standard's frequencies along the
   * logarithm, beyond them as at the ends.
   *
   * @param frequency Hz
   */
  public static double at(double frequency) {
    int last = FREQUENCIES.length - 1;
    if (frequency <= FREQUENCIES[0]) {
      return LEVELS[0];
    }
    for (int i = 1; i <= last; i++) {
      if (frequency <= FREQUENCIES[i]) {
        double share =
            Math.log(frequency / FREQUENCIES[i - 1])
                / Math.log(FREQUENCIES[i] / FREQUENCIES[i - 1]);
        return LEVELS[i - 1] + share * (LEVELS[i] - LEVELS[i - 1]);
      }
    }
    return LEVELS[last];
  }
}
