package cutaway.acoustics.signal;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Mains hum in a channel: a fundamental near 50 or 60 Hz with harmonics.
 *
 * @param frequency fundamental, Hz
 * @param harmonics those found, lowest first
 */
public record Hum(double frequency, List<Harmonic> harmonics) {
  private static final int HARMONICS = 12;
  private static final double SEARCH = 0.004;
  private static final double LISTENING_RATE = 6000;
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
   * @param x samples
   * @param rate samples per second
   * @param sweep the sweep's law
   * @param nominal mains frequency, 50 or 60 Hz
   * @return the hum, absent where nothing stands clear of the background
   */
  public static Optional<Hum> of(double[] x, double rate, Sweep sweep, double nominal) {
    Listener listener = new Listener(Decimated.of(x, rate), sweep);
    double frequency = listener.fundamental(nominal);
    List<Harmonic> found = new ArrayList<>();
    for (int h = 1; h <= HARMONICS && h * frequency < LISTENING_RATE / 5; h++) {
      Harmonic harmonic = listener.fit(frequency, h);
      if (harmonic.amplitude() > 4 * listener.background(frequency, h)) {
        found.add(harmonic);
      }
    }
    return found.isEmpty() ? Optional.empty() : Optional.of(new Hum(frequency, found));
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

    static Decimated of(double[] x, double rate) {
      int factor = Math.max(1, (int) (rate / LISTENING_RATE));
      double[] mean = x;
      for (int pass = 0; pass < 3 && factor > 1; pass++) {
        mean = runningMean(mean, factor);
      }
      double[] out = new double[x.length / factor];
      for (int i = 0; i < out.length; i++) {
        out[i] = mean[i * factor];
      }
      return new Decimated(out, factor, rate);
    }

    private static double[] runningMean(double[] x, int length) {
      double[] out = new double[x.length];
      double sum = 0;
      for (int i = 0; i < x.length; i++) {
        sum += x[i] - (i >= length ? x[i - length] : 0);
        out[i] = sum / length;
      }
      return out;
    }

    /** Time of a sample on the clock of the full recording, s: the means lag. */
    double time(int i) {
      return (i * (double) factor - lag()) / fullRate;
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
    private double weightedFor = -1;

    Listener(Decimated signal, Sweep sweep) {
      this.signal = signal;
      this.sweep = sweep;
      this.weight = new double[signal.x.length];
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
      for (int i = 0; i < 16; i++) {
        step *= 0.6;
        double left = fit(best - step, 1).amplitude();
        double right = fit(best + step, 1).amplitude();
        if (Math.max(left, right) > bestPower) {
          best += right > left ? step : -step;
          bestPower = Math.max(left, right);
        }
      }
      return best;
    }

    /** Amplitude at frequencies beside the harmonic, where no hum is. */
    double background(double f, int order) {
      double offset = 4 * signal.rate / signal.x.length;
      double sum = 0;
      int n = 0;
      for (int k = -4; k <= 4; k++) {
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

    /** Least squares of cosine and sine under a weight that vanishes while the sweep passes. */
    private Harmonic fit(double target, double centre) {
      weigh(Math.rint(centre));
      double step = 2 * Math.PI * target / signal.rate;
      double turnRe = Math.cos(step);
      double turnIm = Math.sin(step);
      double start = 2 * Math.PI * target * signal.time(0);
      double c = Math.cos(start);
      double s = Math.sin(start);
      double cc = 0;
      double ss = 0;
      double cs = 0;
      double xc = 0;
      double xs = 0;
      for (int i = 0; i < weight.length; i++) {
        double wc = weight[i] * c;
        double ws = weight[i] * s;
        cc += wc * c;
        ss += ws * s;
        cs += wc * s;
        xc += wc * signal.x[i];
        xs += ws * signal.x[i];
        double next = c * turnRe - s * turnIm;
        s = s * turnRe + c * turnIm;
        c = next;
      }
      double det = (cc * ss - cs * cs) * signal.response(target);
      return det > 0
          ? new Harmonic(1, (xc * ss - xs * cs) / det, (xs * cc - xc * cs) / det)
          : new Harmonic(1, 0, 0);
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
      double length = signal.x.length / signal.rate;
      for (int i = 0; i < weight.length; i++) {
        double t = i / signal.rate;
        weight[i] =
            ramp(t / RAMP)
                * ramp((length - t) / RAMP)
                * ramp((Math.abs(signal.time(i) - pass) - guard) / RAMP);
      }
    }

    private static double ramp(double x) {
      return x <= 0 ? 0 : x >= 1 ? 1 : 0.5 * (1 - Math.cos(Math.PI * x));
    }
  }

  /** Takes this hum out of the samples. */
  public void subtractFrom(double[] x, double rate) {
    for (Harmonic harmonic : harmonics) {
      double omega = 2 * Math.PI * frequency * harmonic.order() / rate;
      double turnRe = Math.cos(omega);
      double turnIm = Math.sin(omega);
      double c = 1;
      double s = 0;
      for (int i = 0; i < x.length; i++) {
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

  /** Peak amplitude of the strongest harmonic, full scale 1. */
  public double strongest() {
    return harmonics.stream().mapToDouble(Harmonic::amplitude).max().orElse(0);
  }
}
