package cutaway.acoustics.stimulus;

import cutaway.acoustics.signal.CrossSpectrum;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.jtransforms.fft.DoubleFFT_1D;

/**
 * Where a test signal lies in a recording.
 *
 * @param delay of the recording's signal against the played one at time 0, s
 * @param drift share by which the recording's clock runs faster than the player's
 * @param driftUncertainty standard
 * @param likeness correlation of the envelopes at best, 0 to 1
 */
public record Alignment(double delay, double drift, double driftUncertainty, double likeness) {
  /** Correlation over its usual size elsewhere, below which the signal is not in the recording. */
  private static final double STANDS_OUT = 6;

  /** Below this the recording is of something else. */
  private static final double LEAST_LIKENESS = 0.25;

  /** What the phase of loudspeaker and room lets a sweep's drift seem to be, standard. */
  private static final double THROUGH_AIR = 1.5e-4;

  /** A drift below so many standard uncertainties is none. */
  private static final double CLEAR = 3;

  /** Clocks that differ by more are no clocks. */
  private static final double GREATEST_DRIFT = 1e-3;

  /**
   * Looks for a test signal of tones.
   *
   * @param played as it was played
   * @param recorded samples of the channel that hears it best
   * @param rate samples per second
   * @param straight whether the channel holds the played voltage rather than what became of it
   * @return absent where the recording does not hold it
   */
  public static Optional<Alignment> of(
      TestSignal played, double[] recorded, double rate, boolean straight) {
    double[] correlation = envelope(played.samples(rate), recorded);
    int best = 0;
    for (int i = 1; i < correlation.length; i++) {
      if (correlation[i] > correlation[best]) {
        best = i;
      }
    }
    double[] sorted = correlation.clone();
    Arrays.sort(sorted);
    double usual = sorted[sorted.length / 2];
    boolean lost = isSweep(played) && correlation[best] < STANDS_OUT * usual;
    if (!(correlation[best] > LEAST_LIKENESS) || lost) {
      return Optional.empty();
    }
    int lag = best < recorded.length ? best : best - correlation.length;
    double[] drift = Drift.of(played.tones(), recorded, lag, rate);
    double sd = isSweep(played) && !straight ? Math.hypot(drift[1], THROUGH_AIR) : drift[1];
    double size = Math.abs(drift[0]);
    boolean runs = size > CLEAR * sd && size < GREATEST_DRIFT;
    double fine = runs ? drift[2] : between(correlation, best) / rate;
    return Optional.of(
        new Alignment(lag / rate + fine, runs ? drift[0] : 0, sd, correlation[best]));
  }

  private static boolean isSweep(TestSignal played) {
    return played.tones().stream().anyMatch(t -> !t.isSteady());
  }

  /** The tones as they lie in the recording. */
  public List<Tone> recorded(TestSignal played) {
    return played.tones().stream().map(t -> t.recorded(delay, drift)).toList();
  }

  /**
   * Envelope of the correlation over every lag, 1 where the recording is the signal and no more.
   */
  private static double[] envelope(double[] played, double[] recorded) {
    int size = CrossSpectrum.roomyLength(played.length + recorded.length);
    DoubleFFT_1D fft = new DoubleFFT_1D(size);
    double[] a = Arrays.copyOf(played, size);
    double[] b = Arrays.copyOf(recorded, size);
    double power = square(played) * square(recorded);
    fft.realForward(a);
    fft.realForward(b);
    double[] c = new double[2 * size];
    for (int k = 2; k < size; k += 2) {
      c[k] = b[k] * a[k] + b[k + 1] * a[k + 1];
      c[k + 1] = b[k + 1] * a[k] - b[k] * a[k + 1];
    }
    fft.complexInverse(c, true);
    double[] out = new double[size];
    for (int i = 0; i < size; i++) {
      out[i] = power > 0 ? 2 * Math.hypot(c[2 * i], c[2 * i + 1]) / Math.sqrt(power) : 0;
    }
    return out;
  }

  private static double square(double[] x) {
    double sum = 0;
    for (double v : x) {
      sum += v * v;
    }
    return sum;
  }

  /** Where between samples the peak lies, by a parabola. */
  private static double between(double[] x, int peak) {
    double before = x[(peak + x.length - 1) % x.length];
    double after = x[(peak + 1) % x.length];
    double bend = before - 2 * x[peak] + after;
    return bend < 0 ? 0.5 * (before - after) / bend : 0;
  }
}
