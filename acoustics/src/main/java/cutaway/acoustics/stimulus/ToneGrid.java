package cutaway.acoustics.stimulus;

import java.util.ArrayList;
import java.util.List;

/**
 * Where each sample of a recording lies in a tone's course, and the windows under which the tone is
 * looked at, worked out once for all its channels.
 */
public final class ToneGrid {
  private static final int LEAST_CYCLES = 4;

  /** A window is no shorter, s: room reflections let amplitudes waver quickly over frequency. */
  private static final double LEAST_TIME = 0.03;

  private static final int MOMENTS_PER_WINDOW = 4;

  /** Samples over which a frequency is multiplied on. */
  private static final int AT_ONCE = 1024;

  /** Slower glides than this count as steady, 1/s. */
  private static final double LEAST_GLIDE = 1e-3;

  final Tone tone;
  final double rate;

  /** First sample of the recording that lies in the tone. */
  final int from;

  final double[] cosine;
  final double[] sine;
  final List<Moment> moments;

  /**
   * One of the moments at which the tone is looked at.
   *
   * @param time s
   * @param half half of the window, s
   * @param first sample of the window, counted from the tone's first
   * @param weight of each sample from there; together 2
   */
  @SuppressWarnings("ArrayRecordComponent") // never compared
  record Moment(double time, double half, int first, double[] weight) {}

  /**
   * Lays a tone over a recording.
   *
   * @param tone as it lies in the recording
   * @param rate samples per second
   * @param samples how long the recording is
   */
  public ToneGrid(Tone tone, double rate, int samples) {
    this.tone = tone;
    this.rate = rate;
    this.from = (int) Math.max(0, Math.ceil(tone.start() * rate));
    int n = Math.max(0, (int) Math.min(samples, Math.floor(tone.end() * rate) + 1) - from);
    double[] frequency = frequencies(n);
    double[] cycles = new double[n];
    for (int i = 0; i < n; i++) {
      // the phase is the frequency's integral, but for rounding where it hardly glides
      cycles[i] =
          Math.abs(tone.glide()) > LEAST_GLIDE
              ? tone.phase() + (frequency[i] - tone.frequency()) / tone.glide()
              : tone.cycles((from + i) / rate);
    }
    cosine = new double[n];
    sine = new double[n];
    Phasors.of(cycles.clone(), cosine, sine);
    List<Double> times = new ArrayList<>();
    for (double t = tone.start(); t < tone.end(); t += window(t) / MOMENTS_PER_WINDOW) {
      times.add(t);
    }
    moments = times.parallelStream().map(t -> moment(t, cycles, frequency)).toList();
  }

  /** Cycles of the window about a time. */
  private double width(double time) {
    return Math.max(LEAST_CYCLES, Math.ceil(LEAST_TIME * tone.frequency(time)));
  }

  /** How long that is, s. */
  private double window(double time) {
    return width(time) / tone.frequency(time);
  }

  /** Of each sample: an exponential, worked out anew now and then and multiplied on between. */
  private double[] frequencies(int n) {
    double[] growth = new double[Math.min(n, AT_ONCE)];
    for (int i = 0; i < growth.length; i++) {
      growth[i] = Math.exp(tone.glide() * i / rate);
    }
    double[] out = new double[n];
    for (int first = 0; first < n; first += AT_ONCE) {
      double f = tone.frequency((from + first) / rate);
      for (int i = 0; i < Math.min(AT_ONCE, n - first); i++) {
        out[first + i] = f * growth[i];
      }
    }
    return out;
  }

  /** With a Hann window over whole cycles, which lets no other order through. */
  private Moment moment(double time, double[] cycles, double[] frequency) {
    double width = width(time);
    double centre = tone.cycles(time);
    // a window of so many cycles is shorter after its middle than before where the tone rises
    int first = (int) Math.max(0, Math.ceil(after(time, -width / 2) * rate) - from);
    int last = (int) Math.min(size() - 1.0, Math.floor(after(time, width / 2) * rate) - from);
    int n = Math.max(0, last - first + 1);
    double[] weight = new double[n];
    for (int i = 0; i < n; i++) {
      weight[i] = (cycles[first + i] - centre) / width;
    }
    Phasors.cosine(weight);
    double sum = 0;
    for (int i = 0; i < n; i++) {
      // the tone's frequency turns a sum over time into one over its phase
      weight[i] = (1 + weight[i]) * frequency[first + i];
      sum += weight[i];
    }
    for (int i = 0; i < weight.length; i++) {
      weight[i] *= sum > 0 ? 2 / sum : 0;
    }
    return new Moment(time, window(time) / 2, first, weight);
  }

  /** When so many cycles have passed since a time, s. */
  private double after(double time, double cycles) {
    double f = tone.frequency(time);
    return tone.isSteady()
        ? time + cycles / f
        : time + Math.log1p(Math.max(-0.9, cycles * tone.glide() / f)) / tone.glide();
  }

  int size() {
    return cosine.length;
  }
}
