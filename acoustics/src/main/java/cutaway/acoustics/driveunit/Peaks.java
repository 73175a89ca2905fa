package cutaway.acoustics.driveunit;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;

/**
 * Peaks of an impedance magnitude, found on a smoothed logarithmic grid so that noise and single
 * bad points do not count.
 */
final class Peaks {
  private static final int PER_OCTAVE = 24;

  /**
   * A local maximum.
   *
   * @param frequency Hz
   * @param height |Z|, Ω
   * @param prominence by what factor the curve falls on its lower side before it rises higher
   */
  record Peak(double frequency, double height, double prominence) {}

  private final double[] frequency;
  private final double[] magnitude;

  private Peaks(double[] frequency, double[] magnitude) {
    this.frequency = frequency;
    this.magnitude = magnitude;
  }

  static Peaks of(ImpedanceCurve curve) {
    double[] frequency = curve.frequencies();
    double[] magnitude = withoutLonePoints(curve.magnitudes());
    double first = frequency[0];
    double last = frequency[frequency.length - 1];
    int n = Math.max(2, (int) Math.floor(PER_OCTAVE * Math.log(last / first) / Math.log(2)) + 1);
    double[] f = new double[n];
    double[] m = new double[n];
    double half = Math.pow(2, 0.75 / PER_OCTAVE);
    for (int i = 0; i < n; i++) {
      f[i] = first * Math.pow(2, (double) i / PER_OCTAVE);
      m[i] = typical(frequency, magnitude, f[i], half);
    }
    return new Peaks(f, m);
  }

  /** Running median of three: a single bad point leaves no trace. */
  private static double[] withoutLonePoints(double[] x) {
    double[] out = x.clone();
    for (int i = 1; i + 1 < x.length; i++) {
      double low = Math.min(x[i - 1], x[i + 1]);
      double high = Math.max(x[i - 1], x[i + 1]);
      out[i] = Math.max(low, Math.min(high, x[i]));
    }
    if (x.length > 2) {
      out[0] = out[1];
      out[x.length - 1] = out[x.length - 2];
    }
    return out;
  }

  /** Median of the points within a factor, or linear interpolation where there are under three. */
  private static double typical(double[] frequency, double[] magnitude, double f, double half) {
    int from = lowerBound(frequency, f / half);
    int to = lowerBound(frequency, f * half);
    if (to - from >= 3) {
      double[] window = Arrays.copyOfRange(magnitude, from, to);
      Arrays.sort(window);
      return window[window.length / 2];
    }
    int right = Math.min(frequency.length - 1, Math.max(1, lowerBound(frequency, f)));
    int left = right - 1;
    if (left < 0) {
      return magnitude[0];
    }
    double share = (f - frequency[left]) / (frequency[right] - frequency[left]);
    share = Math.min(1, Math.max(0, share));
    return magnitude[left] * (1 - share) + magnitude[right] * share;
  }

  private static int lowerBound(double[] sorted, double value) {
    int at = Arrays.binarySearch(sorted, value);
    return at < 0 ? -at - 1 : at;
  }

  /** Peaks whose prominence is at least a factor above one, strongest first. */
  List<Peak> above(double least) {
    List<Peak> peaks = new ArrayList<>();
    for (int i = 1; i + 1 < magnitude.length; i++) {
      if (magnitude[i] > magnitude[i - 1] && magnitude[i] >= magnitude[i + 1]) {
        double valley = Math.max(valley(i, -1), valley(i, 1));
        double prominence = magnitude[i] / valley;
        if (prominence >= least) {
          peaks.add(new Peak(frequency[i], magnitude[i], prominence));
        }
      }
    }
    peaks.sort(Comparator.comparingDouble(Peak::prominence).reversed());
    return peaks;
  }

  private double valley(int peak, int step) {
    double least = magnitude[peak];
    for (int i = peak + step; i >= 0 && i < magnitude.length; i += step) {
      least = Math.min(least, magnitude[i]);
      if (magnitude[i] > magnitude[peak]) {
        break;
      }
    }
    return least;
  }

  /** Least magnitude between two frequencies, Ω, and where, Hz. */
  double[] leastBetween(double low, double high) {
    double least = Double.POSITIVE_INFINITY;
    double at = low;
    for (int i = 0; i < frequency.length; i++) {
      if (frequency[i] >= low && frequency[i] <= high && magnitude[i] < least) {
        least = magnitude[i];
        at = frequency[i];
      }
    }
    return new double[] {least, at};
  }

  /** Frequency where the magnitude first falls to a level on one side of a peak, Hz, or 0. */
  double crossing(double peak, double level, int step) {
    int i = 0;
    while (i + 1 < frequency.length && frequency[i] < peak * 0.999) {
      i++;
    }
    for (int j = i; j >= 0 && j < frequency.length; j += step) {
      if (magnitude[j] <= level) {
        return frequency[j];
      }
    }
    return 0;
  }
}
