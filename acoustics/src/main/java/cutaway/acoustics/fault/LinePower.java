package cutaway.acoustics.fault;

import cutaway.acoustics.signal.CrossSpectrum;
import cutaway.acoustics.signal.Fft;

/** Lines of a spectrum, each told as the mean square of the steady tone that would make it. */
final class LinePower {
  /** A median of the power of noise lies under its mean by this. */
  static final double MEDIAN = Math.log(2);

  private LinePower() {}

  /**
   * Under a Hann window over a stretch; zero past the end of the samples.
   *
   * @param samples any unit
   * @param from first sample of the stretch
   * @param n its length
   * @param size length of the transform, n or longer
   * @return one number a line below half the rate, the unit squared
   */
  static double[] of(double[] samples, int from, int n, int size) {
    double[] window = CrossSpectrum.hann(n);
    double[] x = new double[size];
    for (int i = 0; i < n && from + i < samples.length; i++) {
      x[i] = samples[from + i] * window[i];
    }
    Fft.of(size).realForward(x);
    double[] out = new double[size / 2];
    double scale = 8.0 / ((double) n * n);
    for (int k = 1; k < out.length; k++) {
      out[k] = scale * (x[2 * k] * x[2 * k] + x[2 * k + 1] * x[2 * k + 1]);
    }
    return out;
  }
}
