package cutaway.acoustics.stimulus;

import java.util.Arrays;
import java.util.function.DoubleToIntFunction;
import java.util.stream.IntStream;

/**
 * The harmonics of a tone in a recording, followed through time in step with the tone's own phase.
 *
 * <p>Around each of a row of moments the recording is compared with cosine and sine of each order
 * under a Hann window of a whole number of cycles, which lets no other order through; between the
 * moments amplitudes run straight. What this smooths away is found by doing the same to what is
 * left and adding it.
 */
public final class Harmonics {
  private static final int PASSES = 2;

  /** A harmonic is followed up to this share of the sample rate. */
  private static final double HIGHEST = 0.45;

  /** Samples that are gone through side by side, order after order. */
  private static final int LANES = 64;

  /** The moments are worked on side by side in so many shares. */
  private static final int SHARES = 8;

  private final ToneGrid grid;
  private final DoubleToIntFunction ordersAt;
  private final int orders;

  /** Amplitude re + j im of orders 1, 2, … at each moment, as in re cos hφ − im sin hφ. */
  private final double[][] re;

  private final double[][] im;

  private Harmonics(ToneGrid grid, DoubleToIntFunction ordersAt) {
    this.grid = grid;
    this.ordersAt = ordersAt;
    this.orders = Math.max(orders(grid.tone.start()), orders(grid.tone.end()));
    this.re = new double[grid.moments.size()][orders];
    this.im = new double[grid.moments.size()][orders];
  }

  /**
   * Follows them.
   *
   * @param x samples
   * @param rate samples per second
   * @param tone as it lies in the recording
   * @param orders highest order
   */
  public static Harmonics of(double[] x, double rate, Tone tone, int orders) {
    return takeOut(x.clone(), new ToneGrid(tone, rate, x.length), f -> orders);
  }

  /**
   * Follows them, so many at each frequency, and takes them out.
   *
   * @param x samples of a channel, changed: what is left
   * @param grid where the tone lies in it
   * @param orders highest order at a frequency in Hz of the tone; the most at one of its ends
   */
  public static Harmonics takeOut(double[] x, ToneGrid grid, DoubleToIntFunction orders) {
    Harmonics out = new Harmonics(grid, orders);
    double[] left = Arrays.copyOfRange(x, grid.from, grid.from + grid.size());
    for (int pass = 0; pass < PASSES; pass++) {
      Harmonics found = new Harmonics(grid, orders);
      found.hear(left);
      found.takeOut(left);
      for (int k = 0; k < out.size(); k++) {
        for (int h = 0; h < out.orders; h++) {
          out.re[k][h] += found.re[k][h];
          out.im[k][h] += found.im[k][h];
        }
      }
    }
    System.arraycopy(left, 0, x, grid.from, left.length);
    return out;
  }

  private int orders(double time) {
    double f = grid.tone.frequency(time);
    return (int) Math.min(ordersAt.applyAsInt(f), HIGHEST * grid.rate / f);
  }

  private void hear(double[] x) {
    shares().forEach(share -> hear(x, share));
  }

  /** Every so many moments, as the early ones are longest and have most orders. */
  private static IntStream shares() {
    return IntStream.range(0, SHARES).parallel();
  }

  private void hear(double[] x, int share) {
    Lanes lanes = new Lanes(orders);
    for (int k = share; k < size(); k += SHARES) {
      ToneGrid.Moment at = grid.moments.get(k);
      int n = orders(at.time());
      lanes.clear(n);
      for (int from = 0; from < at.weight().length; from += LANES) {
        lanes.add(x, grid, at, from, n);
      }
      for (int h = 0; h < n; h++) {
        re[k][h] = sum(lanes.re[h]);
        im[k][h] = -sum(lanes.im[h]);
      }
    }
  }

  private static double sum(double[] x) {
    double out = 0;
    for (double v : x) {
      out += v;
    }
    return out;
  }

  /**
   * Sums over a window, each order for so many samples side by side. Orders go two at a time, with
   * one to spare if they are odd: the phasors are then fetched and put back half as often.
   */
  private static final class Lanes {
    private final double[][] re;
    private final double[][] im;
    private final double[] pr = new double[LANES];
    private final double[] pi = new double[LANES];
    private final double[] c = new double[LANES];
    private final double[] s = new double[LANES];

    Lanes(int orders) {
      re = new double[orders + 1][LANES];
      im = new double[orders + 1][LANES];
    }

    void clear(int n) {
      for (int h = 0; h < n; h++) {
        Arrays.fill(re[h], 0);
        Arrays.fill(im[h], 0);
      }
    }

    void add(double[] x, ToneGrid grid, ToneGrid.Moment at, int from, int n) {
      int count = Math.min(LANES, at.weight().length - from);
      int first = at.first() + from;
      System.arraycopy(grid.cosine, first, c, 0, count);
      System.arraycopy(grid.sine, first, s, 0, count);
      for (int i = 0; i < LANES; i++) {
        double wx = i < count ? at.weight()[from + i] * x[first + i] : 0;
        pr[i] = wx * c[i];
        pi[i] = wx * s[i];
      }
      for (int h = 0; h < n; h += 2) {
        turn(re[h], im[h], re[h + 1], im[h + 1], pr, pi, c, s);
      }
    }

    /** Adds the phasors of two orders, and turns them on to the next. */
    private static void turn(
        double[] sumRe,
        double[] sumIm,
        double[] nextRe,
        double[] nextIm,
        double[] pr,
        double[] pi,
        double[] c,
        double[] s) {
      for (int i = 0; i < LANES; i++) {
        double cosine = c[i];
        double sine = s[i];
        double r = pr[i];
        double j = pi[i];
        sumRe[i] += r;
        sumIm[i] += j;
        double r2 = r * cosine - j * sine;
        double j2 = r * sine + j * cosine;
        nextRe[i] += r2;
        nextIm[i] += j2;
        pr[i] = r2 * cosine - j2 * sine;
        pi[i] = r2 * sine + j2 * cosine;
      }
    }
  }

  /**
   * Takes them out of samples that begin where the tone does; between moments they run straight.
   */
  private void takeOut(double[] x) {
    shares().forEach(share -> takeOut(x, share));
  }

  private void takeOut(double[] x, int share) {
    Synthesis synthesis = new Synthesis();
    for (int k = share; k + 1 < size(); k += SHARES) {
      double start = grid.moments.get(k).time();
      double end = grid.moments.get(k + 1).time();
      int first = (int) Math.max(0, Math.ceil(start * grid.rate) - grid.from);
      int last = (int) Math.min(x.length, Math.ceil(end * grid.rate) - grid.from);
      last = k + 2 == size() ? x.length : last;
      int n = Math.min(orders(start), orders(end));
      for (int from = first; from < last; from += LANES) {
        int count = Math.min(LANES, last - from);
        synthesis.begin(grid, from, count, start, end);
        for (int h = n - 1; h >= 0; h--) {
          synthesis.step(re[k][h], im[k][h], re[k + 1][h] - re[k][h], im[k + 1][h] - im[k][h]);
        }
        for (int i = 0; i < count; i++) {
          x[from + i] -= synthesis.r[i];
        }
      }
    }
  }

  /** Horner's rule in the tone's phasor, from the highest order down, for many samples at once. */
  private static final class Synthesis {
    private final double[] r = new double[LANES];
    private final double[] j = new double[LANES];
    private final double[] share = new double[LANES];
    private final double[] c = new double[LANES];
    private final double[] s = new double[LANES];

    void begin(ToneGrid grid, int from, int count, double start, double end) {
      System.arraycopy(grid.cosine, from, c, 0, count);
      System.arraycopy(grid.sine, from, s, 0, count);
      double first = ((grid.from + from) / grid.rate - start) / (end - start);
      double step = 1 / grid.rate / (end - start);
      for (int i = 0; i < LANES; i++) {
        share[i] = Math.min(1, first + i * step);
        r[i] = 0;
        j[i] = 0;
      }
    }

    void step(double a, double b, double da, double db) {
      step(a, b, da, db, r, j, share, c, s);
    }

    private static void step(
        double a,
        double b,
        double da,
        double db,
        double[] r,
        double[] j,
        double[] share,
        double[] c,
        double[] s) {
      for (int i = 0; i < LANES; i++) {
        double re = r[i] + a + share[i] * da;
        double im = j[i] + b + share[i] * db;
        r[i] = re * c[i] - im * s[i];
        j[i] = re * s[i] + im * c[i];
      }
    }
  }

  /** How many moments. */
  public int size() {
    return re.length;
  }

  /** When, s. */
  public double time(int k) {
    return grid.moments.get(k).time();
  }

  /** The moment nearest to a time in s. */
  public int near(double time) {
    int low = 0;
    int high = size() - 1;
    while (low < high) {
      int middle = (low + high) / 2;
      boolean after = 2 * time > time(middle) + time(middle + 1);
      low = after ? middle + 1 : low;
      high = after ? high : middle;
    }
    return low;
  }

  /** Half of the window about a moment, s. */
  public double halfWindow(int k) {
    return grid.moments.get(k).half();
  }

  /**
   * Peak of an order, 1 the fundamental, at a moment, the unit of the samples; 0 if not followed.
   */
  public double amplitude(int k, int order) {
    if (order > orders) {
      return 0;
    }
    return Math.hypot(re[k][order - 1], im[k][order - 1]);
  }

  /** Phase of an order, radians, of a cosine against that order of the tone's phase. */
  public double phase(int k, int order) {
    return Math.atan2(im[k][order - 1], re[k][order - 1]);
  }
}
