package cutaway.acoustics.air;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.Published;
import cutaway.acoustics.estimate.Estimate;
import java.util.Map;
import java.util.Objects;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** Published truth: 02_air.csv, CIPM-2007 and Cramer 1993, computed rows. */
class AirTest {
  private static final Pattern CONDITIONS =
      Pattern.compile("t=([-0-9.]+) degC, RH=([0-9.]+) %, p=([0-9.]+) Pa, xCO2=4e-4");

  @Test
  void agreesWithEveryComputedRow() {
    int checked = 0;
    for (Map<String, String> row : Published.rows("02_air.csv")) {
      Matcher m = CONDITIONS.matcher(Objects.requireNonNull(row.get("conditions")));
      if (!"computed".equals(row.get("status")) || !m.matches()) {
        continue;
      }
      double t = Double.parseDouble(m.group(1));
      double h = Double.parseDouble(m.group(2)) / 100;
      double p = Double.parseDouble(m.group(3));
      double xv = Air.vapourFraction(t, p, h);
      double value = Double.parseDouble(Objects.requireNonNull(row.get("value")));
      String id = Objects.requireNonNull(row.get("id"));
      double mine =
          switch (id.substring(id.indexOf('.') + 1)) {
            case "psv" -> Air.saturationPressure(t);
            case "xv" -> xv;
            case "Z" -> Air.compressibility(t, p, xv);
            case "rho" -> Air.density(t, p, h);
            case "cCramer" -> Air.soundSpeed(t, p, h);
            default -> Double.NaN;
          };
      if (!Double.isNaN(mine)) {
        assertThat(mine).as(id).isCloseTo(value, within(1e-7 * Math.abs(value)));
        checked++;
      }
    }
    assertThat(checked).isGreaterThanOrEqualTo(35);
  }

  @Test
  void carriesTheUncertaintyOfItsReadings() {
    Air air = Air.of(new Estimate(21, 1), new Estimate(101325, 100), new Estimate(0.45, 0.1));
    // ρ falls and c rises by about 0.34 % and 0.17 % for each kelvin (ideal gas)
    assertThat(air.density().relativeSd()).isCloseTo(0.0036, within(0.0004));
    assertThat(air.soundSpeed().relativeSd()).isCloseTo(0.0018, within(0.0003));
    // ρc² = γp hardly depends on temperature
    assertThat(air.stiffness().relativeSd()).isLessThan(0.002);
    assertThat(air.stiffness().value()).isCloseTo(1.4 * 101325, within(0.003 * 1.4 * 101325));
  }
}
