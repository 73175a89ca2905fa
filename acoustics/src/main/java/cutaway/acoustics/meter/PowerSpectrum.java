package cutaway.acoustics.meter;

import cutaway.acoustics.signal.CrossSpectrum;
import cutaway.acoustics.signal.Fft;
import java.util.Arrays;
import java.util.function.DoubleUnaryOperator;
import org.jtransforms.fft.DoubleFFT_1D;

/** How the mean square of a stretch of sound is spread over frequency. */
public final class PowerSpectrum {
  private final double spacing;
  private final double[] power;

  private PowerSpectrum(double spacing, double[] power) {
    this.spacing = spacing;
    this.power = power;
  }

  /**
   * Of a stretch as a whole, no window on it, so that all of its power is counted.
   *
   * @param samples any unit
   * @param from first sample
   * @param to one after the last
   * @param rate samples per second
   */
  public static PowerSpectrum of(double[] samples, int from, int to, double rate) {
    int n = to - from;
    if (n < 1) {
      throw new IllegalArgumentException("a spectrum needs at least one sample, not " + n);
    }
    int size = CrossSpectrum.roomyLength(n);
    double[] x = new double[size];
    System.arraycopy(samples, from, x, 0, n);
    Fft.of(size).realForward(x);
    double[] power = new double[size / 2 + 1];
    addPower(x, power);
    double scale = 1.0 / ((double) n * size);
    for (int k = 0; k < power.length; k++) {
      power[k] *= scale;
    }
    return new PowerSpectrum(rate / size, power);
  }

  /** Of all samples. */
  public static PowerSpectrum of(double[] samples, double rate) {
    return of(samples, 0, samples.length, rate);
  }

  /**
   * Mean over stretches that overlap by three quarters, each under a Hann window: a strong deep
   * tone does not spread over the lines far above it, as it does where a stretch is cut off.
   *
   * @param samples any unit
   * @param from first sample
   * @param to one after the last
   * @param rate samples per second
   * @param length of a stretch, samples; shorter where there are fewer
   */
  public static PowerSpectrum averaged(
      double[] samples, int from, int to, double rate, int length) {
    int n = Math.min(length, to - from);
    if (n < 4) {
      throw new IllegalArgumentException("a spectrum needs at least four samples, not " + n);
    }
    int size = CrossSpectrum.roomyLength(n);
    double[] window = CrossSpectrum.hann(n);
    double[] power = new double[size / 2 + 1];
    DoubleFFT_1D fft = Fft.of(size);
    double[] x = new double[size];
    int stretches = 0;
    for (int at = from; at + n <= to; at += Math.max(1, n / 4)) {
      Arrays.fill(x, 0);
      for (int i = 0; i < n; i++) {
        x[i] = samples[at + i] * window[i];
      }
      fft.realForward(x);
      addPower(x, power);
      stretches++;
    }
    // the mean square of a Hann window is 3/8
    double scale = 1 / (0.375 * n * size * stretches);
    for (int k = 0; k < power.length; k++) {
      power[k] *= scale;
    }
    return new PowerSpectrum(rate / size, power);
  }

  /** Adds |X|² of a packed transform, both halves of it. */
  private static void addPower(double[] x, double[] power) {
    int size = x.length;
    power[0] += x[0] * x[0];
    power[size / 2] += x[1] * x[1];
    for (int k = 1; k < size / 2; k++) {
      power[k] += 2 * (x[2 * k] * x[2 * k] + x[2 * k + 1] * x[2 * k + 1]);
    }
  }

  /** Between lines, Hz. */
  public double spacing() {
    return spacing;
  }

  /** How many lines, the first at 0 Hz, the last at half the rate. */
  public int size() {
    return power.length;
  }

  /** Mean square that a line stands for, the unit of the samples squared. */
  public double power(int line) {
    return power[line];
  }

  /** Mean square of the sound after a filter of this gain, the unit of the samples squared. */
  public double meanSquare(DoubleUnaryOperator gain) {
    double sum = 0;
    for (int k = 0; k < power.length; k++) {
      double g = gain.applyAsDouble(k * spacing);
      sum += g * g * power[k];
    }
    return sum;
  }

  /** Mean square between two frequencies, Hz; lines at the edges count by their share. */
  public double meanSquare(double low, double high) {
    double sum = 0;
    int first = (int) Math.max(0, Math.floor(low / spacing - 0.5));
    int last = (int) Math.min(power.length - 1, Math.ceil(high / spacing + 0.5));
    for (int k = first; k <= last; k++) {
      double within = Math.min(high, (k + 0.5) * spacing) - Math.max(low, (k - 0.5) * spacing);
      sum += Math.max(0, within) / spacing * power[k];
    }
    return sum;
  }
}
