package cutaway.acoustics.signal;

import org.jtransforms.fft.DoubleFFT_1D;

/** Sums of |Y₁|², Y₁*Y₂ and |Y₂|² over segments, for each frequency bin. */
public final class CrossSpectrum {
  private final int length;
  private final double rate;
  private final double[] s11;
  private final double[] s22;
  private final double[] re;
  private final double[] im;
  private final DoubleFFT_1D fft;
  private int segments;

  /**
   * An empty sum.
   *
   * @param length samples in each segment, even
   * @param rate samples per second
   */
  public CrossSpectrum(int length, double rate) {
    this.length = length;
    this.rate = rate;
    this.s11 = new double[length / 2];
    this.s22 = new double[length / 2];
    this.re = new double[length / 2];
    this.im = new double[length / 2];
    this.fft = new DoubleFFT_1D(length);
  }

  /** The least length of the form 2ᵃ3ᵇ5ᶜ, even, that holds n samples. */
  public static int smoothLength(int n) {
    for (int candidate = n + (n & 1); ; candidate += 2) {
      int rest = candidate;
      for (int factor : new int[] {2, 3, 5}) {
        while (rest % factor == 0) {
          rest /= factor;
        }
      }
      if (rest == 1) {
        return candidate;
      }
    }
  }

  /** Adds one segment; both arrays have the segment's length and are overwritten. */
  public void add(double[] first, double[] second) {
    fft.realForward(first);
    fft.realForward(second);
    for (int k = 1; k < length / 2; k++) {
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

  /** Segments added so far. */
  public int segments() {
    return segments;
  }

  /** Bin spacing, Hz. */
  public double spacing() {
    return rate / length;
  }

  int bins() {
    return length / 2;
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
