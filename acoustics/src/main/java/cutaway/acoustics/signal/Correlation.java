package cutaway.acoustics.signal;

import java.util.Arrays;
import org.jtransforms.fft.DoubleFFT_1D;

/**
 * How much of one sound is in another at each lag, as an analytic signal: its real part is the
 * cross-correlation, its magnitude the envelope of that. Both are 1 where the second is the first
 * and no more (times its polarity).
 */
public final class Correlation {
  private final double[] packed;
  private final int later;

  private Correlation(double[] packed, int later) {
    this.packed = packed;
    this.later = later;
  }

  /**
   * Works it out for all lags.
   *
   * @param a samples
   * @param b samples at the same rate
   */
  public static Correlation of(double[] a, double[] b) {
    int size = CrossSpectrum.roomyLength(a.length + b.length);
    DoubleFFT_1D fft = Fft.of(size);
    double[] x = Arrays.copyOf(a, size);
    double[] y = Arrays.copyOf(b, size);
    double scale = Math.sqrt(square(a) * square(b));
    fft.realForward(x);
    fft.realForward(y);
    double[] c = new double[2 * size];
    // the lines at 0 and at half the rate carry no phase and are left out
    for (int k = 2; k < size && scale > 0; k += 2) {
      c[k] = 2 * (y[k] * x[k] + y[k + 1] * x[k + 1]) / scale;
      c[k + 1] = 2 * (y[k + 1] * x[k] - y[k] * x[k + 1]) / scale;
    }
    fft.complexInverse(c, true);
    return new Correlation(c, b.length);
  }

  private static double square(double[] x) {
    double sum = 0;
    for (double v : x) {
      sum += v * v;
    }
    return sum;
  }

  /** How many lags there are; those past the second sound's length stand for earlier ones. */
  public int size() {
    return packed.length / 2;
  }

  /** Samples by which the second comes after the first at a place in the row of lags. */
  public int lag(int place) {
    return place < later ? place : place - size();
  }

  /** Correlation at a place, −1 to 1. */
  public double value(int place) {
    return packed[2 * place];
  }

  /** Envelope of the correlation at a place, the row closed to a ring. */
  public double envelope(int place) {
    int at = Math.floorMod(place, size());
    double re = packed[2 * at];
    double im = packed[2 * at + 1];
    return Math.sqrt(re * re + im * im);
  }
}
