package cutaway.bench.finding;

import static org.assertj.core.api.Assertions.assertThat;

import cutaway.acoustics.estimate.Estimate;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Rounding after JCGM 100:2008, 7.2.6. */
class ShownTest {

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "31.71858|0.00375|Hz|31.719 ± 0.004 Hz",
        "31.71858|0.0124|Hz|31.719 ± 0.012 Hz",
        "0.0123456|0.00055|kg|12.3 ± 0.6 g",
        "1.9|0.01|kg|1.900 ± 0.010 kg",
        "0.01234|0.0001|m³|12.34 ± 0.10 L",
        "0.0214|0.0004|m²|214 ± 4 cm²",
        "0.00056|0.0000019|m/N|0.5600 ± 0.0019 mm/N",
        "3.12e9|2.2e8|N/m²|3.12 ± 0.22 GPa",
        "12345|340|Ω|12300 ± 300 Ω",
        "0.0029|0.00003|1|0.290 ± 0.003 %",
        "0.385|0.002|1|0.3850 ± 0.0020",
        "5.2|0|Ω|5.200 Ω",
        "0.0000166|0.0000019|V|16.6 ± 1.9 µV",
        "0.0123|0.0014|V|12.3 ± 1.4 mV",
        "0.9|0.3|V|0.9 ± 0.3 V",
        "90.54|0.04|dB|90.54 ± 0.04 dB"
      })
  void roundsToWhatIsKnown(double value, double sd, String unit, String text) {
    assertThat(Shown.of(value, sd, unit).text()).isEqualTo(text);
  }

  @Test
  void showsInchUnitsWhereTestersUseThem() {
    Finding f =
        new Finding(
            "x", "x", "x", new Estimate(0.0283168466, 0.0003), "m³", "", List.of(), "", List.of());
    assertThat(Shown.inches(f).orElseThrow().text()).isEqualTo("1.000 ± 0.011 ft³");
    Finding hertz =
        new Finding("x", "x", "x", new Estimate(40, 1), "Hz", "", List.of(), "", List.of());
    assertThat(Shown.inches(hertz)).isEmpty();
  }

  @Test
  void writesNumbersOut() {
    assertThat(Shown.digits(1663, 3)).isEqualTo("1660");
    assertThat(Shown.digits(0.00012345, 3)).isEqualTo("0.000123");
    assertThat(Shown.of(-1.13, 2.24, "K").text()).isEqualTo("−1.1 ± 2.2 K");
  }
}
