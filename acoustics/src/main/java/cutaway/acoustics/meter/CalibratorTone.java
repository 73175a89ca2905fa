package cutaway.acoustics.meter;

import java.util.Arrays;
import java.util.Optional;

/**
 * The tone of a sound calibrator, found where it stands steadily in a recording.
 *
 * @param frequency Hz
 * @param amplitude root mean square, in the unit of the samples
 * @param uncertainty of the amplitude, standard, relative: how it wavers and what is beside it
 */
public record CalibratorTone(double frequency, double amplitude, double uncertainty) {
  /** Length of the pieces that are looked at, s; each holds 25 periods of 250 Hz. */
  private static final double PIECE = 0.1;

  /** How far the frequency may lie off, and a piece's amplitude off the others', relative. */
  private static final double OFF = 0.05;

  private static final int LEAST_PIECES = 8;

  /**
   * Looks for it.
   *
   * @param samples one channel
   * @param rate samples per second
   * @param nominal what the calibrator is said to give, Hz
   * @return absent where no tone of some 0.8 s stands near that frequency, clear of all else
   */
  public static Optional<CalibratorTone> of(double[] samples, double rate, double nominal) {
    int length = (int) Math.rint(PIECE * rate);
    int pieces = samples.length / length;
    if (pieces < LEAST_PIECES) {
      return Optional.empty();
    }
    double frequency = loudest(samples, rate, nominal);
    // the phase's advance from piece to piece tells the frequency far better than a spectrum's line
    for (int pass = 0; pass < 3; pass++) {
      ToneFit[] fits = fits(samples, length, pieces, frequency / rate);
      int[] steady = steady(fits);
      if (steady[1] - steady[0] < LEAST_PIECES) {
        return Optional.empty();
      }
      frequency += drift(fits, steady) * rate / length;
      if (Math.abs(frequency / nominal - 1) > OFF) {
        return Optional.empty();
      }
    }
    ToneFit[] fits = fits(samples, length, pieces, frequency / rate);
    return told(fits, steady(fits), frequency);
  }

  private static Optional<CalibratorTone> told(ToneFit[] fits, int[] steady, double frequency) {
    int n = steady[1] - steady[0];
    if (n < LEAST_PIECES) {
      return Optional.empty();
    }
    double[] amplitude =
        Arrays.stream(fits, steady[0], steady[1]).mapToDouble(ToneFit::amplitude).toArray();
    double mean = Arrays.stream(amplitude).average().orElseThrow();
    double scatter =
        Math.sqrt(Arrays.stream(amplitude).map(a -> (a - mean) * (a - mean)).sum() / (n - 1));
    double left = Arrays.stream(fits, steady[0], steady[1]).mapToDouble(ToneFit::left).sum() / n;
    if (left > mean * mean / 2) {
      return Optional.empty();
    }
    return Optional.of(
        new CalibratorTone(frequency, mean / Math.sqrt(2), scatter / mean / Math.sqrt(n)));
  }

  /** Frequency of the highest line within reach of the nominal one. */
  private static double loudest(double[] samples, double rate, double nominal) {
    PowerSpectrum spectrum = PowerSpectrum.of(samples, rate);
    int best = (int) Math.ceil(nominal * (1 - OFF) / spectrum.spacing());
    for (int k = best; k * spectrum.spacing() < nominal * (1 + OFF) && k < spectrum.size(); k++) {
      if (spectrum.power(k) > spectrum.power(best)) {
        best = k;
      }
    }
    return best * spectrum.spacing();
  }

  private static ToneFit[] fits(double[] x, int length, int pieces, double cyclesPerSample) {
    ToneFit[] out = new ToneFit[pieces];
    for (int p = 0; p < pieces; p++) {
      out[p] = ToneFit.of(x, p * length, length, cyclesPerSample);
    }
    return out;
  }

  /** The longest row of pieces of nearly one amplitude, that of the louder ones. */
  private static int[] steady(ToneFit[] fits) {
    double[] sorted = Arrays.stream(fits).mapToDouble(ToneFit::amplitude).sorted().toArray();
    double usual = sorted[(int) (0.75 * (sorted.length - 1))];
    int[] best = {0, 0};
    int from = 0;
    for (int p = 0; p <= fits.length; p++) {
      if (p == fits.length || Math.abs(fits[p].amplitude() / usual - 1) > OFF) {
        if (p - from > best[1] - best[0]) {
          best = new int[] {from, p};
        }
        from = p + 1;
      }
    }
    return best;
  }

  /** Mean advance of phase over that expected, cycles a piece. */
  private static double drift(ToneFit[] fits, int[] steady) {
    double re = 0;
    double im = 0;
    for (int p = steady[0] + 1; p < steady[1]; p++) {
      re += fits[p].re() * fits[p - 1].re() + fits[p].im() * fits[p - 1].im();
      im += fits[p].im() * fits[p - 1].re() - fits[p].re() * fits[p - 1].im();
    }
    return Math.atan2(im, re) / (2 * Math.PI);
  }
}
