package cutaway.acoustics.signal;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * Mains hum in a channel: a fundamental near 50 or 60 Hz with harmonics.
 *
 * @param frequency fundamental, Hz
 * @param harmonics those found, lowest first
 */
public record Hum(double frequency, List<Harmonic> harmonics) {
  private static final int HARMONICS = 12;
  private static final double SEARCH = 0.004;
  private static final double LISTENING_RATE = 4800;
  private static final int BLOCK = 256;

  /**
   * Hum 120 dB below full scale bends no impedance; finding out whether it is there takes longer.
   */
  private static final double INAUDIBLE = 1e-6;

  private static final double RAMP = 0.1;

  /** Samples after which a rotating phasor is set anew, before rounding can add up. */
  private static final int RESYNC = 4096;

  /** Keeps its own copy of the list. */
  public Hum {
    harmonics = List.copyOf(harmonics);
  }

  /**
   * One harmonic, c cos(2πhft) + s sin(2πhft).
   *
   * @param order h
   * @param c cosine amplitude, full scale 1
   * @param s sine amplitude, full scale 1
   */
  public record Harmonic(int order, double c, double s) {
    /** Peak amplitude, full scale 1. */
    public double amplitude() {
      return Math.hypot(c, s);
    }
  }

  /**
   * Finds hum in a swept recording, listening to each harmonic only while the sweep is elsewhere.
   *
   * @param x samples, with or without room after them
   * @param frames how many samples there are
   * @param rate samples per second
   * @param sweep the sweep's law
   * @param mains frequencies the mains may have, Hz
   * @return the hum, of the mains that explain more of it; absent where nothing stands clear of the
   *     background
   */
  public static Optional<Hum> of(double[] x, int frames, double rate, Sweep sweep, double[] mains) {
    Listener listener = new Listener(Decimated.of(x, frames, rate), sweep);
    return Arrays.stream(mains)
        .mapToObj(nominal -> of(listener, nominal))
        .flatMap(Optional::stream)
        .max(Comparator.comparingDouble(Hum::power));
  }

  private static Optional<Hum> of(Listener listener, double nominal) {
    double frequency = listener.fundamental(nominal);
    List<Harmonic> found = new ArrayList<>();
    for (int h = 1; h <= HARMONICS && h * frequency < LISTENING_RATE / 5; h++) {
      Harmonic harmonic = listener.fit(frequency, h);
      if (harmonic.amplitude() > INAUDIBLE
          && harmonic.amplitude() > 4 * listener.background(frequency, h)) {
        found.add(harmonic);
      }
    }
    return found.isEmpty() ? Optional.empty() : Optional.of(new Hum(frequency, found));
  }

  /** What either channel holds, the stronger where both hold the same harmonic. */
  static Optional<Hum> joined(Optional<Hum> a, Optional<Hum> b) {
    if (a.isEmpty() || b.isEmpty()) {
      return a.or(() -> b);
    }
    Map<Integer, Harmonic> strongest = new TreeMap<>();
    for (Hum hum : List.of(a.get(), b.get())) {
      for (Harmonic h : hum.harmonics()) {
        strongest.merge(h.order(), h, (x, y) -> x.amplitude() >= y.amplitude() ? x : y);
      }
    }
    Hum main = a.get().strongest() >= b.get().strongest() ? a.get() : b.get();
    return Optional.of(new Hum(main.frequency(), List.copyOf(strongest.values())));
  }

  /**
   * The recording at a lower rate: three running means in a row, each as long as the new step,
   * which put zeros of third order where the new rate would fold onto hum.
   */
  private static final class Decimated {
    private final double[] x;
    private final double rate;
    private final int factor;
    private final double fullRate;

    private Decimated(double[] x, int factor, double fullRate) {
      this.x = x;
      this.rate = fullRate / factor;
      this.factor = factor;
      this.fullRate = fullRate;
    }

    static Decimated of(double[] x, int frames, double rate) {
      int factor = Math.max(1, (int) (rate / LISTENING_RATE));
      double[] kernel = kernel(factor);
      double[] out = new double[frames / factor];
      for (int i = 0; i < out.length; i++) {
        int last = i * factor;
        int taps = Math.min(kernel.length, last + 1);
        double even = 0;
        double odd = 0;
        int k = 0;
        for (; k + 1 < taps; k += 2) {
          even += kernel[k] * x[last - k];
          odd += kernel[k + 1] * x[last - k - 1];
        }
        out[i] = even + odd + (k < taps ? kernel[k] * x[last - k] : 0);
      }
      return new Decimated(out, factor, rate);
    }

    /** Three running means in a row as one. */
    private static double[] kernel(int factor) {
      double[] kernel = {1};
      for (int pass = 0; pass < 3 && factor > 1; pass++) {
        double[] next = new double[kernel.length + factor - 1];
        for (int i = 0; i < kernel.length; i++) {
          for (int k = 0; k < factor; k++) {
            next[i + k] += kernel[i] / factor;
          }
        }
        kernel = next;
      }
      return kernel;
    }

    /** Time of a sample on the clock of the full recording, s: the means lag. */
    double time(int i) {
      return (i * (double) factor - lag()) / fullRate;
    }

    /** The sample at a time in seconds, held within the recording. */
    int index(double time) {
      double i = Math.rint((time * fullRate + lag()) / factor);
      return (int) Math.max(0, Math.min(x.length - 1.0, i));
    }

    private double lag() {
      return factor > 1 ? 1.5 * (factor - 1) : 0;
    }

    /** By how much the three means weaken a frequency. */
    double response(double f) {
      double y = Math.PI * f / fullRate;
      return factor == 1 ? 1 : Math.pow(Math.sin(factor * y) / (factor * Math.sin(y)), 3);
    }
  }

  /** Fits one frequency at a time, deaf while the sweep passes it. */
  private static final class Listener {
    private final Decimated signal;
    private final Sweep sweep;
    private final double[] weight;
    private final double[] heard;
    private final double[] ends;
    private final double[] cos = new double[BLOCK];
    private final double[] sin = new double[BLOCK];
    private final double[] cosTwice = new double[BLOCK];
    private final double[] sinTwice = new double[BLOCK];
    private final double[] sums = new double[4];
    private double total;
    private double weightedFor = -1;

    Listener(Decimated signal, Sweep sweep) {
      this.signal = signal;
      this.sweep = sweep;
      this.weight = new double[signal.x.length];
      this.heard = new double[signal.x.length];
      this.ends = ends(signal);
    }

    double fundamental(double nominal) {
      double low = nominal * (1 - SEARCH);
      double high = nominal * (1 + SEARCH);
      int steps = (int) Math.ceil((high - low) * signal.x.length / signal.rate * 4) + 1;
      double best = nominal;
      double bestPower = -1;
      for (int i = 0; i <= steps; i++) {
        double f = low + (high - low) * i / steps;
        double power = fit(f, 1).amplitude();
        if (power > bestPower) {
          bestPower = power;
          best = f;
        }
      }
      double step = (high - low) / steps;
      for (int i = 0; i < 4; i++) {
        best = peak(best, step);
        step /= 4;
      }
      return best;
    }

    /** The top of a parabola through three amplitudes, held within a step. */
    private double peak(double middle, double step) {
      double left = fit(middle - step, 1).amplitude();
      double centre = fit(middle, 1).amplitude();
      double right = fit(middle + step, 1).amplitude();
      double curvature = left - 2 * centre + right;
      double shift = curvature < 0 ? (left - right) / (2 * curvature) : 0;
      return middle + step * Math.max(-1, Math.min(1, shift));
    }

    /** Amplitude at frequencies beside the harmonic, where no hum is. */
    double background(double f, int order) {
      double offset = 4 * signal.rate / signal.x.length;
      double sum = 0;
      int n = 0;
      for (int k = -3; k <= 3; k++) {
        if (Math.abs(k) >= 2) {
          double a = fit(f * order + k * offset, f * order).amplitude();
          sum += a * a;
          n++;
        }
      }
      return Math.sqrt(sum / n);
    }

    Harmonic fit(double f, int order) {
      Harmonic at = fit(f * order, f * order);
      return new Harmonic(order, at.c(), at.s());
    }

    /**
     * Least squares of cosine and sine under a weight that vanishes while the sweep passes. Blocks
     * share one table of the wave, turned to each block's phase.
     */
    private Harmonic fit(double target, double centre) {
      weigh(Math.rint(centre));
      double step = 2 * Math.PI * target / signal.rate;
      for (int k = 0; k < BLOCK; k++) {
        cos[k] = Math.cos(k * step);
        sin[k] = Math.sin(k * step);
        cosTwice[k] = cos[k] * cos[k] - sin[k] * sin[k];
        sinTwice[k] = 2 * cos[k] * sin[k];
      }
      double twiceC = 0;
      double twiceS = 0;
      double xc = 0;
      double xs = 0;
      for (int from = 0; from < weight.length; from += BLOCK) {
        block(from);
        double phase = 2 * Math.PI * target * signal.time(from);
        double c = Math.cos(phase);
        double s = Math.sin(phase);
        xc += c * sums[0] - s * sums[1];
        xs += s * sums[0] + c * sums[1];
        double c2 = c * c - s * s;
        double s2 = 2 * c * s;
        twiceC += c2 * sums[2] - s2 * sums[3];
        twiceS += s2 * sums[2] + c2 * sums[3];
      }
      double cc = (total + twiceC) / 2;
      double ss = (total - twiceC) / 2;
      double cs = twiceS / 2;
      double det = (cc * ss - cs * cs) * signal.response(target);
      return det > 0
          ? new Harmonic(1, (xc * ss - xs * cs) / det, (xs * cc - xc * cs) / det)
          : new Harmonic(1, 0, 0);
    }

    private void block(int from) {
      int n = Math.min(BLOCK, weight.length - from);
      double xc = 0;
      double xs = 0;
      double wc = 0;
      double ws = 0;
      for (int k = 0; k < n; k++) {
        double x = heard[from + k];
        double w = weight[from + k];
        xc += x * cos[k];
        xs += x * sin[k];
        wc += w * cosTwice[k];
        ws += w * sinTwice[k];
      }
      sums[0] = xc;
      sums[1] = xs;
      sums[2] = wc;
      sums[3] = ws;
    }

    private void weigh(double centre) {
      if (centre == weightedFor) {
        return;
      }
      weightedFor = centre;
      double pass = sweep.time(centre);
      double guard =
          Math.max(
              Math.max(pass - sweep.time(centre / 1.35), sweep.time(centre * 1.35) - pass), 0.15);
      System.arraycopy(ends, 0, weight, 0, weight.length);
      int from = signal.index(pass - guard - RAMP);
      int to = signal.index(pass + guard + RAMP) + 1;
      for (int i = from; i < to; i++) {
        weight[i] *= ramp((Math.abs(signal.time(i) - pass) - guard) / RAMP);
      }
      for (int i = 0; i < heard.length; i++) {
        heard[i] = weight[i] * signal.x[i];
      }
      total = 0;
      for (double w : weight) {
        total += w;
      }
    }

    /** A weight that rises and falls at the ends of the recording. */
    private static double[] ends(Decimated signal) {
      double[] out = new double[signal.x.length];
      double length = signal.x.length / signal.rate;
      for (int i = 0; i < out.length; i++) {
        double t = i / signal.rate;
        out[i] = ramp(t / RAMP) * ramp((length - t) / RAMP);
      }
      return out;
    }

    private static double ramp(double x) {
      return x <= 0 ? 0 : x >= 1 ? 1 : 0.5 * (1 - Math.cos(Math.PI * x));
    }
  }

  /** Takes this hum out of the samples. */
  public void subtractFrom(double[] x, int frames, double rate) {
    for (Harmonic harmonic : harmonics) {
      double omega = 2 * Math.PI * frequency * harmonic.order() / rate;
      double turnRe = Math.cos(omega);
      double turnIm = Math.sin(omega);
      double c = 1;
      double s = 0;
      for (int i = 0; i < frames; i++) {
        if (i % RESYNC == 0) {
          c = Math.cos(omega * i);
          s = Math.sin(omega * i);
        }
        x[i] -= harmonic.c() * c + harmonic.s() * s;
        double next = c * turnRe - s * turnIm;
        s = s * turnRe + c * turnIm;
        c = next;
      }
    }
  }

  /** Mean square of all harmonics, full scale 1. */
  double power() {
    return harmonics.stream().mapToDouble(h -> h.amplitude() * h.amplitude() / 2).sum();
  }

  /** Peak amplitude of the strongest harmonic, full scale 1. */
  public double strongest() {
    return harmonics.stream().mapToDouble(Harmonic::amplitude).max().orElse(0);
  }
}
