package cutaway.acoustics.fault;

import cutaway.acoustics.signal.CrossSpectrum;
import cutaway.acoustics.signal.Fft;
import java.util.Arrays;
import java.util.function.DoublePredicate;
import org.jtransforms.fft.DoubleFFT_1D;

/**
 * The linear path from one channel to another, told by all that a take holds: H = S₁₂/S₁₁ summed
 * over stretches under a Hann window (J. S. Bendat and A. G. Piersol, Random Data, from memory),
 * its response in time cut off after what a box and the first reflections need. {@code
 * docs/methods/noise.md}.
 */
final class LinearPath {
  /** Stretch that is transformed, s, at least. */
  private static final double STRETCH = 0.15;

  /** Where the response has died away, s. */
  private static final double LASTS = 0.12;

  /** Before which it is none: rounding of the delay of channels that are sampled together, s. */
  private static final double AHEAD = 0.001;

  /** Bins in which the first channel is softer than this against its loudest tell nothing. */
  private static final double FAINT = 1e-14;

  /** Share of the power that must have come along it for it to be known. */
  private static final double KNOWN = 0.95;

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
   * @param counts whether it is to be learned from a moment, s
   */
  LinearPath(double[] from, double[] to, double rate, DoublePredicate counts) {
    int length = CrossSpectrum.roomyLength((int) Math.ceil(STRETCH * rate));
    this.spectrum = new CrossSpectrum(length, rate, rate / 2);
    double[] hann = CrossSpectrum.hann(length);
    for (int at = 0; at + length <= from.length; at += length / 4) {
      if (counts.test((at + length / 2) / rate)) {
        spectrum.add(windowed(from, at, hann), windowed(to, at, hann));
      }
    }
    this.response = spectrum.response(FAINT);
    this.ahead = (int) Math.ceil(AHEAD * rate);
    this.lasts = (int) Math.ceil(LASTS * rate);
  }

  private static double[] windowed(double[] x, int at, double[] window) {
    double[] out = new double[window.length];
    for (int i = 0; i < out.length; i++) {
      out[i] = x[at + i] * window[i];
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
