package cutaway.acoustics.meter;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;

class LevelMatchTest {
  /** Many tones below 15 kHz, so that any delay can be written down exactly. */
  private static double[] sound(int n, double delay, double gain, double noise, long seed) {
    Random tones = new Random(7);
    double[] x = new double[n];
    for (int k = 0; k < 60; k++) {
      double w = 2 * Math.PI * (50 + 15000 * tones.nextDouble()) / 48000;
      double phase = 6.28 * tones.nextDouble();
      for (int i = 0; i < n; i++) {
        x[i] += gain * Math.sin(w * (i - delay) + phase) / 10;
      }
    }
    Random random = new Random(seed);
    for (int i = 0; i < n; i++) {
      x[i] += noise * random.nextGaussian();
    }
    return x;
  }

  @Test
  void findsGainDelayAndPolarity() {
    for (double delay : new double[] {-361, -280.1524, 0, 0.5, 275.8832}) {
      LevelMatch match =
          LevelMatch.of(sound(60000, 0, 1, 0, 0), sound(60000, delay, -0.71, 0, 0)).orElseThrow();
      assertThat(match.inverted()).isTrue();
      assertThat(match.delay()).isCloseTo(delay, within(0.005));
      assertThat(20 * Math.log10(match.gain() / 0.71)).isCloseTo(0, within(0.01));
    }
  }

  /** Two of three lie within one standard uncertainty. */
  @Test
  void saysHowSureItIs() {
    int near = 0;
    double[] a = sound(20000, 0, 1, 0, 0);
    for (int seed = 1; seed <= 60; seed++) {
      LevelMatch match = LevelMatch.of(a, sound(20000, 12.25, 1.3, 0.1, seed)).orElseThrow();
      near += Math.abs(match.gain() - 1.3) < match.gainUncertainty() ? 1 : 0;
      near += Math.abs(match.delay() - 12.25) < match.delayUncertainty() ? 1 : 0;
    }
    assertThat(near).isBetween(66, 98);
  }

  @Test
  void unrelatedSoundsHaveNoMatch() {
    Random random = new Random(5);
    double[] a = random.doubles(30000).map(v -> v - 0.5).toArray();
    double[] b = random.doubles(30000).map(v -> v - 0.5).toArray();
    assertThat(LevelMatch.of(a, b)).isEmpty();
    assertThat(LevelMatch.of(a, new double[30000])).isEmpty();
    assertThat(LevelMatch.of(new double[4], b)).isEmpty();
  }
}
