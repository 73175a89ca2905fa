package cutaway.acoustics.stimulus;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.DoubleToIntFunction;

/**
 * The harmonics of a tone in a recording, followed through time in step with the tone's own phase.
 *
 * <p>Around each of a row of moments the recording is compared with cosine and sine of each order
 * under a Hann window of a whole number of cycles, which lets no other order through; between the
 * moments amplitudes run straight. What this smooths away is found by doing the same to what is
 * left and adding it.
 */
public final class Harmonics {
  private static final int LEAST_CYCLES = 4;

  /** A window is no shorter, s: room reflections let amplitudes waver quickly over frequency. */
  private static final double LEAST_TIME = 0.03;

  private static final int PASSES = 2;
  private static final int FRAMES_PER_WINDOW = 4;

  /** A harmonic is followed up to this share of the sample rate. */
  private static final double HIGHEST = 0.45;

  private final ToneGrid grid;
  private final Tone tone;
  private final double rate;
  private final DoubleToIntFunction ordersAt;
  private final int orders;
  private final int from;
  private final List<Frame> frames = new ArrayList<>();

  /** One moment: amplitude re − j im of orders 1, 2, … as in re cos hφ − im sin hφ. */
  @SuppressWarnings("ArrayRecordComponent") // never compared
  private record Frame(double time, double half, double[] re, double[] im) {}

  private Harmonics(ToneGrid grid, DoubleToIntFunction ordersAt) {
    this.grid = grid;
    this.tone = grid.tone;
    this.rate = grid.rate;
    this.from = grid.from;
    this.ordersAt = ordersAt;
    this.orders = Math.max(orders(tone.start()), orders(tone.end()));
    double time = tone.start();
    while (time < tone.end()) {
      double half = window(time) / 2 / tone.frequency(time);
      frames.add(new Frame(time, half, new double[orders], new double[orders]));
      time += 2 * half / FRAMES_PER_WINDOW;
    }
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
    return of(x, new ToneGrid(tone, rate, x.length), f -> orders);
  }

  /**
   * Follows them, so many at each frequency.
   *
   * @param x samples of a channel
   * @param grid where the tone lies in it
   * @param orders highest order at a frequency in Hz of the tone; the most at one of its ends
   */
  public static Harmonics of(double[] x, ToneGrid grid, DoubleToIntFunction orders) {
    Harmonics out = new Harmonics(grid, orders);
    double[] left = Arrays.copyOfRange(x, out.from, out.from + grid.size());
    for (int pass = 0; pass < PASSES; pass++) {
      List<Frame> found = out.frames.stream().map(f -> out.heard(left, f)).toList();
      out.add(left, found, -1);
      for (int k = 0; k < found.size(); k++) {
        Frame sum = out.frames.get(k);
        for (int h = 0; h < out.orders; h++) {
          sum.re[h] += found.get(k).re[h];
          sum.im[h] += found.get(k).im[h];
        }
      }
    }
    return out;
  }

  private double window(double time) {
    return Math.max(LEAST_CYCLES, Math.ceil(LEAST_TIME * tone.frequency(time)));
  }

  private int orders(double time) {
    double f = tone.frequency(time);
    return (int) Math.min(ordersAt.applyAsInt(f), HIGHEST * rate / f);
  }

  private Frame heard(double[] x, Frame at) {
    double width = window(at.time);
    double centre = tone.cycles(at.time);
    // a window of so many cycles is shorter after its middle than before where the tone rises
    double early = moment(at.time, -width / 2);
    double late = moment(at.time, width / 2);
    int first = (int) Math.max(0, Math.ceil(early * rate) - from);
    int last = (int) Math.min(x.length - 1.0, Math.floor(late * rate) - from);
    int n = orders(at.time);
    double[] re = new double[orders];
    double[] im = new double[orders];
    double weights = 0;
    double[] cosine = grid.cosine;
    double[] sine = grid.sine;
    double turn = 2 * Math.PI / width;
    double middle = tone.frequency(at.time) / tone.frequency();
    for (int i = first; i <= last; i++) {
      double w = (1 + Math.cos(turn * (grid.cycles[i] - centre))) * grid.growth[i] / middle;
      weights += w;
      double wx = w * x[i];
      double c = cosine[i];
      double s = sine[i];
      double pr = c;
      double pi = s;
      for (int h = 0; h < n; h++) {
        re[h] += wx * pr;
        im[h] -= wx * pi;
        double next = pr * c - pi * s;
        pi = pr * s + pi * c;
        pr = next;
      }
    }
    double scale = weights > 0 ? 2 / weights : 0;
    for (int h = 0; h < n; h++) {
      re[h] *= scale;
      im[h] *= scale;
    }
    return new Frame(at.time, at.half, re, im);
  }

  /** When so many cycles have passed since a time, s. */
  private double moment(double time, double cycles) {
    double f = tone.frequency(time);
    return tone.isSteady()
        ? time + cycles / f
        : time + Math.log1p(Math.max(-0.9, cycles * tone.glide() / f)) / tone.glide();
  }

  /** Adds the harmonics, so many times, to samples that begin where the tone does. */
  private void add(double[] x, List<Frame> amplitudes, double times) {
    for (int k = 0; k + 1 < amplitudes.size(); k++) {
      Frame a = amplitudes.get(k);
      Frame b = amplitudes.get(k + 1);
      int first = (int) Math.max(0, Math.ceil(a.time * rate) - from);
      int last = (int) Math.min(x.length, Math.ceil(b.time * rate) - from);
      add(x, a, b, first, k + 2 == amplitudes.size() ? x.length : last, times);
    }
  }

  private void add(double[] x, Frame a, Frame b, int first, int last, double times) {
    int n = Math.min(orders(a.time), orders(b.time));
    double[] cosine = grid.cosine;
    double[] sine = grid.sine;
    for (int i = first; i < last; i++) {
      double share = Math.min(1, ((from + i) / rate - a.time) / (b.time - a.time));
      double c = cosine[i];
      double s = sine[i];
      double pr = c;
      double pi = s;
      double sum = 0;
      for (int h = 0; h < n; h++) {
        double re = a.re[h] + share * (b.re[h] - a.re[h]);
        double im = a.im[h] + share * (b.im[h] - a.im[h]);
        sum += re * pr - im * pi;
        double next = pr * c - pi * s;
        pi = pr * s + pi * c;
        pr = next;
      }
      x[i] += times * sum;
    }
  }

  /** Takes the harmonics out of samples of the recording, in place. */
  public void takeOutOf(double[] x) {
    double[] own = Arrays.copyOfRange(x, from, from + grid.size());
    add(own, frames, -1);
    System.arraycopy(own, 0, x, from, own.length);
  }

  /** How many moments. */
  public int size() {
    return frames.size();
  }

  /** When, s. */
  public double time(int k) {
    return frames.get(k).time;
  }

  /** Half of the window about a moment, s. */
  public double halfWindow(int k) {
    return frames.get(k).half;
  }

  /**
   * Peak of an order, 1 the fundamental, at a moment, the unit of the samples; 0 if not followed.
   */
  public double amplitude(int k, int order) {
    if (order > orders) {
      return 0;
    }
    return Math.hypot(frames.get(k).re[order - 1], frames.get(k).im[order - 1]);
  }

  /** Phase of an order, radians, of a cosine against that order of the tone's phase. */
  public double phase(int k, int order) {
    return Math.atan2(frames.get(k).im[order - 1], frames.get(k).re[order - 1]);
  }
}
