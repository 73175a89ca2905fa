package cutaway.acoustics.box;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.Published;
import java.util.Map;
import java.util.Objects;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** Published truth: 03_piston_radiation.csv, Abramowitz and Stegun chapters 9 and 12. */
class PistonRadiationTest {
  private static final Pattern ID = Pattern.compile("x([0-9.]+)\\.([RX])1");

  @Test
  void agreesWithTheTable() {
    int checked = 0;
    for (Map<String, String> row : Published.rows("03_piston_radiation.csv")) {
      Matcher m = ID.matcher(Objects.requireNonNull(row.get("id")));
      if (m.matches()) {
        double x = Double.parseDouble(m.group(1));
        double mine =
            m.group(2).equals("R") ? PistonRadiation.resistance(x) : PistonRadiation.reactance(x);
        double value = Double.parseDouble(Objects.requireNonNull(row.get("value")));
        assertThat(mine).as(row.get("id")).isCloseTo(value, within(2e-8 * Math.max(value, 0.05)));
        checked++;
      }
    }
    assertThat(checked).isGreaterThan(20);
  }

  @Test
  void isContinuousWhereTheSeriesHandsOver() {
    assertThat(PistonRadiation.resistance(18.0))
        .isCloseTo(PistonRadiation.resistance(18.0000001), within(1e-7));
    assertThat(PistonRadiation.reactance(18.0))
        .isCloseTo(PistonRadiation.reactance(18.0000001), within(1e-7));
    assertThat(PistonRadiation.reactance(0)).isZero();
  }
}
