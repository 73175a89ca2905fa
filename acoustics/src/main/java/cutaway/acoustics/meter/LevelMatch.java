package cutaway.acoustics.meter;

import cutaway.acoustics.signal.Correlation;
import cutaway.acoustics.signal.CrossSpectrum;
import cutaway.acoustics.signal.Fft;
import java.util.Optional;

/**
 * By how much one recording is louder and later than another of the same sound.
 *
 * @param gain of the second over the first, greater than 0
 * @param gainUncertainty standard
 * @param delay of the second after the first, samples
 * @param delayUncertainty standard, samples
 * @param inverted whether its polarity is turned
 */
public record LevelMatch(
    double gain, double gainUncertainty, double delay, double delayUncertainty, boolean inverted) {
  /** Share of the louder recording's power that the match must explain. */
  private static final double RELATED = 0.1;

  /** Share of a stretch over which it is faded in and out. */
  private static final double FADE = 0.02;

  /**
   * Matches by least squares of b(t) − g a(t − τ), the noise all in b.
   *
   * @param a samples
   * @param b samples at the same rate
   * @return absent where the two have little in common
   */
  public static Optional<LevelMatch> of(double[] a, double[] b) {
    int lag = lag(a, b);
    int from = Math.max(0, -lag);
    int to = Math.min(a.length, b.length - lag);
    if (to - from < 16) {
      return Optional.empty();
    }
    int size = CrossSpectrum.roomyLength(to - from);
    return new Overlap(
            spectrum(a, from, to - from, size), spectrum(b, from + lag, to - from, size), size)
        .match(lag);
  }

  /** Samples by which b comes after a, to a whole one. */
  private static int lag(double[] a, double[] b) {
    Correlation correlation = Correlation.of(a, b);
    int best = 0;
    for (int i = 1; i < correlation.size(); i++) {
      if (Math.abs(correlation.value(i)) > Math.abs(correlation.value(best))) {
        best = i;
      }
    }
    return correlation.lag(best);
  }

  private static double[] spectrum(double[] x, int from, int n, int size) {
    double[] out = new double[size];
    double fade = Math.max(1, FADE * n);
    for (int i = 0; i < n; i++) {
      double edge = Math.min(1, (Math.min(i, n - 1 - i) + 0.5) / fade);
      out[i] = x[from + i] * edge * edge * (3 - 2 * edge);
    }
    Fft.of(size).realForward(out);
    return out;
  }

  /** The stretch both have, as spectra. */
  private record Overlap(Spectra spectra, int size) {
    Overlap(double[] a, double[] b, int size) {
      this(new Spectra(a, b), size);
    }

    private double omega(int k) {
      return Math.PI * k / size;
    }

    Optional<LevelMatch> match(int lag) {
      double tau = 0;
      for (int step = 0; step < 12; step++) {
        double slope = 0;
        double bend = 0;
        for (int k = 2; k < size; k += 2) {
          double w = omega(k);
          slope -= w * spectra.im(k, w * tau);
          bend -= w * w * spectra.re(k, w * tau);
        }
        if (bend == 0) {
          return Optional.empty();
        }
        tau -= Math.max(-0.5, Math.min(0.5, slope / bend));
      }
      return ended(lag, tau);
    }

    private Optional<LevelMatch> ended(int lag, double tau) {
      double common = 0;
      double first = 0;
      double second = 0;
      for (int k = 2; k < size; k += 2) {
        common += spectra.re(k, omega(k) * tau);
        first += spectra.first(k);
        second += spectra.second(k);
      }
      if (!(common * common > RELATED * first * second)) {
        return Optional.empty();
      }
      double gain = common / first;
      double noiseInGain = 0;
      double noiseInDelay = 0;
      double steepness = 0;
      for (int k = 2; k < size; k += 2) {
        double w = omega(k);
        double left =
            spectra.second(k) - 2 * gain * spectra.re(k, w * tau) + gain * gain * spectra.first(k);
        noiseInGain += left * spectra.first(k) / 2;
        noiseInDelay += left * w * w * spectra.first(k) / 2;
        steepness += w * w * spectra.first(k);
      }
      return Optional.of(
          new LevelMatch(
              Math.abs(gain),
              Math.sqrt(noiseInGain) / first,
              lag + tau,
              Math.sqrt(noiseInDelay) / (steepness * Math.abs(gain)),
              gain < 0));
    }
  }

  @SuppressWarnings("ArrayRecordComponent") // never compared
  private record Spectra(double[] a, double[] b) {
    /** Of conj(A) B turned on by an angle. */
    double re(int k, double angle) {
      double re = a[k] * b[k] + a[k + 1] * b[k + 1];
      double im = a[k] * b[k + 1] - a[k + 1] * b[k];
      return re * Math.cos(angle) - im * Math.sin(angle);
    }

    double im(int k, double angle) {
      double re = a[k] * b[k] + a[k + 1] * b[k + 1];
      double im = a[k] * b[k + 1] - a[k + 1] * b[k];
      return im * Math.cos(angle) + re * Math.sin(angle);
    }

    double first(int k) {
      return a[k] * a[k] + a[k + 1] * a[k + 1];
    }

    double second(int k) {
      return b[k] * b[k] + b[k + 1] * b[k + 1];
    }
  }
}
