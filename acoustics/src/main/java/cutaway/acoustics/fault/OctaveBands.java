package cutaway.acoustics.fault;

import cutaway.acoustics.signal.CrossSpectrum;
import cutaway.acoustics.signal.Fft;
import java.util.Arrays;
import org.jtransforms.fft.DoubleFFT_1D;

/**
 * A channel split into octave bands from 250 Hz up, each for itself in time; edges fall off over a
 * twelfth of an octave, phases are left alone.
 */
final class OctaveBands {
  static final double LOWEST = 250;
  private static final double EDGE = Math.pow(2, 1.0 / 24);

  private final double[][] band;

  OctaveBands(double[] x, double rate) {
    int n = count(rate);
    int size = CrossSpectrum.roomyLength(x.length);
    double[] whole = new double[size];
    System.arraycopy(x, 0, whole, 0, x.length);
    DoubleFFT_1D fft = Fft.of(size);
    fft.realForward(whole);
    band = new double[n][];
    for (int b = 0; b < n; b++) {
      double[] y = new double[size];
      double low = centre(b) / Math.sqrt(2);
      double high = centre(b) * Math.sqrt(2);
      int first = (int) Math.max(1, Math.floor(low / EDGE * size / rate));
      int last = (int) Math.min(size / 2.0 - 1, Math.ceil(high * EDGE * size / rate));
      for (int k = first; k <= last; k++) {
        double f = k * rate / size;
        double g = rise(f, low) * (b == n - 1 ? 1 : 1 - rise(f, high));
        y[2 * k] = g * whole[2 * k];
        y[2 * k + 1] = g * whole[2 * k + 1];
      }
      fft.realInverse(y, true);
      band[b] = Arrays.copyOf(y, x.length);
    }
  }

  private static double rise(double f, double edge) {
    double x = Math.log(f / edge) / Math.log(EDGE);
    return x <= -1 ? 0 : x >= 1 ? 1 : 0.5 + 0.5 * Math.sin(Math.PI / 2 * x);
  }

  /** How many there are below half the rate. */
  static int count(double rate) {
    return (int) Math.floor(Math.log(rate / 2 / (LOWEST / Math.sqrt(2))) / Math.log(2));
  }

  /** Middle of a band, Hz. */
  static double centre(int b) {
    return LOWEST * Math.pow(2, b);
  }

  /** Samples of a band; not to be changed. */
  double[] samples(int b) {
    return band[b];
  }

  int size() {
    return band.length;
  }

  /** Mean square of a band between two samples. */
  double power(int b, int from, int to) {
    double sum = 0;
    int first = Math.max(0, from);
    int last = Math.min(band[b].length, to);
    for (int i = first; i < last; i++) {
      sum += band[b][i] * band[b][i];
    }
    return sum / Math.max(1, last - first);
  }
}
