package cutaway.acoustics.fault;

import cutaway.acoustics.signal.CrossSpectrum;
import cutaway.acoustics.signal.Fft;
import java.util.Arrays;
import java.util.function.DoubleUnaryOperator;
import org.jtransforms.fft.DoubleFFT_1D;

/**
 * The linear path from one channel to another, told by all that a take holds: H = S₁₂/S₁₁ summed
 * over stretches under a Hann window (J. S. Bendat and A. G. Piersol, Random Data, from memory),
 * its response in time cut off after what a box and the first reflections need. {@code
 * docs/methods/noise.md}.
 */
final class LinearPath {
  /**
   * Lengths, s. The shorter a stretch against what comes late, the more of that is missed; it must
   * hold what is sent in one go.
   *
   * @param stretch that is transformed, at least
   * @param ahead before which the response is none
   * @param lasts where it has died away
   */
  record Span(double stretch, double ahead, double lasts) {}

  /** Of a sweep, channels sampled together: what comes ahead is rounding. */
  static final Span SWEEP = new Span(0.15, 0.001, 0.12);

  /** Of music, whose place in a recording is known to some milliseconds. */
  static final Span MUSIC = new Span(1.2, 0.02, 0.5);

  /** Bins in which the first channel is softer than this against its loudest tell nothing. */
  private static final double FAINT = 1e-14;

  /** Share of the power that must have come along it for it to be known. */
  private static final double KNOWN = 0.95;

  /** Times that what is left over is learned from: each takes off most of what the last missed. */
  private static final int AGAIN = 3;

  /** A stretch with so much more left over than the middle one counts half. */
  private static final double OUTLYING = 4;

  private final CrossSpectrum spectrum;
  private final double[] response;
  private final int ahead;
  private final int lasts;

  /**
   * Of two channels sampled together.
   *
   * @param from samples, at least as many as make one stretch
   * @param to samples, as many
   * @param rate samples a second
   * @param span how long it may be, and what it is learned from
   * @param weight of a moment, s; 0 where it is not to be learned from
   */
  LinearPath(double[] from, double[] to, double rate, Span span, DoubleUnaryOperator weight) {
    int length = length(span, rate);
    this.spectrum = new CrossSpectrum(length, rate, rate / 2);
    double[] hann = CrossSpectrum.hann(length);
    for (int at = 0; at + length <= from.length; at += length / 4) {
      double w = weight.applyAsDouble((at + length / 2) / rate);
      if (w > 0) {
        spectrum.add(windowed(from, at, hann, w), windowed(to, at, hann, w));
      }
    }
    this.response = spectrum.response(FAINT);
    this.ahead = (int) Math.ceil(span.ahead * rate);
    this.lasts = (int) Math.ceil(span.lasts * rate);
  }

  private LinearPath(LinearPath one, LinearPath more) {
    this.spectrum = one.spectrum;
    this.response = one.response.clone();
    for (int i = 0; i < response.length; i++) {
      response[i] += more.response[i];
    }
    this.ahead = one.ahead;
    this.lasts = one.lasts;
  }

  /**
   * The same learned again and again from what is left over, as a stretch misses some of what comes
   * late, with less weight on stretches in which something else sounds.
   */
  static LinearPath refined(double[] from, double[] to, double rate, Span span) {
    LinearPath out = new LinearPath(from, to, rate, span, t -> 1);
    for (int i = 0; i < AGAIN; i++) {
      double[] left = minus(to, out.through(from));
      out = new LinearPath(out, new LinearPath(from, left, rate, span, weights(left, rate, span)));
    }
    return out;
  }

  private static int length(Span span, double rate) {
    return CrossSpectrum.roomyLength((int) Math.ceil(span.stretch * rate));
  }

  private static double[] minus(double[] x, double[] y) {
    double[] out = x.clone();
    for (int i = 0; i < out.length; i++) {
      out[i] -= y[i];
    }
    return out;
  }

  /** By what is left over of the stretch about a moment, high frequencies more than low ones. */
  private static DoubleUnaryOperator weights(double[] left, double rate, Span span) {
    int length = length(span, rate);
    int step = length / 4;
    double[] power = new double[Math.max(1, (left.length - length) / step + 1)];
    for (int s = 0; s < power.length; s++) {
      for (int i = s * step + 1; i < Math.min(left.length, s * step + length); i++) {
        double rise = left[i] - left[i - 1];
        power[s] += rise * rise;
      }
    }
    double[] sorted = power.clone();
    Arrays.sort(sorted);
    double usual = OUTLYING * sorted[sorted.length / 2];
    return t -> {
      int s = (int) Math.rint((t * rate - length / 2.0) / step);
      double over = power[Math.max(0, Math.min(power.length - 1, s))] / Math.max(1e-300, usual);
      return 1 / (1 + over * over);
    };
  }

  private static double[] windowed(double[] x, int at, double[] window, double weight) {
    double root = Math.sqrt(weight);
    double[] out = new double[window.length];
    for (int i = 0; i < out.length; i++) {
      out[i] = root * x[at + i] * window[i];
    }
    return out;
  }

  /** Whether what it was learned from came along it, between two frequencies in Hz. */
  boolean isKnown(double low, double high) {
    return spectrum.explained(low, high) > KNOWN;
  }

  /** What arrives of something that is sent through it, as many samples. */
  double[] through(double[] x) {
    int size = CrossSpectrum.roomyLength(x.length + lasts + ahead);
    double[] path = new double[size];
    for (int i = 0; i < lasts; i++) {
      path[i] = response[i] * fade((double) i / lasts);
    }
    for (int i = 1; i <= ahead; i++) {
      path[size - i] = response[response.length - i] * fade((double) i / (ahead + 1));
    }
    double[] y = Arrays.copyOf(x, size);
    DoubleFFT_1D fft = Fft.of(size);
    fft.realForward(path);
    fft.realForward(y);
    y[0] *= path[0];
    y[1] *= path[1];
    for (int k = 1; k < size / 2; k++) {
      double re = y[2 * k] * path[2 * k] - y[2 * k + 1] * path[2 * k + 1];
      y[2 * k + 1] = y[2 * k] * path[2 * k + 1] + y[2 * k + 1] * path[2 * k];
      y[2 * k] = re;
    }
    fft.realInverse(y, true);
    return Arrays.copyOf(y, x.length);
  }

  /** One over the first half, then down to nothing. */
  private static double fade(double share) {
    return share < 0.5 ? 1 : 0.5 - 0.5 * Math.cos(2 * Math.PI * share);
  }
}
