package cutaway.acoustics.meter;

/**
 * How strongly a sound level meter counts each frequency: A, C and Z of IEC 61672-1, by the poles
 * of its annex E (from memory; the gains agree with a printed table, see docs/methods/meters.md).
 */
public enum FrequencyWeighting {
  A {
    @Override
    double unscaled(double f2) {
      return f2 * f2 / ((f2 + P1) * Math.sqrt((f2 + P2) * (f2 + P3)) * (f2 + P4));
    }
  },
  C {
    @Override
    double unscaled(double f2) {
      return f2 / ((f2 + P1) * (f2 + P4));
    }
  },
  Z {
    @Override
    double unscaled(double f2) {
      return 1;
    }
  };

  /** Pressure that levels in air are told against, Pa. */
  public static final double REFERENCE = 20e-6;

  // −3 dB of C at 10^1.5 Hz and 10^3.9 Hz, of A's high-pass at 10^2.45 Hz, as the standard sets
  // them
  private static final double LOW = Math.pow(10, 3);
  private static final double HIGH = Math.pow(10, 7.8);
  private static final double B =
      (1e6 + LOW * HIGH / 1e6 - Math.sqrt(0.5) * (LOW + HIGH)) / (1 - Math.sqrt(0.5));

  /** Squares of the poles' frequencies, Hz². */
  private static final double P1 = (-B - Math.sqrt(B * B - 4 * LOW * HIGH)) / 2;

  private static final double P4 = (-B + Math.sqrt(B * B - 4 * LOW * HIGH)) / 2;
  private static final double MID = Math.pow(10, 2.45);
  private static final double P2 = square((3 - Math.sqrt(5)) / 2 * MID);
  private static final double P3 = square((3 + Math.sqrt(5)) / 2 * MID);

  private static double square(double x) {
    return x * x;
  }

  abstract double unscaled(double f2);

  /**
   * Gain at a frequency, 1 at 1 kHz.
   *
   * @param frequency Hz
   */
  public double gain(double frequency) {
    return unscaled(frequency * frequency) / unscaled(1e6);
  }

  /** Level with this weighting of a spectrum in Pa, dB over 20 µPa. */
  public double level(PowerSpectrum spectrum) {
    return 10 * Math.log10(spectrum.meanSquare(this::gain) / (REFERENCE * REFERENCE));
  }
}
