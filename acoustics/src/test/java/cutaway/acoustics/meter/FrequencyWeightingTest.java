package cutaway.acoustics.meter;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.Published;
import java.util.Map;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;

class FrequencyWeightingTest {
  @Test
  void followsTheStandardsFormula() {
    for (Map<String, String> row : Published.rows("09_iec61672_weightings.csv")) {
      double f = Double.parseDouble(row.getOrDefault("exact_Hz", ""));
      assertThat(20 * Math.log10(FrequencyWeighting.A.gain(f)))
          .as("A at %s Hz", f)
          .isCloseTo(Double.parseDouble(row.getOrDefault("A_dB_formula", "")), within(2e-4));
      assertThat(20 * Math.log10(FrequencyWeighting.C.gain(f)))
          .as("C at %s Hz", f)
          .isCloseTo(Double.parseDouble(row.getOrDefault("C_dB_formula", "")), within(2e-4));
    }
  }

  /** A tone has its own level and its weighting's gain, wherever it begins and ends. */
  @Property(tries = 40)
  void levelOfATone(@ForAll @DoubleRange(min = 40, max = 8000) double frequency) {
    double rate = 48000;
    double[] x = new double[96000];
    for (int i = 0; i < x.length; i++) {
      x[i] = Math.sqrt(2) * Math.sin(2 * Math.PI * frequency * i / rate);
    }
    PowerSpectrum spectrum = PowerSpectrum.averaged(x, 0, x.length, rate, 48000);
    double plain = 20 * Math.log10(1 / FrequencyWeighting.REFERENCE);
    for (FrequencyWeighting w : FrequencyWeighting.values()) {
      assertThat(w.level(spectrum))
          .isCloseTo(plain + 20 * Math.log10(w.gain(frequency)), within(0.01));
    }
  }

  @Test
  void powerIsThatOfTheSamples() {
    Random random = new Random(3);
    double[] x = random.doubles(12345).map(v -> v - 0.5).toArray();
    double square = 0;
    for (int i = 1000; i < 11000; i++) {
      square += x[i] * x[i] / 10000;
    }
    PowerSpectrum spectrum = PowerSpectrum.of(x, 1000, 11000, 8000);
    assertThat(spectrum.meanSquare(f -> 1)).isCloseTo(square, within(1e-12));
    assertThat(spectrum.meanSquare(-1, 1e9)).isCloseTo(square, within(1e-12));
    assertThat(spectrum.meanSquare(0, 777) + spectrum.meanSquare(777, 1e9))
        .isCloseTo(square, within(0.01 * square));
  }
}
