package cutaway.acoustics.hearing;

import cutaway.acoustics.meter.FrequencyWeighting;
import cutaway.acoustics.meter.PowerSpectrum;
import java.util.Arrays;

/**
 * A spectrum as the ear sorts it: power in steps of a quarter Bark (E. Zwicker and E. Terhardt, J.
 * Acoust. Soc. Am. 68 (1980) 1523; formula from memory).
 */
public final class CriticalBands {
  /** Between steps, Bark. */
  static final double STEP = 0.25;

  static final int COUNT = 96;

  private static final int HALF_BAND = 2;

  /** Pa². */
  private static final double REFERENCE =
      FrequencyWeighting.REFERENCE * FrequencyWeighting.REFERENCE;

  /** Mean square in each step, Pa². */
  private final double[] power = new double[COUNT];

  /**
   * The same over the threshold in quiet, each line over its own: it is steep at low frequencies.
   */
  private final double[] overQuiet = new double[COUNT];

  /** Sorts a spectrum of sound pressure in Pa. */
  public static CriticalBands of(PowerSpectrum spectrum) {
    CriticalBands out = new CriticalBands();
    for (int k = 1; k < spectrum.size(); k++) {
      int i = (int) Math.round(rate(k * spectrum.spacing()) / STEP);
      if (i < COUNT) {
        double quiet = Math.pow(10, HearingThreshold.at(k * spectrum.spacing()) / 10);
        out.power[i] += spectrum.power(k);
        out.overQuiet[i] += spectrum.power(k) / (REFERENCE * quiet);
      }
    }
    return out;
  }

  /** Critical-band rate of a frequency in Hz, Bark. */
  public static double rate(double frequency) {
    double f = frequency / 1000;
    double g = f / 7.5;
    return 13 * Math.atan(0.76 * f) + 3.5 * Math.atan(g * g);
  }

  /** Frequency of a critical-band rate in Bark, Hz. */
  public static double frequency(double rate) {
    double low = 0;
    double high = 30000;
    for (int i = 0; i < 50; i++) {
      double middle = (low + high) / 2;
      if (rate(middle) < rate) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return low;
  }

  /** The same sound at so many times its pressure. */
  public CriticalBands scaled(double factor) {
    CriticalBands out = new CriticalBands();
    for (int i = 0; i < COUNT; i++) {
      out.power[i] = factor * factor * power[i];
      out.overQuiet[i] = factor * factor * overQuiet[i];
    }
    return out;
  }

  /** Both sounds at once, unrelated to each other. */
  public CriticalBands with(CriticalBands other) {
    CriticalBands out = new CriticalBands();
    for (int i = 0; i < COUNT; i++) {
      out.power[i] = power[i] + other.power[i];
      out.overQuiet[i] = overQuiet[i] + other.overQuiet[i];
    }
    return out;
  }

  /** What is more than another sound in each step, as when that was there all along. */
  public CriticalBands without(CriticalBands other) {
    CriticalBands out = new CriticalBands();
    for (int i = 0; i < COUNT; i++) {
      out.power[i] = Math.max(0, power[i] - other.power[i]);
      out.overQuiet[i] = Math.max(0, overQuiet[i] - other.overQuiet[i]);
    }
    return out;
  }

  /** All of it, Pa². */
  public double power() {
    return Arrays.stream(power).sum();
  }

  double power(int step) {
    return power[step];
  }

  /** Power in the critical band about a step, Pa²: whole steps, and half of those at its edges. */
  double band(int step) {
    return band(power, step);
  }

  /** The same over the threshold in quiet, as a ratio of powers. */
  double bandOverQuiet(int step) {
    return band(overQuiet, step);
  }

  private static double band(double[] power, int step) {
    double sum = 0;
    for (int i = -HALF_BAND; i <= HALF_BAND; i++) {
      int at = step + i;
      if (at >= 0 && at < COUNT) {
        sum += (Math.abs(i) == HALF_BAND ? 0.5 : 1) * power[at];
      }
    }
    return sum;
  }

  static double level(double power) {
    return 10 * Math.log10(power / REFERENCE + 1e-20);
  }
}
