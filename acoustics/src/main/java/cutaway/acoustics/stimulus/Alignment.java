package cutaway.acoustics.stimulus;

import cutaway.acoustics.signal.Correlation;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

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

  /** So many samples a period are enough to tell a tone's place between them. */
  private static final double FINE = 8;

  private static final int MOST_DRAWN = 8;

  /** A prime, lest it be in step with anything. */
  private static final int SOME = 17;

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
    int every = every(played, rate);
    Correlation correlation =
        Correlation.of(means(played.samples(rate), every), means(recorded, every));
    int best = 0;
    double highest = 0;
    for (int i = 0; i < correlation.size(); i++) {
      double here = correlation.envelope(i);
      if (here > highest) {
        highest = here;
        best = i;
      }
    }
    boolean lost = isSweep(played) && highest < STANDS_OUT * usual(correlation);
    if (!(highest > LEAST_LIKENESS) || lost) {
      return Optional.empty();
    }
    int lag = every * correlation.lag(best);
    double[] drift = Drift.of(played.tones(), recorded, lag, rate);
    double sd = isSweep(played) && !straight ? Math.hypot(drift[1], THROUGH_AIR) : drift[1];
    double size = Math.abs(drift[0]);
    boolean runs = size > CLEAR * sd && size < GREATEST_DRIFT;
    double fine = runs ? drift[2] : every * between(correlation, best) / rate;
    return Optional.of(new Alignment(lag / rate + fine, runs ? drift[0] : 0, sd, highest));
  }

  /** Samples that may be drawn into one without loss for the highest of the tones. */
  private static int every(TestSignal played, double rate) {
    double highest =
        played.tones().stream()
            .mapToDouble(t -> Math.max(t.frequency(), t.frequency(t.end())))
            .max()
            .orElse(rate);
    return (int) Math.max(1, Math.min(MOST_DRAWN, rate / (FINE * highest)));
  }

  /** Mean of so many samples at a time. */
  private static double[] means(double[] x, int every) {
    double[] out = new double[x.length / every];
    for (int i = 0; i < out.length; i++) {
      for (int k = i * every; k < (i + 1) * every; k++) {
        out[i] += x[k] / every;
      }
    }
    return out;
  }

  /** Median of the envelope, from one place in so many. */
  private static double usual(Correlation correlation) {
    double[] some = new double[correlation.size() / SOME];
    for (int i = 0; i < some.length; i++) {
      some[i] = correlation.envelope(SOME * i);
    }
    Arrays.sort(some);
    return some[some.length / 2];
  }

  private static boolean isSweep(TestSignal played) {
    return played.tones().stream().anyMatch(t -> !t.isSteady());
  }

  /** The tones as they lie in the recording. */
  public List<Tone> recorded(TestSignal played) {
    return played.tones().stream().map(t -> t.recorded(delay, drift)).toList();
  }

  /** Where between samples the peak lies, by a parabola. */
  private static double between(Correlation correlation, int peak) {
    double before = correlation.envelope(peak - 1);
    double after = correlation.envelope(peak + 1);
    double bend = before - 2 * correlation.envelope(peak) + after;
    return bend < 0 ? 0.5 * (before - after) / bend : 0;
  }
}
