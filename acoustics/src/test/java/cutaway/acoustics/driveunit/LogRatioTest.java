package cutaway.acoustics.driveunit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The series against the library's logarithm and arctangent, on both sides of its limit. */
class LogRatioTest {

  @ParameterizedTest
  @CsvSource({
    "1, 0",
    "1.000001, 1e-9",
    "1.2, -0.1",
    "0.82, 0.19",
    "1.22, 0.21",
    "0.5, 0.3",
    "2, -1",
    "0, 1",
    "-1, 1e-3",
    "-1, -1e-3",
    "1e-3, -40",
    "1e6, 2"
  })
  void agreesWithTheLibrary(double real, double imaginary) {
    // measured 3 − 4j, model the ratio times that
    ImpedanceCurve curve =
        ImpedanceCurve.of(new double[] {10}, new double[] {3}, new double[] {-4});
    LogRatio log = new LogRatio(curve);
    log.of(new double[][] {{3 * real + 4 * imaginary}, {3 * imaginary - 4 * real}});
    double expected = Math.log(Math.hypot(real, imaginary));
    assertThat(log.magnitude[0]).isCloseTo(expected, within(3e-16 * Math.max(1, expected)));
    assertThat(log.angle[0]).isCloseTo(Math.atan2(imaginary, real), within(1e-15));
  }
}
