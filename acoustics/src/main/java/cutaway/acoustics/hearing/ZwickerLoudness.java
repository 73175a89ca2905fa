package cutaway.acoustics.hearing;

/**
 * How loud a steady sound is by the stationary method of ISO 532-1 (E. Zwicker): third-octave
 * levels are turned into core loudnesses of critical bands, with slopes towards higher bands
 * between them. The standard's tables are from memory; what comes out is checked against its listed
 * signals.
 *
 * @param sones loudness
 * @param specific loudness in each tenth of a Bark, from 0.1 to 24, sone/Bark
 */
@SuppressWarnings("ArrayRecordComponent") // never compared
public record ZwickerLoudness(double sones, double[] specific) {
  /** How sound comes to the listener. */
  public enum Field {
    FREE,
    DIFFUSE
  }

  /** Third-octave bands from 25 Hz to 12.5 kHz. */
  public static final int BANDS = 28;

  /** Bands up to 250 Hz, in which the ear's loss depends on level. */
  private static final int DEEP = 11;

  private static final int CRITICAL = 20;
  private static final double STEP = 0.1;

  /** Levels up to which each row of {@link #DEEP_LOSS} holds, dB. */
  private static final double[] UP_TO = {45, 55, 65, 71, 80, 90, 100, 120};

  private static final double[][] DEEP_LOSS = {
    {-32, -24, -16, -10, -5, 0, -7, -3, 0, -2, 0},
    {-29, -22, -15, -10, -4, 0, -7, -2, 0, -2, 0},
    {-27, -19, -14, -9, -4, 0, -6, -2, 0, -2, 0},
    {-25, -17, -12, -9, -3, 0, -5, -2, 0, -2, 0},
    {-23, -16, -11, -7, -3, 0, -4, -1, 0, -1, 0},
    {-20, -14, -10, -6, -3, 0, -4, -1, 0, -1, 0},
    {-18, -12, -9, -6, -2, 0, -3, -1, 0, -1, 0},
    {-15, -10, -8, -4, -2, 0, -3, -1, 0, -1, 0}
  };

  /** Threshold in quiet of each critical band, dB. */
  private static final double[] QUIET = {
    30, 18, 12, 8, 7, 6, 5, 4, 3, 3, 3, 3, 3, 3, 3, 3, 3, 3, 3, 3
  };

  /** What the outer ear loses on the way in, dB. */
  private static final double[] EAR = {
    0, 0, 0, 0, 0, 0, 0, 0, 0, 0, -0.5, -1.6, -3.2, -5.4, -5.6, -4, -1.5, 2, 5, 12
  };

  /** What a diffuse field gives more than one from the front, dB. */
  private static final double[] AROUND = {
    0, 0, 0.5, 0.9, 1.2, 1.6, 2.3, 2.8, 3, 2, 0, -1.4, -2, -1.9, -1, 0.5, 3, 4, 4.3, 4
  };

  /** A third-octave band against a critical one, dB. */
  private static final double[] WIDTH = {
    -0.25, -0.6, -0.8, -0.8, -0.5, 0, 0.5, 1.1, 1.5, 1.7, 1.8, 1.8, 1.7, 1.6, 1.4, 1.2, 0.8, 0.5, 0,
    -0.5
  };

  /** Upper ends of the critical bands, Bark. */
  private static final double[] END = {
    0.9, 1.8, 2.8, 3.5, 4.4, 5.4, 6.6, 7.9, 9.2, 10.6, 12.3, 13.8, 15.2, 16.7, 18.1, 19.3, 20.6,
    21.8, 22.7, 23.6, 24.0
  };

  /** Specific loudnesses down to which each row of {@link #SLOPE} holds, sone/Bark. */
  private static final double[] DOWN_TO = {
    21.5, 18.0, 15.1, 11.5, 9.0, 6.1, 4.4, 3.1, 2.13, 1.36, 0.82, 0.42, 0.30, 0.22, 0.15, 0.10,
    0.035, 0.0
  };

  /** How steeply loudness falls towards higher bands, sone/Bark²; a column for each band passed. */
  private static final double[][] SLOPE = {
    {13.00, 8.20, 6.30, 5.50, 5.50, 5.50, 5.50, 5.50},
    {9.00, 7.50, 6.00, 5.10, 4.50, 4.50, 4.50, 4.50},
    {7.80, 6.70, 5.60, 4.90, 4.40, 3.90, 3.90, 3.90},
    {6.20, 5.40, 4.60, 4.00, 3.50, 3.20, 3.20, 3.20},
    {4.50, 3.80, 3.60, 3.20, 2.90, 2.70, 2.70, 2.70},
    {3.70, 3.00, 2.80, 2.35, 2.20, 2.20, 2.20, 2.20},
    {2.90, 2.30, 2.10, 1.90, 1.80, 1.70, 1.70, 1.70},
    {2.40, 1.70, 1.50, 1.35, 1.30, 1.30, 1.30, 1.30},
    {1.95, 1.45, 1.30, 1.15, 1.10, 1.10, 1.10, 1.10},
    {1.50, 1.20, 0.94, 0.86, 0.82, 0.82, 0.82, 0.82},
    {0.72, 0.67, 0.64, 0.63, 0.62, 0.62, 0.62, 0.62},
    {0.59, 0.53, 0.51, 0.50, 0.42, 0.42, 0.42, 0.42},
    {0.40, 0.33, 0.26, 0.24, 0.24, 0.22, 0.22, 0.22},
    {0.27, 0.21, 0.20, 0.18, 0.17, 0.17, 0.17, 0.17},
    {0.16, 0.15, 0.14, 0.12, 0.11, 0.11, 0.11, 0.11},
    {0.12, 0.11, 0.10, 0.08, 0.08, 0.08, 0.08, 0.08},
    {0.09, 0.08, 0.07, 0.06, 0.06, 0.06, 0.06, 0.05},
    {0.06, 0.05, 0.03, 0.02, 0.02, 0.02, 0.02, 0.02}
  };

  /**
   * Of a steady sound.
   *
   * @param levels of the third-octave bands from 25 Hz to 12.5 kHz, dB SPL
   */
  public static ZwickerLoudness of(double[] levels, Field field) {
    if (levels.length != BANDS) {
      throw new IllegalArgumentException(
          "loudness needs " + BANDS + " third-octave bands, not " + levels.length);
    }
    Slopes slopes = new Slopes(core(levels, field));
    slopes.run();
    return new ZwickerLoudness(slopes.sones, slopes.specific);
  }

  /** Loudness level, phon. */
  public double phons() {
    return sones < 1 ? Math.max(3, 40 * Math.pow(sones + 5e-4, 0.35)) : 40 + 10 * log2(sones);
  }

  private static double log2(double x) {
    return Math.log(x) / Math.log(2);
  }

  private static double[] core(double[] levels, Field field) {
    double[] critical = critical(levels);
    double[] out = new double[CRITICAL + 1];
    for (int i = 0; i < CRITICAL; i++) {
      double level = critical[i] - EAR[i] + (field == Field.DIFFUSE ? AROUND[i] : 0);
      if (level > QUIET[i]) {
        double over = Math.pow(10, 0.1 * (level - WIDTH[i] - QUIET[i]));
        out[i] =
            Math.max(
                0,
                0.0635
                    * Math.pow(10, 0.025 * QUIET[i])
                    * (Math.sqrt(Math.sqrt(0.75 + 0.25 * over)) - 1));
      }
    }
    out[0] *= Math.min(1, 0.4 + 0.32 * Math.pow(out[0], 0.2));
    return out;
  }

  /** Levels of the critical bands: the deep third-octaves are joined, the others stand for one. */
  private static double[] critical(double[] levels) {
    double[] power = new double[3];
    for (int i = 0; i < DEEP; i++) {
      int row = 0;
      while (row < UP_TO.length - 1 && levels[i] > UP_TO[row] - DEEP_LOSS[row][i]) {
        row++;
      }
      int band = i < 6 ? 0 : i < 9 ? 1 : 2;
      power[band] += Math.pow(10, 0.1 * (levels[i] + DEEP_LOSS[row][i]));
    }
    double[] out = new double[CRITICAL];
    for (int i = 0; i < CRITICAL; i++) {
      out[i] = i < 3 ? 10 * Math.log10(power[i]) : levels[i + 8];
    }
    return out;
  }

  /** Walks up the critical bands: up at once where a band is louder, down along the slopes. */
  private static final class Slopes {
    private final double[] core;
    private final double[] specific = new double[240];
    private double sones;
    private double at;
    private double height;
    private int row;

    Slopes(double[] core) {
      this.core = core;
    }

    void run() {
      for (int band = 0; band < END.length; band++) {
        int column = Math.max(0, Math.min(SLOPE[0].length, band) - 1);
        while (at < END[band]) {
          if (height <= core[band]) {
            row = 0;
            level(core[band], END[band]);
          } else {
            fall(core[band], END[band], SLOPE[lower(row)][column]);
          }
          while (row < DOWN_TO.length - 1 && height <= DOWN_TO[row]) {
            row++;
          }
        }
      }
    }

    private static int lower(int row) {
      return Math.min(row, SLOPE.length - 1);
    }

    private void level(double loudness, double end) {
      height = loudness;
      paint(end, 0);
    }

    private void fall(double floor, double end, double slope) {
      double bottom = Math.max(floor, DOWN_TO[row]);
      double to = Math.min(end, at + (height - bottom) / slope);
      paint(to, slope);
      height = to < end ? bottom : Math.max(bottom, height);
    }

    /** From where it stands to a rate in Bark, falling so much for each. */
    private void paint(double to, double slope) {
      double from = at;
      double top = height;
      for (int k = (int) Math.floor(from / STEP + 1e-9); (k + 1) * STEP <= to + 1e-9; k++) {
        specific[k] = top - ((k + 1) * STEP - from) * slope;
      }
      height = top - (to - from) * slope;
      sones += (to - from) * (top + height) / 2;
      at = to;
    }
  }
}
