package cutaway.acoustics.knock;

import java.util.Arrays;
import org.jtransforms.fft.DoubleFFT_1D;

/**
 * How the spectrum of a tap dies away, for a picture.
 *
 * @param times after the onset, s
 * @param frequencies Hz, in even steps of their logarithm
 * @param levels under the loudest, dB: time × frequency
 */
@SuppressWarnings("ArrayRecordComponent") // never compared
public record TapSpectrogram(double[] times, double[] frequencies, double[][] levels) {
  private static final double LOWEST = 60;
  private static final double HIGHEST = 1600;
  private static final int TIMES = 56;
  private static final int FREQUENCIES = 64;

  /** Step in time and length of the Hann window, s. */
  private static final double STEP = 0.006;

  private static final double WINDOW = 0.06;

  /** Deepest level that is told, dB. */
  private static final double FLOOR = -70;

  /**
   * Of one tap.
   *
   * @param samples of one channel
   * @param rate Hz
   * @param onset where the tap begins, sample
   */
  public static TapSpectrogram of(double[] samples, double rate, int onset) {
    int window = (int) (WINDOW * rate);
    int size = Integer.highestOneBit(2 * window) * 2;
    DoubleFFT_1D transform = new DoubleFFT_1D(size);
    double[] times = new double[TIMES];
    double[] frequencies = new double[FREQUENCIES];
    for (int i = 0; i < FREQUENCIES; i++) {
      frequencies[i] = LOWEST * Math.pow(HIGHEST / LOWEST, i / (FREQUENCIES - 1.0));
    }
    double[][] power = new double[TIMES][FREQUENCIES];
    double most = Double.MIN_NORMAL;
    for (int t = 0; t < TIMES; t++) {
      times[t] = t * STEP;
      double[] spectrum =
          spectrum(samples, onset + (int) (times[t] * rate), window, size, transform);
      for (int f = 0; f < FREQUENCIES; f++) {
        power[t][f] = loudest(spectrum, frequencies, f, rate / size);
        most = Math.max(most, power[t][f]);
      }
    }
    for (double[] row : power) {
      for (int f = 0; f < FREQUENCIES; f++) {
        row[f] = Math.max(FLOOR, 10 * Math.log10(row[f] / most));
      }
    }
    return new TapSpectrogram(times, frequencies, power);
  }

  /** Squares of the spectrum; nought past the recording's end. */
  private static double[] spectrum(
      double[] samples, int from, int window, int size, DoubleFFT_1D transform) {
    double[] x = new double[size];
    for (int i = 0; i < window && from + i < samples.length; i++) {
      x[i] = samples[from + i] * (0.5 - 0.5 * Math.cos(2 * Math.PI * i / window));
    }
    transform.realForward(x);
    double[] out = new double[size / 2];
    for (int k = 1; k < out.length; k++) {
      out[k] = x[2 * k] * x[2 * k] + x[2 * k + 1] * x[2 * k + 1];
    }
    return out;
  }

  /** The strongest line within half a step of a frequency. */
  private static double loudest(double[] spectrum, double[] frequencies, int f, double line) {
    double ratio = Math.sqrt(frequencies[1] / frequencies[0]);
    int low = (int) Math.floor(frequencies[f] / ratio / line);
    int high = (int) Math.ceil(frequencies[f] * ratio / line);
    return Arrays.stream(
            spectrum, Math.min(low, spectrum.length - 1), Math.min(high + 1, spectrum.length))
        .max()
        .orElse(0);
  }
}
