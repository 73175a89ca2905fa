package cutaway.acoustics.driveunit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.Published;
import cutaway.acoustics.estimate.Estimate;
import org.junit.jupiter.api.Test;

/** Published truth: the copper rows of 14_constants.csv, computed from IEC 60028. */
class CopperTest {
  private static double published(String id) {
    return Published.value("14_constants.csv", id);
  }

  @Test
  void followsTheStandardsLine() {
    for (int t : new int[] {0, 50, 100, 150}) {
      // exact to the last printed digit
      assertThat(Copper.ratio(t)).isCloseTo(published("cu.ratio" + t), within(5e-5));
    }
  }

  @Test
  void tellsTheTemperatureFromTheRatio() {
    Estimate cold = Estimate.exact(20);
    assertThat(20 + Copper.warming(Estimate.exact(1.5), cold).value())
        .isCloseTo(published("cu.tau"), within(1e-7));
    // from 50 to 100 °C, by the ratio of the two rows
    double ratio = published("cu.ratio100") / published("cu.ratio50");
    Estimate rise = Copper.warming(new Estimate(ratio, 0.01), new Estimate(50, 2));
    assertThat(rise.value()).isCloseTo(50, within(0.02));
    double span = 1 / 0.00393 + 30;
    assertThat(rise.sd()).isCloseTo(Math.hypot(0.01 * span, (ratio - 1) * 2), within(1e-9));
  }
}
