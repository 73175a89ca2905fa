package cutaway.acoustics.knock;

import java.util.ArrayList;
import java.util.List;

/** What one band holds of a recording: the ringing after each tap, and the silence before. */
final class BandDecays {
  /** Over which a mode's share of what rings is taken, s. */
  static final double SHARE_TIME = 0.15;

  /** A decay this much shorter than the band's is not looked at. */
  private static final double LONG_ENOUGH = 0.4;

  /** Less silence than this tells nothing of the background, s. */
  private static final double LEAST_SILENCE = 0.05;

  /** Kept from the first tap, s. */
  private static final double BEFORE_TAP = 0.01;

  /** A decay that begins this much later than others, after clipping, tells no strength, s. */
  private static final double LATER = 1e-3;

  private final double[] samples;
  private final double fullRate;
  private final double rate;
  private final List<double[]> decays = new ArrayList<>();
  private final List<Double> starts = new ArrayList<>();
  private final List<Tap> taps = new ArrayList<>();
  private final double[] background;

  /** Mean square of the silence before the first tap. */
  private final double quiet;

  /**
   * Cuts the decays out.
   *
   * @param samples without rumble
   * @param rate Hz
   * @param good taps to use
   * @param silence up to this sample nothing was tapped
   */
  BandDecays(double[] samples, double rate, List<Tap> good, int silence, Band band) {
    this.samples = samples;
    this.fullRate = rate;
    this.rate = rate / band.step(rate);
    double start = band.start(rate);
    for (Tap tap : good) {
      double afterForce = tap.onset() + start * rate;
      double afterClipping = tap.clipped() + (start - band.delay()) * rate + 4;
      int from = (int) Math.rint(Math.max(afterForce, afterClipping));
      double end = Math.min(tap.end(), from + band.length() * rate);
      if (end - from > LONG_ENOUGH * band.length() * rate) {
        decays.add(band.decay(samples, rate, from, (int) end));
        starts.add((from - tap.onset()) / rate);
        taps.add(tap);
      }
    }
    int quietEnd = (int) Math.max(0, silence - BEFORE_TAP * rate);
    this.quiet = meanSquare(quietEnd / 4, quietEnd);
    this.background =
        quietEnd > LEAST_SILENCE * rate ? band.decay(samples, rate, 0, quietEnd) : new double[0];
  }

  private double meanSquare(int from, int to) {
    double sum = 0;
    for (int i = from; i < to; i++) {
      sum += samples[i] * samples[i];
    }
    return to > from ? sum / (to - from) : 0;
  }

  /** Samples of each, from some time after its force. */
  List<double[]> all() {
    return decays;
  }

  /** Number of decays. */
  int size() {
    return decays.size();
  }

  /** Of the decays, Hz. */
  double rate() {
    return rate;
  }

  /** From the onset of its tap to its first sample, s. */
  double start(int decay) {
    return starts.get(decay);
  }

  /**
   * Energy of a mode over that of all that rings in the same stretch after the taps, dB.
   *
   * @param amplitudes at the onsets, real and imaginary part of each
   * @param decay 1/s
   */
  double level(double[] amplitudes, double decay) {
    double soonest = starts.stream().mapToDouble(s -> s).min().orElse(0);
    double its = 0;
    double whole = 0;
    for (int d = 0; d < decays.size(); d++) {
      if (starts.get(d) < soonest + LATER) {
        Tap tap = taps.get(d);
        int to = (int) Math.min(tap.end(), tap.onset() + SHARE_TIME * fullRate);
        double time = (to - tap.onset()) / fullRate;
        double square = Math.pow(Math.hypot(amplitudes[2 * d], amplitudes[2 * d + 1]), 2);
        its += square / 2 * -Math.expm1(-2 * decay * time) / (2 * decay);
        whole += time * (meanSquare(tap.onset(), to) - quiet);
      }
    }
    return 10 * Math.log10(its / Math.max(whole, Double.MIN_NORMAL));
  }

  /** Density of the silence about a frequency, unit²/Hz; 0 where there was none. */
  double background(double frequency, double width) {
    return background.length == 0
        ? 0
        : Spectrum.density(
            background, rate, frequency, Math.max(width, 4 * rate / background.length));
  }
}
