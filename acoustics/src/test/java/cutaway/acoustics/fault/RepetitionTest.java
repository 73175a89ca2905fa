package cutaway.acoustics.fault;

import static org.assertj.core.api.Assertions.assertThat;

import cutaway.acoustics.stimulus.Tone;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;

class RepetitionTest {
  private static final double RATE = 48000;
  private static final Tone SWEEP = new Tone(0, 5, 15, Math.log(2000 / 15.0) / 5, 0, 1);

  private static double share(Tone tone, double time, double centre, DoubleUnaryOperator sound) {
    Random random = new Random(5);
    double[] x = new double[(int) (5 * RATE)];
    for (int i = 0; i < x.length; i++) {
      x[i] = 1e-3 * random.nextGaussian() + sound.applyAsDouble(i / RATE);
    }
    double half = Math.max(0.03, 4 / tone.frequency(time));
    double reach = Repetition.reach(tone, time, half);
    int from = (int) ((time - reach) * RATE);
    int to = (int) ((time + reach) * RATE);
    return new Repetition(x, RATE, from, to, OctaveBands.at(centre), tone).share(time, half);
  }

  /** Rings at a frequency for some ms from each beginning of a cycle. */
  private static DoubleUnaryOperator strikes(Tone tone, double ring, double decay) {
    return t -> {
      double cycle = tone.cycles(t);
      double since = (cycle - Math.floor(cycle)) / tone.frequency(t);
      return Math.exp(-since / decay) * Math.sin(2 * Math.PI * ring * since);
    };
  }

  @Test
  void blowsInStepRepeatWhetherTheToneStandsOrGlides() {
    Tone steady = new Tone(0, 5, 66, 0, 0.3, 1);
    assertThat(share(steady, 2, 2000, strikes(steady, 2100, 0.004))).isGreaterThan(0.98);
    for (double f : new double[] {40, 90, 250, 600}) {
      double time = SWEEP.time(f);
      assertThat(share(SWEEP, time, 4000, strikes(SWEEP, 3800, 0.001))).isGreaterThan(0.8);
    }
  }

  @Test
  void breathAndATickDoNot() {
    Random random = new Random(6);
    double time = SWEEP.time(60);
    assertThat(
            share(
                SWEEP,
                time,
                2000,
                t -> Math.pow(Math.sin(Math.PI * SWEEP.cycles(t)), 2) * random.nextGaussian()))
        .isLessThan(0.35);
    for (double f : new double[] {60, 444}) {
      double at = SWEEP.time(f);
      assertThat(
              share(
                  SWEEP,
                  at,
                  2000,
                  t ->
                      t < at
                          ? 0
                          : Math.exp((at - t) / 0.004) * Math.sin(2 * Math.PI * 2100 * (t - at))))
          .isLessThan(0.2);
    }
  }
}
