package cutaway.acoustics.fault;

import cutaway.acoustics.signal.CrossSpectrum;
import cutaway.acoustics.signal.Fft;
import cutaway.acoustics.stimulus.Tone;
import java.util.Arrays;
import java.util.stream.IntStream;
import org.jtransforms.fft.DoubleFFT_1D;

/**
 * The power of a channel in octave bands through time, from 250 Hz up; edges fall off over a
 * twelfth of an octave, phases are left alone. Of each band the envelope is worked out at just the
 * rate at which its power may change: half the squared magnitude of its analytic signal.
 */
final class OctaveBands {
  private static final double LOWEST = 250;
  private static final double EDGE = Math.pow(2, 1.0 / 24);

  /** Bands that begin in an octave, so that one begins soon above any order. */
  static final int PER_OCTAVE = 3;

  /** Steps are no shorter than this many a second make them: enough for a cycle of any tone. */
  private static final double FINEST = 12000;

  private final double rate;
  private final int[] every;

  /** Mean power over each step of each band, not as fine as numbers could be: there are many. */
  private final float[][] steps;

  /** All bands of a channel, the widest first: the others fit into its room. */
  OctaveBands(double[] x, double rate) {
    this(x, rate, IntStream.range(0, count(rate)).map(b -> count(rate) - 1 - b).toArray());
  }

  /** Some bands of a channel; of the others nothing can be told. */
  OctaveBands(double[] x, double rate, int... wanted) {
    this.rate = rate;
    int size = CrossSpectrum.roomyLength(x.length);
    double[] whole = Arrays.copyOf(x, size);
    DoubleFFT_1D fft = Fft.of(size);
    fft.realForward(whole);
    int n = count(rate);
    every = new int[n];
    steps = new float[n][];
    double[] room = new double[0];
    for (int b : wanted) {
      room = split(b, whole, x.length, room);
    }
  }

  /** Returns the room it took, for the next band: arrays of that size are dear to make. */
  private double[] split(int b, double[] whole, int samples, double[] room) {
    int size = whole.length;
    int first = (int) Math.max(1, Math.floor(lowerEdge(b) / EDGE * size / rate));
    int last = (int) Math.min(size / 2.0 - 1, Math.ceil(2 * lowerEdge(b) * EDGE * size / rate));
    // power changes up to twice as fast as the band is wide
    int length = Math.min(size, CrossSpectrum.roomyLength(2 * (last - first + 1)));
    double[] y = room.length < 2 * length ? new double[2 * length] : room;
    Arrays.fill(y, 2 * (last - first + 1), 2 * length, 0);
    double scale = 2.0 * length / size;
    double flatFrom = lowerEdge(b) * EDGE * size / rate;
    double flatTo = 2 * lowerEdge(b) / EDGE * size / rate;
    for (int k = first; k <= last; k++) {
      boolean flat = k > flatFrom && k < flatTo;
      double g = flat ? scale : scale * gain(b, k * rate / size);
      y[2 * (k - first)] = g * whole[2 * k];
      y[2 * (k - first) + 1] = g * whole[2 * k + 1];
    }
    Fft.of(length).complexInverse(y, true);
    int together = (int) Math.max(1, (double) length / size * rate / FINEST);
    every[b] = size / length * together;
    float[] power = new float[samples / every[b]];
    for (int i = 0; i < power.length; i++) {
      double sum = 0;
      for (int k = i * together; k < (i + 1) * together; k++) {
        sum += y[2 * k] * y[2 * k] + y[2 * k + 1] * y[2 * k + 1];
      }
      power[i] = (float) (sum / 2 / together);
    }
    steps[b] = power;
    return y;
  }

  /** Samples without what lies below all bands. */
  static double[] above(double[] x, double rate) {
    int size = CrossSpectrum.roomyLength(x.length);
    double[] y = Arrays.copyOf(x, size);
    DoubleFFT_1D fft = Fft.of(size);
    fft.realForward(y);
    for (int k = 0; k < size / 2; k++) {
      double g = k == 0 ? 0 : rise(k * rate / size, lowerEdge(0));
      y[2 * k] *= g;
      y[2 * k + 1] *= k == 0 ? 1 : g;
    }
    fft.realInverse(y, true);
    return Arrays.copyOf(y, x.length);
  }

  /** What a band lets through at a frequency in Hz, 0 to 1. */
  static double gain(int b, double frequency) {
    return rise(frequency, lowerEdge(b)) * (1 - rise(frequency, 2 * lowerEdge(b)));
  }

  private static double rise(double f, double edge) {
    double x = Math.log(f / edge) / Math.log(EDGE);
    return x <= -1 ? 0 : x >= 1 ? 1 : 0.5 + 0.5 * Math.sin(Math.PI / 2 * x);
  }

  /** How many end below half the rate. */
  static int count(double rate) {
    double octaves = Math.log(rate / 2 / Math.sqrt(2) / LOWEST) / Math.log(2);
    return (int) Math.floor(octaves * PER_OCTAVE) + 1;
  }

  /** Middle of a band, Hz. */
  static double centre(int b) {
    return LOWEST * Math.pow(2, (double) b / PER_OCTAVE);
  }

  /** The band about a frequency, Hz. */
  static int at(double centre) {
    return (int) Math.rint(Math.log(centre / LOWEST) / Math.log(2) * PER_OCTAVE);
  }

  /** Where a band begins, Hz. */
  static double lowerEdge(int b) {
    return centre(b) / Math.sqrt(2);
  }

  /** Whether it was asked for a band. */
  boolean holds(int b) {
    return steps[b] != null;
  }

  int size() {
    return steps.length;
  }

  /** Mean square of a band between two samples. */
  double power(int b, int from, int to) {
    int most = steps[b].length;
    int first = Math.max(0, Math.min(most, (int) Math.rint((double) from / every[b])));
    int last = Math.max(0, Math.min(most, (int) Math.rint((double) to / every[b])));
    return sum(b, first, last) / Math.max(1, last - first);
  }

  private double sum(int b, int first, int last) {
    float[] power = steps[b];
    double out = 0;
    for (int i = first; i < last; i++) {
      out += power[i];
    }
    return out;
  }

  /**
   * How much later another channel has what this one has in a band between two samples: where the
   * covariance of their powers is highest, made finer by a parabola, s.
   *
   * @param reach furthest that is looked for, s
   */
  double later(OctaveBands other, int b, int from, int to, double reach) {
    int most = (int) Math.ceil(reach * rate / every[b]);
    int first = Math.max(most, from / every[b]);
    int last = Math.min(steps[b].length - most, to / every[b]);
    double[] alike = new double[2 * most + 1];
    int best = most;
    for (int lag = -most; lag <= most; lag++) {
      double both = 0;
      for (int i = first; i < last; i++) {
        both += (double) steps[b][i] * other.steps[b][i + lag];
      }
      double mean = sum(b, first, last) / Math.max(1, last - first);
      alike[lag + most] = both - mean * other.sum(b, first + lag, last + lag);
      best = alike[lag + most] > alike[best] ? lag + most : best;
    }
    double finer = 0;
    if (best > 0 && best < 2 * most) {
      double bend = alike[best - 1] - 2 * alike[best] + alike[best + 1];
      finer = bend < 0 ? (alike[best - 1] - alike[best + 1]) / (2 * bend) : 0;
    }
    return (best - most + finer) * every[b] / rate;
  }

  /** Mean square over squared mean of the power of a band between two samples; 2 for noise. */
  double peakedness(int b, int from, int to) {
    int first = from / every[b];
    int last = Math.min(steps[b].length, to / every[b]);
    double sum = 0;
    double square = 0;
    for (int i = first; i < last; i++) {
      double p = steps[b][i];
      sum += p;
      square += p * p;
    }
    return sum > 0 ? square * (last - first) / (sum * sum) : 1;
  }

  /** How the power of a band goes round with the cycle of a tone about a moment, s. */
  CycleEnvelope round(int b, Tone tone, double time, double half) {
    int first = (int) Math.max(0, Math.ceil((time - half) * rate / every[b]));
    int last = (int) Math.min(steps[b].length, Math.floor((time + half) * rate / every[b]) + 1);
    double[] power = new double[Math.max(0, last - first)];
    for (int i = 0; i < power.length; i++) {
      power[i] = steps[b][first + i];
    }
    return CycleEnvelope.of(power, rate / every[b], first * every[b] / rate, tone, time, half);
  }

  /**
   * Mean power of a band in even parts of a tone's cycle, over the mean of all.
   *
   * @param from s
   * @param to s
   * @param begin where in the cycle the first part begins, cycles
   */
  double[] folded(int b, Tone tone, double from, double to, double begin, int parts) {
    double[] out = new double[parts];
    int[] n = new int[parts];
    double all = 0;
    int first = (int) Math.max(0, Math.ceil(from * rate / every[b]));
    int last = (int) Math.min(steps[b].length, Math.floor(to * rate / every[b]));
    for (int i = first; i < last; i++) {
      double cycles = tone.cycles(i * every[b] / rate) - begin;
      int part = (int) ((cycles - Math.floor(cycles)) * parts) % parts;
      double power = steps[b][i];
      out[part] += power;
      n[part]++;
      all += power / (last - first);
    }
    for (int k = 0; k < parts; k++) {
      out[k] /= Math.max(1, n[k]) * Math.max(1e-300, all);
    }
    return out;
  }
}
