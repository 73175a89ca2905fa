package cutaway.acoustics.signal;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.factory.LinearSolverFactory_DDRM;

/**
 * A transfer function H = Y₂/Y₁ on a logarithmic grid, with a standard uncertainty at each point.
 *
 * <p>At each frequency a cubic in frequency, H(f) = Σ c_k (f − f₀)ᵏ, is fitted by least squares to
 * the bins around it, and c₀ is the answer: a local polynomial (J. Schoukens, R. Pintelon et al.,
 * from memory), which follows a steep slope where plain averaging would round it off. What the
 * polynomial leaves over gives the uncertainty, the same information as the coherence.
 */
public final class Transfer {
  private static final int DEGREE = 3;
  private static final int LEAST_REACH = 7;
  private static final double PER_OCTAVE = 40;
  private static final double FAINT = 1e-3;

  private final double[] frequency;
  private final double[] re;
  private final double[] im;
  private final double[] sd;
  private final double[] strength;

  private Transfer(double[] frequency, double[] re, double[] im, double[] sd, double[] strength) {
    this.frequency = frequency;
    this.re = re;
    this.im = im;
    this.sd = sd;
    this.strength = strength;
  }

  /**
   * Reads the transfer function off a cross-spectrum.
   *
   * @param low lowest frequency, Hz
   * @param high highest frequency, Hz
   * @param leakage bins that one line spreads over, 1 without a window, about 1.5 with a Hann one
   */
  public static Transfer of(CrossSpectrum spectrum, double low, double high, double leakage) {
    double[] at = grid(spectrum, low, high);
    int n = at.length;
    double[] re = new double[n];
    double[] im = new double[n];
    double[] sd = new double[n];
    double[] strength = new double[n];
    // the higher, the more bins: both processors get of each
    IntStream.range(0, 2)
        .parallel()
        .forEach(
            half -> {
              LocalFit fit = new LocalFit(spectrum, leakage);
              for (int i = half; i < n; i += 2) {
                fit.at(at[i]);
                re[i] = fit.re;
                im[i] = fit.im;
                sd[i] = fit.sd;
                strength[i] = fit.strength;
              }
            });
    return new Transfer(at, re, im, sd, strength);
  }

  /** Frequencies in even steps of their logarithm, but no closer than the bins tell apart, Hz. */
  private static double[] grid(CrossSpectrum spectrum, double low, double high) {
    double df = spectrum.spacing();
    int n = 0;
    double[] f = new double[64];
    double at = Math.max(low, (LEAST_REACH + 1) * df / 2);
    while (at <= high && at < (spectrum.bins() - LEAST_REACH - 1) * df) {
      if (n == f.length) {
        f = Arrays.copyOf(f, 2 * n);
      }
      f[n++] = at;
      at += Math.max(at * (Math.pow(2, 1 / PER_OCTAVE) - 1), 2.5 * df);
    }
    return Arrays.copyOf(f, n);
  }

  /** One local polynomial after another, on the same storage. */
  private static final class LocalFit {
    private static final int P = DEGREE + 1;
    private final CrossSpectrum spectrum;
    private final double leakage;
    private final DMatrixRMaj a = new DMatrixRMaj(P, P);
    private final DMatrixRMaj b = new DMatrixRMaj(P, 2);
    private final DMatrixRMaj c = new DMatrixRMaj(P, 2);
    private final DMatrixRMaj inverse = new DMatrixRMaj(P, P);
    private final double[] power = new double[2 * DEGREE + 1];
    private double re;
    private double im;
    private double sd;
    private double strength;

    LocalFit(CrossSpectrum spectrum, double leakage) {
      this.spectrum = spectrum;
      this.leakage = leakage;
    }

    void at(double f) {
      double df = spectrum.spacing();
      int reach = (int) Math.max(LEAST_REACH, Math.rint(f * 0.02 / df));
      int centre = (int) Math.rint(f / df);
      int from = Math.max(1, centre - reach);
      int to = Math.min(spectrum.bins() - 1, centre + reach);
      Arrays.fill(power, 0);
      b.zero();
      double total = 0;
      for (int k = from; k <= to; k++) {
        double x = (k * df - f) / (reach * df);
        double term = 1;
        for (int d = 0; d <= 2 * DEGREE; d++) {
          power[d] += term * spectrum.s11(k);
          if (d <= DEGREE) {
            b.add(d, 0, term * spectrum.re(k));
            b.add(d, 1, term * spectrum.im(k));
          }
          term *= x;
        }
        total += spectrum.s22(k);
      }
      for (int i = 0; i < P; i++) {
        for (int j = 0; j < P; j++) {
          a.set(i, j, power[i + j]);
        }
      }
      solve(total, spectrum.heard(from, to));
    }

    private void solve(double total, int bins) {
      var solver = LinearSolverFactory_DDRM.chol(P);
      if (!solver.setA(a.copy())) {
        re = 0;
        im = 0;
        sd = Double.POSITIVE_INFINITY;
        strength = 0;
        return;
      }
      solver.solve(b.copy(), c);
      solver.invert(inverse);
      double explained = 0;
      for (int i = 0; i < P; i++) {
        explained += c.get(i, 0) * b.get(i, 0) + c.get(i, 1) * b.get(i, 1);
      }
      double freedom = Math.max(1, bins * spectrum.segments() / leakage - P);
      // half of the complex residual power goes to each of real and imaginary part
      double variance = Math.max(0, total - explained) / freedom / 2;
      re = c.get(0, 0);
      im = c.get(0, 1);
      sd = Math.sqrt(variance * inverse.get(0, 0) * leakage);
      strength = power[0] / Math.max(1, bins);
    }
  }

  /**
   * Without the ends that the signal did not reach: where power times frequency, which is even for
   * a logarithmic sweep and not far from it for noise, lies {@value #FAINT} below where the signal
   * is strong.
   */
  Transfer trimmed() {
    double[] even = new double[size()];
    for (int i = 0; i < even.length; i++) {
      even[i] = strength[i] * frequency[i];
    }
    double[] sorted = even.clone();
    Arrays.sort(sorted);
    double least = even.length == 0 ? 0 : FAINT * sorted[(int) (0.9 * (even.length - 1))];
    int from = 0;
    while (from < even.length && even[from] < least) {
      from++;
    }
    int to = even.length;
    while (to > from && even[to - 1] < least) {
      to--;
    }
    return new Transfer(
        Arrays.copyOfRange(frequency, from, to),
        Arrays.copyOfRange(re, from, to),
        Arrays.copyOfRange(im, from, to),
        Arrays.copyOfRange(sd, from, to),
        Arrays.copyOfRange(strength, from, to));
  }

  /** Number of points. */
  public int size() {
    return frequency.length;
  }

  /** Frequency of a point, Hz. */
  public double frequency(int i) {
    return frequency[i];
  }

  /** Real part. */
  public double re(int i) {
    return re[i];
  }

  /** Imaginary part. */
  public double im(int i) {
    return im[i];
  }

  /** Standard uncertainty of the real and of the imaginary part. */
  public double sd(int i) {
    return sd[i];
  }

  /** Mean power of channel 1 around a point, for telling where there was any signal. */
  public double strength(int i) {
    return strength[i];
  }
}
