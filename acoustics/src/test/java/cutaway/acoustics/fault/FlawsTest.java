package cutaway.acoustics.fault;

import static org.assertj.core.api.Assertions.assertThat;

import cutaway.acoustics.stimulus.SteadyTone;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;

class FlawsTest {
  private static final SteadyTone TONE = new SteadyTone(40, List.of(1.0), 2, 0, 0.25);

  private static Flaws flaws(double limit, int gap) {
    double[] x = TONE.samples(48000);
    Random random = new Random(5);
    for (int i = 0; i < x.length; i++) {
      x[i] = Math.max(-limit, Math.min(limit, x[i])) + 1e-4 * random.nextGaussian();
    }
    Arrays.fill(x, 30000, 30000 + gap, 0);
    NoiseTake take =
        new NoiseTake(Optional.of(TONE), Intervention.NONE, 48000, Map.of(Sensor.CONE, x));
    return Flaws.of(take, TONE.tones());
  }

  @Test
  void aSineRestsAsLongAsASine() {
    assertThat(flaws(2, 0).cutOff().orElseThrow()).isBetween(0.5, 1.5);
    assertThat(flaws(2, 0).frozen()).isLessThan(4);
  }

  /** Cut off at 0.8 it rests arccos 0.8 / arccos 0.998 times as long. */
  @Test
  void overloadBeforeTheConverterIsSeenUnderItsNoise() {
    double longer = Math.acos(0.8) / Math.acos(0.998);
    assertThat(flaws(0.8, 0).cutOff().orElseThrow()).isBetween(0.8 * longer, 1.2 * longer);
  }

  @Test
  void aGapIsARunOfEqualSamples() {
    assertThat(flaws(2, 700).frozen()).isEqualTo(700);
  }
}
