package cutaway.acoustics.fault;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import org.junit.jupiter.api.Test;

class StrayToneTest {
  private static final double RATE = 48000;

  private static double[] noise(long seed) {
    Random random = new Random(seed);
    double[] x = new double[(int) (5 * RATE)];
    double slow = 0;
    for (int i = 0; i < x.length; i++) {
      slow += 0.03 * (random.nextGaussian() - slow);
      x[i] = 4e-3 * slow + 1e-4 * random.nextGaussian();
    }
    return x;
  }

  /** It wanders by two parts in a thousand; beside it hums the mains. */
  @Test
  void aWanderingToneIsFound() {
    double[] x = noise(1);
    double phase = 0;
    for (int i = 0; i < x.length; i++) {
      double f = 1370 * (1 + 0.002 * Math.sin(2 * Math.PI * 0.4 * i / RATE));
      phase += 2 * Math.PI * f / RATE;
      x[i] += 3e-4 * Math.sqrt(2) * Math.sin(phase);
      x[i] += 2e-3 * Math.sin(2 * Math.PI * 50 * i / RATE);
      x[i] += 2e-3 * Math.sin(2 * Math.PI * 250 * i / RATE);
    }
    List<StrayTone> found = StrayTone.of(x, RATE, OptionalDouble.of(50));
    assertThat(found).hasSize(1);
    assertThat(found.get(0).frequency()).isCloseTo(1370, within(5.0));
    assertThat(20 * Math.log10(found.get(0).amplitude() / 3e-4)).isCloseTo(0, within(1.5));
  }

  /** Neither noise nor a bird that sings now and then is one. */
  @Test
  void noiseAndPassingSoundsAreNone() {
    for (int seed = 1; seed <= 5; seed++) {
      double[] x = noise(seed);
      for (int i = 0; i < RATE; i++) {
        x[i] += 0.01 * Math.sin(2 * Math.PI * 2700 * i / RATE);
      }
      assertThat(StrayTone.of(x, RATE, OptionalDouble.of(50))).isEmpty();
    }
  }
}
