package cutaway.acoustics.hearing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.Published;
import java.util.Map;
import org.junit.jupiter.api.Test;

class HearingThresholdTest {
  @Test
  void isTheStandards() {
    for (Map<String, String> row : Published.rows("09_iso226_parameters.csv")) {
      double f = Double.parseDouble(row.getOrDefault("f_Hz", ""));
      double level = Double.parseDouble(row.getOrDefault("Tf_2023_dB", ""));
      assertThat(HearingThreshold.at(f)).isCloseTo(level, within(1e-9));
    }
  }

  @Test
  void liesBetweenItsNeighboursElsewhere() {
    assertThat(HearingThreshold.at(Math.sqrt(200 * 250.0)))
        .isCloseTo((HearingThreshold.at(200) + HearingThreshold.at(250)) / 2, within(1e-9));
    assertThat(HearingThreshold.at(5)).isEqualTo(HearingThreshold.at(20));
    assertThat(HearingThreshold.at(20000)).isEqualTo(HearingThreshold.at(12500));
  }
}
