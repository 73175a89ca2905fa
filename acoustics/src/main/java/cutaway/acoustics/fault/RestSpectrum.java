package cutaway.acoustics.fault;

import cutaway.acoustics.meter.FrequencyWeighting;
import java.util.Arrays;

/**
 * What is heard while nothing plays, for a picture: of each narrow stretch of frequency the
 * strongest line, as the level of a tone.
 *
 * @param frequencies of those lines, ascending, Hz
 * @param levels dB SPL
 */
@SuppressWarnings("ArrayRecordComponent") // never compared
public record RestSpectrum(double[] frequencies, double[] levels) {
  /** Lines are so fine that multiples of the mains stand alone, s. */
  private static final double LENGTH = 1;

  private static final double LOWEST = 20;
  private static final double HIGHEST = 16000;

  /** Stretches for each octave. */
  private static final int PER_OCTAVE = 36;

  /**
   * Of a microphone's channel.
   *
   * @param samples Pa, at least {@value #LENGTH} s of them
   * @param rate samples per second
   */
  static RestSpectrum of(double[] samples, double rate) {
    int n = (int) (LENGTH * rate);
    double[] power = mean(samples, n);
    double spacing = rate / n;
    double[] frequencies = new double[power.length];
    double[] levels = new double[power.length];
    int count = 0;
    int next = (int) Math.ceil(LOWEST / spacing);
    while (next < power.length && next * spacing <= HIGHEST) {
      int last = (int) Math.max(next + 1.0, Math.ceil(next * Math.pow(2, 1.0 / PER_OCTAVE)));
      int best = next;
      for (int k = next; k < Math.min(last, power.length); k++) {
        best = power[k] > power[best] ? k : best;
      }
      frequencies[count] = best * spacing;
      levels[count++] =
          10 * Math.log10(power[best] + 1e-20) - 20 * Math.log10(FrequencyWeighting.REFERENCE);
      next = last;
    }
    return new RestSpectrum(Arrays.copyOf(frequencies, count), Arrays.copyOf(levels, count));
  }

  /** Of stretches that overlap by half. */
  private static double[] mean(double[] samples, int n) {
    int stretches = Math.max(1, 2 * (samples.length / n) - 1);
    double[] out = new double[n / 2];
    for (int s = 0; s < stretches; s++) {
      double[] lines = LinePower.of(samples, s * (n / 2), n, n);
      for (int k = 0; k < out.length; k++) {
        out[k] += lines[k] / stretches;
      }
    }
    return out;
  }
}
