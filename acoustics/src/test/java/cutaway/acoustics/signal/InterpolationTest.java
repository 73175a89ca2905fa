package cutaway.acoustics.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class InterpolationTest {
  private static double[] sine(double cyclesASample, int n) {
    double[] out = new double[n];
    for (int i = 0; i < n; i++) {
      out[i] = Math.sin(2 * Math.PI * cyclesASample * i + 0.3);
    }
    return out;
  }

  /** A sine is known between its samples. */
  @ParameterizedTest
  @CsvSource({"0.001, 1.0001", "0.1, 0.25", "0.33, 0.9998", "0.43, 0.25", "0.43, 1.0002"})
  void aSineIsTrueBetweenItsSamples(double frequency, double step) {
    double[] found = Interpolation.at(sine(frequency, 2000), 100.37, step, 1500);
    for (int i = 0; i < found.length; i++) {
      double exact = Math.sin(2 * Math.PI * frequency * (100.37 + i * step) + 0.3);
      assertThat(found[i]).isCloseTo(exact, within(1e-3));
    }
  }

  @Test
  void atItsOwnPlacesItIsTheSoundItself() {
    double[] x = sine(0.2, 300);
    assertThat(Interpolation.at(x, 0, 1, 300)).containsExactly(x, within(1e-12));
  }

  /** Half the rate: 0.1 stays, 0.4 would come back as 0.2 and is left out. */
  @Test
  void whatIsTooHighForLongStepsIsLeftOut() {
    double[] low = Interpolation.at(sine(0.1, 2000), 200, 2, 800);
    double[] high = Interpolation.at(sine(0.4, 2000), 200, 2, 800);
    for (int i = 0; i < 800; i++) {
      double exact = Math.sin(2 * Math.PI * 0.1 * (200 + 2 * i) + 0.3);
      assertThat(low[i]).isCloseTo(exact, within(2e-3));
      assertThat(high[i]).isCloseTo(0, within(2e-3));
    }
  }

  @Test
  void outsideThereIsNothing() {
    assertThat(Interpolation.at(new double[] {1, 1, 1}, 100, 1, 5)).containsOnly(0);
    assertThat(Interpolation.at(new double[0], 0, 1, 3)).containsOnly(0);
  }
}
