package cutaway.acoustics.signal;

/**
 * Values of a sampled sound between its samples, by a sinc under a Hann window (textbook, from
 * memory) of {@value #HALF} samples to either side; nothing before its first sample and after its
 * last. True within −60 dB up to 0.86 of half the rate. Where steps are longer than a sample the
 * sinc is as much longer, so that what is too high for them is left out.
 */
public final class Interpolation {
  static final int HALF = 32;

  /** Steps between two samples in which the kernel is tabled; between them it runs straight. */
  private static final int FINE = 1024;

  private static final double[] KERNEL = kernel();

  private Interpolation() {}

  private static double[] kernel() {
    double[] out = new double[HALF * FINE + 2];
    for (int i = 0; i < HALF * FINE; i++) {
      double t = (double) i / FINE;
      double sinc = i == 0 ? 1 : Math.sin(Math.PI * t) / (Math.PI * t);
      out[i] = sinc * (0.5 + 0.5 * Math.cos(Math.PI * t / HALF));
    }
    return out;
  }

  /**
   * Values in even steps.
   *
   * @param x samples
   * @param start place of the first, samples
   * @param step from one to the next, samples
   * @param n how many
   */
  public static double[] at(double[] x, double start, double step, int n) {
    double[] out = new double[n];
    double longer = Math.max(1, step);
    double reach = HALF * longer;
    double fine = FINE / longer;
    for (int i = 0; i < n; i++) {
      double place = start + i * step;
      int first = (int) Math.max(0, Math.ceil(place - reach));
      int last = (int) Math.min(x.length - 1.0, Math.floor(place + reach));
      double sum = 0;
      for (int k = first; k <= last; k++) {
        double t = Math.abs(place - k) * fine;
        int low = (int) t;
        sum += x[k] * (KERNEL[low] + (t - low) * (KERNEL[low + 1] - KERNEL[low]));
      }
      out[i] = sum / longer;
    }
    return out;
  }
}
