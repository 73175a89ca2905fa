package cutaway.acoustics.stimulus;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;

class HarmonicsTest {
  private static final double[] LEVELS = {1, 0.03, 0.02, 0.004, 0.002};
  private static final Tone SWEEP = ExponentialSweep.of(15, 2000, 5, 0.25).tones().get(0);
  private static final Tone STEADY = new Tone(0.25, 2.25, 63, 0, 0, 1);

  private static double rms(double[] x, double from, double to) {
    double sum = 0;
    int n = 0;
    for (int i = (int) (from * Recorded.RATE); i < to * Recorded.RATE; i++) {
      sum += x[i] * x[i];
      n++;
    }
    return Math.sqrt(sum / n);
  }

  private static double[] left(double[] x, Tone tone, int orders) {
    double[] out = x.clone();
    Harmonics.takeOut(out, new ToneGrid(tone, Recorded.RATE, out.length), f -> orders);
    return out;
  }

  /** Levels and phases of a steady tone's harmonics, as they were put in. */
  @Test
  void tellsWhatASteadyToneHolds() {
    double[] x = Recorded.of(List.of(STEADY), 2.5, LEVELS, 0.2, 0, t -> 0);
    Harmonics found = Harmonics.of(x, Recorded.RATE, STEADY, 6);
    int middle = found.size() / 2;
    for (int h = 1; h <= 5; h++) {
      double[] r = Recorded.response(h * 63, 45, 0.2);
      assertThat(found.amplitude(middle, h))
          .isCloseTo(LEVELS[h - 1] * Math.hypot(r[0], r[1]), within(1e-6));
      // a sine of phase β is a cosine of β − 90°
      double phase = Math.atan2(r[1], r[0]) - Math.PI / 2;
      assertThat(Math.cos(found.phase(middle, h) - phase)).isCloseTo(1, within(1e-6));
    }
    assertThat(found.amplitude(middle, 6)).isLessThan(1e-9);
    assertThat(rms(left(x, STEADY, 6), 0.5, 2)).isLessThan(1e-8);
  }

  /** A sweep through a loudspeaker with distortion and an echo leaves next to nothing. */
  @Test
  void leavesLittleOfASweep() {
    double[] x = Recorded.of(List.of(SWEEP), 6, LEVELS, 0.2, 0, t -> 0);
    double[] left = left(x, SWEEP, 6);
    for (double f : new double[] {20, 45, 100, 400, 1500}) {
      double t = SWEEP.time(f);
      double share = rms(left, t - 0.05, t + 0.05) / rms(x, t - 0.05, t + 0.05);
      assertThat(20 * Math.log10(share)).as("left at %s Hz", f).isLessThan(f < 30 ? -45 : -55);
    }
  }

  /** What no low harmonic makes stays whole: strikes once a cycle, ringing at 3 kHz. */
  @Test
  void keepsStrikes() {
    double[] clean = Recorded.of(List.of(SWEEP), 6, LEVELS, 0.2, 0, t -> 0);
    double[] struck =
        Recorded.of(
            List.of(SWEEP),
            6,
            LEVELS,
            0.2,
            0,
            t -> {
              if (t < SWEEP.time(40) || t > SWEEP.time(80)) {
                return 0;
              }
              double cycle = SWEEP.cycles(t);
              double since = (cycle - Math.floor(cycle)) / SWEEP.frequency(t);
              return 0.01 * Math.exp(-since / 0.001) * Math.sin(2 * Math.PI * 3000 * since);
            });
    double[] strikes = new double[clean.length];
    for (int i = 0; i < strikes.length; i++) {
      strikes[i] = struck[i] - clean[i];
    }
    double from = SWEEP.time(45);
    double to = SWEEP.time(75);
    double kept = rms(left(struck, SWEEP, 6), from, to) / rms(strikes, from, to);
    assertThat(20 * Math.log10(kept)).isCloseTo(0, within(0.3));
  }

  @Test
  void goesNoHigherThanTheSampleRateBears() {
    Tone high = new Tone(0, 0.5, 9000, 0, 0, 1);
    double[] x = Recorded.of(List.of(high), 0.5, new double[] {1}, 0, 0, t -> 0);
    Harmonics found = Harmonics.of(x, Recorded.RATE, high, 8);
    assertThat(found.amplitude(found.size() / 2, 1)).isCloseTo(1, within(0.01));
    assertThat(found.amplitude(found.size() / 2, 3)).isZero();
  }
}
