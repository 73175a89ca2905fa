package cutaway.acoustics.stimulus;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class AlignmentTest {
  private static final ExponentialSweep SWEEP = ExponentialSweep.of(15, 2000, 5, 0.25);
  private static final double[] CLEAN = {1};

  /** The played signal itself, recorded late by a clock that runs otherwise. */
  private static double[] straight(TestSignal played, double delay, double drift, double seconds) {
    double[] out = new double[(int) (seconds * Recorded.RATE)];
    for (Tone tone : played.tones()) {
      Tone t = tone.recorded(delay, drift);
      for (int i = (int) (t.start() * Recorded.RATE) + 1; i < t.end() * Recorded.RATE; i++) {
        out[i] = tone.amplitude() * Math.sin(2 * Math.PI * t.cycles(i / Recorded.RATE));
      }
    }
    return out;
  }

  @ParameterizedTest
  @ValueSource(doubles = {-2e-4, -3e-5, 0, 5e-5, 2e-4})
  void clocksOfTwoDevices(double drift) {
    List<TestSignal> signals =
        List.of(
            SWEEP,
            new SteadyTone(63, List.of(0.3, 1.0), 1.6, 0.2, 0.25),
            new SteppedTones(List.of(20.0, 40.0, 80.0, 160.0), 1, 0.25, 1));
    for (TestSignal signal : signals) {
      Alignment found =
          Alignment.of(signal, straight(signal, 0.0213, drift, 6.5), Recorded.RATE, true)
              .orElseThrow();
      assertThat(found.drift()).isCloseTo(drift, within(1e-5));
      assertThat(found.likeness()).isGreaterThan(0.9);
      if (signal == SWEEP) {
        assertThat(found.delay()).isCloseTo(0.0213, within(1e-4));
      } else {
        // envelopes of tones are blunt
        assertThat(found.delay()).isCloseTo(0.0213, within(0.02));
      }
    }
  }

  /** Through a loudspeaker and a reflection a sweep's drift is told only where it is large. */
  @Test
  void loudspeakersDoNotSeemToDrift() {
    double[] x =
        Recorded.of(
            SWEEP.tones().stream().map(t -> t.recorded(0.03, 0)).toList(),
            6.5,
            CLEAN,
            0.2,
            1e-3,
            t -> 0);
    Alignment found = Alignment.of(SWEEP, x, Recorded.RATE, false).orElseThrow();
    assertThat(found.drift()).isZero();
    assertThat(found.driftUncertainty()).isGreaterThan(1e-4);
    assertThat(found.delay()).isCloseTo(0.03, within(0.001));
  }

  @Test
  void anotherSoundIsNotTaken() {
    Random random = new Random(9);
    double[] noise = random.doubles(300000).map(v -> v - 0.5).toArray();
    assertThat(Alignment.of(SWEEP, noise, Recorded.RATE, false)).isEmpty();
    assertThat(Alignment.of(SWEEP, new double[300000], Recorded.RATE, false)).isEmpty();
    TestSignal other = new SteadyTone(120, List.of(1.0), 3, 0, 0.25);
    assertThat(Alignment.of(SWEEP, other.samples(Recorded.RATE), Recorded.RATE, false)).isEmpty();
    assertThat(
            Alignment.of(
                new SteadyTone(63, List.of(0.3, 1.0), 1.6, 0.2, 0.25),
                other.samples(Recorded.RATE),
                Recorded.RATE,
                false))
        .isEmpty();
  }
}
