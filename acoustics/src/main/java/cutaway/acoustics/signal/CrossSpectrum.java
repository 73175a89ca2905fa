package cutaway.acoustics.signal;

import org.jtransforms.fft.DoubleFFT_1D;

/** Sums of |Y₁|², Y₁*Y₂ and |Y₂|² over segments, for each frequency bin. */
public final class CrossSpectrum {

  private final int length;
  private final double rate;
  private final int bins;
  private final double[] s11;
  private final double[] s22;
  private final double[] re;
  private final double[] im;
  private final DoubleFFT_1D fft;
  private int segments;
  private boolean gaps;

  /**
   * An empty sum.
   *
   * @param length samples in each segment, even
   * @param rate samples per second
   * @param highest frequency up to which bins are kept, Hz
   */
  public CrossSpectrum(int length, double rate, double highest) {
    this.length = length;
    this.rate = rate;
    this.bins = (int) Math.min(length / 2.0, Math.ceil(highest * length / rate) + 1);
    this.s11 = new double[bins];
    this.s22 = new double[bins];
    this.re = new double[bins];
    this.im = new double[bins];
    this.fft = Fft.of(length);
  }

  /** The least power of two that holds n samples: the transform is fastest there. */
  public static int roomyLength(int n) {
    return Integer.highestOneBit(Math.max(2, n - 1)) << 1;
  }

  /** A Hann window between whose ends a stretch is heard, length n. */
  public static double[] hann(int n) {
    double[] window = new double[n];
    for (int i = 0; i < n; i++) {
      window[i] = 0.5 * (1 - Math.cos(2 * Math.PI * (i + 0.5) / n));
    }
    return window;
  }

  /** Adds one segment; both arrays have the segment's length and are overwritten. */
  public void add(double[] first, double[] second) {
    fft.realForward(first);
    fft.realForward(second);
    for (int k = 1; k < bins; k++) {
      double aRe = first[2 * k];
      double aIm = first[2 * k + 1];
      double bRe = second[2 * k];
      double bIm = second[2 * k + 1];
      s11[k] += aRe * aRe + aIm * aIm;
      s22[k] += bRe * bRe + bIm * bIm;
      re[k] += aRe * bRe + aIm * bIm;
      im[k] += aRe * bIm - aIm * bRe;
    }
    segments++;
  }

  /**
   * Y₂/Y₁ as a response in time, one number a sample, one segment long; what comes before time 0
   * stands at the end.
   *
   * @param faint of |Y₁|² against its highest: where it is much less, nothing is told
   */
  public double[] response(double faint) {
    double highest = 0;
    for (double s : s11) {
      highest = Math.max(highest, s);
    }
    double[] out = new double[length];
    for (int k = 1; k < bins; k++) {
      double over = Math.max(Double.MIN_NORMAL, s11[k] + faint * highest);
      out[2 * k] = re[k] / over;
      out[2 * k + 1] = im[k] / over;
    }
    fft.realInverse(out, true);
    return out;
  }

  /** Share of |Y₂|² between two frequencies in Hz that Y₁ explains linearly. */
  public double explained(double low, double high) {
    double explained = 0;
    double all = Double.MIN_NORMAL;
    int last = (int) Math.min(bins - 1.0, Math.floor(high / spacing()));
    for (int k = (int) Math.max(1, Math.ceil(low / spacing())); k <= last; k++) {
      explained += (re[k] * re[k] + im[k] * im[k]) / Math.max(Double.MIN_NORMAL, s11[k]);
      all += s22[k];
    }
    return explained / all;
  }

  /** Segments added so far. */
  public int segments() {
    return segments;
  }

  /** Bin spacing, Hz. */
  public double spacing() {
    return rate / length;
  }

  /** Samples in a segment. */
  int length() {
    return length;
  }

  /** Forgets what was summed in a bin: it then says nothing. */
  void leaveOut(int k) {
    gaps = true;
    s11[k] = 0;
    s22[k] = 0;
    re[k] = 0;
    im[k] = 0;
  }

  /** Bins from one to another, both included, that say something. */
  int heard(int from, int to) {
    int count = to - from + 1;
    for (int k = from; gaps && k <= to; k++) {
      count -= s11[k] > 0 ? 0 : 1;
    }
    return count;
  }

  int bins() {
    return bins;
  }

  double s11(int k) {
    return s11[k];
  }

  double s22(int k) {
    return s22[k];
  }

  double re(int k) {
    return re[k];
  }

  double im(int k) {
    return im[k];
  }
}
