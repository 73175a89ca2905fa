package cutaway.acoustics.fault;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;

class MainsCombTest {
  private static final double RATE = 48000;

  /** Orders 1, 2, … of a mains, each so strong, in noise of 30 dB SPL that falls with frequency. */
  private static double[] hum(double mains, double[] rms, long seed) {
    Random random = new Random(seed);
    double[] x = new double[(int) (5 * RATE)];
    double slow = 0;
    for (int i = 0; i < x.length; i++) {
      slow += 0.03 * (random.nextGaussian() - slow);
      x[i] = 4e-3 * slow + 1e-4 * random.nextGaussian();
    }
    for (int k = 1; k <= rms.length; k++) {
      double phase = 6.28 * random.nextDouble();
      for (int i = 0; i < x.length; i++) {
        x[i] += rms[k - 1] * Math.sqrt(2) * Math.sin(2 * Math.PI * k * mains * i / RATE + phase);
      }
    }
    return x;
  }

  @Property(tries = 20)
  void mainsAndLevelsAreFound(
      @ForAll @IntRange(min = 0, max = 1) int grid,
      @ForAll @DoubleRange(min = -0.15, max = 0.15) double off) {
    double mains = (grid == 0 ? 50 : 60) + off;
    double[] rms = {2e-3, 1e-4, 1e-3, 0, 5e-4};
    MainsComb comb = MainsComb.of(hum(mains, rms, 3), RATE, OptionalDouble.empty());
    assertThat(comb.frequency()).isCloseTo(mains, within(0.02));
    for (int k : new int[] {1, 3, 5}) {
      assertThat(20 * Math.log10(comb.amplitude()[k - 1] / rms[k - 1])).isCloseTo(0, within(0.6));
      assertThat(comb.over()[k - 1]).isGreaterThan(MainsComb.CLEAR);
    }
    assertThat(comb.over()[3]).isLessThan(MainsComb.CLEAR);
    assertThat(comb.power(1, 2)).isGreaterThan(50 * comb.power(2, 2));
  }

  @Test
  void noiseHasNoComb() {
    int clear = 0;
    for (int seed = 1; seed <= 10; seed++) {
      clear +=
          MainsComb.of(hum(50, new double[0], seed), RATE, OptionalDouble.empty())
              .clear(1, MainsComb.ORDERS);
    }
    assertThat(clear).isZero();
  }

  @Test
  void tooShortASilenceIsRefused() {
    assertThatThrownBy(() -> MainsComb.of(new double[48000], RATE, OptionalDouble.empty()))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("two seconds");
  }

  /**
   * Channels recorded at once have one mains: where hardly any hum is, it is read where it must be.
   */
  @Test
  void channelsShareOneMains() {
    List<MainsComb> combs =
        MainsComb.of(
            List.of(hum(49.93, new double[0], 1), hum(49.93, new double[] {2e-3, 1e-3, 1e-3}, 2)),
            RATE,
            OptionalDouble.empty());
    assertThat(combs.get(1).frequency()).isCloseTo(49.93, within(0.02));
    assertThat(combs.get(0).frequency()).isEqualTo(combs.get(1).frequency());
    assertThat(combs.get(0).clear(1, MainsComb.ORDERS)).isZero();
    assertThat(combs.get(1).clear(1, 3)).isEqualTo(3);
  }
}
