package cutaway.bench.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Scale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ReadingTest {

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "12.5 lb|MASS|5.669904625|0.01309",
        "3/4 in|LENGTH|0.01905|0.000458",
        "1 3/4 in|LENGTH|0.04445|0.000458",
        "164 mm ± 2 mm|LENGTH|0.164|0.002",
        "10.02 Ω +/- 0.02 Ω|RESISTANCE|10.02|0.02",
        "10.02 ohm ± 0.2 %|RESISTANCE|10.02|0.02004",
        "25,0 g|MASS|0.025|0.0000288675",
        "21 °C ± 1 °C|TEMPERATURE|21|1",
        "70 °F ± 2 °F|TEMPERATURE|21.1111|1.1111",
        "1007 hPa|PRESSURE|100700|28.8675",
        "45 %|RATIO|0.45|0.00288675",
        "45 % ± 5 %|RATIO|0.45|0.05",
        "0.5 mm|LENGTH|0.0005|0.0000288675",
        "1.5e-3 m|LENGTH|0.0015|0.0000288675",
        "12 L ± 0.5|VOLUME|0.012|0.0005",
        "86 dB|LEVEL|86|0.288675",
        "24 °C ± 5 °C|TEMPERATURE_RISE|24|5",
        "15 K|TEMPERATURE_RISE|15|0.288675",
        "211 cm²|AREA|0.0211|0.0000288675",
        "0.8 mH|INDUCTANCE|0.0008|0.0000288675",
        "12 ms|TIME|0.012|0.000288675",
        "1.8 N·s/m|MECHANICAL_RESISTANCE|1.8|0.0288675",
        "78 kg/m⁴|ACOUSTIC_MASS|78|0.288675",
        "20 kHz|FREQUENCY|20000|288.675"
      })
  void readsQuantitiesAsPeopleWriteThem(String text, Kind kind, double value, double sd) {
    Reading r = Reading.parse(text, kind);
    assertThat(r.estimate().value()).isCloseTo(value, within(1e-4 * value));
    assertThat(r.estimate().sd()).isCloseTo(sd, within(2e-3 * sd));
    assertThat(r.text()).isEqualTo(text);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "5 kg|LENGTH|is not a length",
        "164|LENGTH|has no unit",
        "wide|LENGTH|does not begin with a number",
        "5 furlong|LENGTH|unknown unit 'furlong'",
        "3/0 in|LENGTH|divides by zero",
        "± 2 mm|LENGTH|is not a length",
        "5 mm ± wide|LENGTH|does not begin with a number",
        "3 dB|RATIO|is not a number or a percentage",
        "90 %|LEVEL|is not a level",
        "1e999 mm|LENGTH|too large"
      })
  void saysWhatIsWrong(String text, Kind kind, String what) {
    assertThatThrownBy(() -> Reading.parse(text, kind))
        .isInstanceOfSatisfying(
            Reading.UnreadableException.class,
            e -> {
              assertThat(e.what()).contains(what);
              assertThat(e.remedy()).contains(kind.example());
            });
  }

  @Property
  void aWrittenNumberComesBack(
      @ForAll @DoubleRange(min = 0.001, max = 9999) @Scale(4) double millimetres) {
    String text = String.format(java.util.Locale.ROOT, "%.4f mm ± 0.5 %%", millimetres);
    Reading r = Reading.parse(text, Kind.LENGTH);
    assertThat(r.estimate().value()).isCloseTo(millimetres / 1000, within(6e-8));
    assertThat(r.uncertaintyWritten()).isTrue();
  }

  @Property
  void anyTextIsReadOrRefusedWithARemedy(@ForAll String text, @ForAll Kind kind) {
    try {
      assertThat(Reading.parse(text, kind).estimate().value()).isFinite();
    } catch (Reading.UnreadableException e) {
      assertThat(e.remedy()).isNotBlank();
    }
  }

  @Test
  void assumesTheLastDigitRounded() {
    assertThat(Reading.parse("25 g", Kind.MASS).uncertaintyWritten()).isFalse();
  }
}
