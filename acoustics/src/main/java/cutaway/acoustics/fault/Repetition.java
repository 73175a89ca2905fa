package cutaway.acoustics.fault;

import cutaway.acoustics.signal.CrossSpectrum;
import cutaway.acoustics.signal.Fft;
import cutaway.acoustics.stimulus.Tone;
import java.util.Arrays;

/**
 * How far what is left over repeats from one cycle of the tone to a later one: a blow in step does,
 * breath and a single tick do not.
 */
final class Repetition {
  /** What rings on after a single tick has died away by then, s. */
  private static final double RUNG_OUT = 0.015;

  /** From a blow to the middle of its ringing, s: meanwhile a gliding tone goes on. */
  private static final double[] RINGING = {0, 0.002, 0.005};

  private final double rate;
  private final double start;
  private final Tone tone;

  /** The band's analytic signal, moved down by the carrier: real, imaginary in turn. */
  private final double[] band;

  private final double carrier;

  /**
   * Of a stretch.
   *
   * @param x samples, without the tone
   * @param from first sample of the stretch
   * @param to the one after its last
   * @param band octave band
   */
  Repetition(double[] x, double rate, int from, int to, int band, Tone tone) {
    this.rate = rate;
    this.start = from / rate;
    this.tone = tone;
    int size = CrossSpectrum.roomyLength(to - from);
    double[] whole = Arrays.copyOf(Arrays.copyOfRange(x, from, to), size);
    Fft.of(size).realForward(whole);
    int middle = (int) Math.rint(OctaveBands.centre(band) * size / rate);
    this.carrier = middle * rate / size;
    this.band = new double[2 * size];
    for (int k = 1; k < size / 2; k++) {
      double g = OctaveBands.gain(band, k * rate / size);
      int at = 2 * Math.floorMod(k - middle, size);
      this.band[at] = g * whole[2 * k];
      this.band[at + 1] = g * whole[2 * k + 1];
    }
    Fft.of(size).complexInverse(this.band, true);
  }

  /** Cycles that are gone over at once. */
  private static double cycles(Tone tone, double time) {
    return Math.max(1, Math.ceil(RUNG_OUT * tone.frequency(time)));
  }

  /** How long before and after a moment the stretch must reach, s. */
  static double reach(Tone tone, double time, double half) {
    return half + cycles(tone, time) / tone.frequency(time) + RUNG_OUT;
  }

  /**
   * Share of the power about a moment that is the same some cycles later: the magnitude of the
   * correlation of both.
   *
   * @param time s
   * @param half of the Hann window, s
   */
  double share(double time, double half) {
    double best = 0;
    for (double ringing : RINGING) {
      best = Math.max(best, share(time, half, ringing));
    }
    return best;
  }

  private double share(double time, double half, double ringing) {
    double cycles = cycles(tone, time);
    double re = 0;
    double im = 0;
    double now = 0;
    double then = 0;
    // the moment lies in the middle between both
    double middle = time - cycles / tone.frequency(time) / 2;
    int first = (int) Math.max(0, Math.ceil((middle - half - start) * rate));
    int last = (int) Math.min(band.length / 2.0, (middle + half - start) * rate);
    for (int i = first; i < last; i++) {
      double t = start + i / rate;
      double lag = lag(t - ringing, cycles);
      double at = i + lag * rate;
      int k = 2 * (int) at;
      if (k + 3 >= band.length) {
        break;
      }
      double share = at - Math.floor(at);
      double w = 1 + Math.cos(Math.PI * (t - middle) / half);
      double ar = band[2 * i];
      double ai = band[2 * i + 1];
      double br = band[k] + share * (band[k + 2] - band[k]);
      double bi = band[k + 1] + share * (band[k + 3] - band[k + 1]);
      double c = Math.cos(2 * Math.PI * carrier * lag);
      double s = Math.sin(2 * Math.PI * carrier * lag);
      double alongRe = ar * br + ai * bi;
      double alongIm = ar * bi - ai * br;
      re += w * (alongRe * c - alongIm * s);
      im += w * (alongRe * s + alongIm * c);
      now += w * (ar * ar + ai * ai);
      then += w * (br * br + bi * bi);
    }
    return Math.hypot(re, im) / Math.sqrt(Math.max(1e-300, now * then));
  }

  /** Time until so many cycles have passed, s. */
  private double lag(double time, double cycles) {
    double later = cycles / tone.frequency(time);
    return tone.isSteady() ? later : Math.log1p(later * tone.glide()) / tone.glide();
  }
}
