package cutaway.bench.exam;

import static org.assertj.core.api.Assertions.assertThat;

import cutaway.bench.dossier.DemoDossier;
import cutaway.bench.dossier.Dossier;
import cutaway.bench.finding.Curve;
import cutaway.bench.finding.Findings;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;

/**
 * Facts of the trade, held against the invented unit of the demo as a plausibility check. Common
 * practice, no source: they show that nothing is off by a large factor, no more.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class CommonPracticeTest {
  private Findings demo = Findings.NONE;

  @BeforeAll
  void solve(@TempDir Path folder) {
    DemoDossier.copyTo(folder.resolve("demo"));
    demo = Dossier.open(folder.resolve("demo")).solve(s -> {}).findings();
  }

  private double value(String id) {
    return demo.finding(id).orElseThrow().estimate().value();
  }

  /** Where a curve is highest between two frequencies, Hz. */
  private double peak(String curve, double low, double high) {
    Curve c = demo.curve(curve).orElseThrow();
    int best = -1;
    for (int i = 0; i < c.axis().size(); i++) {
      double f = c.axis().get(i);
      if (f >= low && f <= high && (best < 0 || c.values().get(i) > c.values().get(best))) {
        best = i;
      }
    }
    return c.axis().get(best);
  }

  @Test
  void aNominalFourOhmUnitShowsThreeToThreePointSix() {
    assertThat(value("drive-unit.re")).isBetween(3.0, 3.6);
  }

  @Test
  void anAddedMassMovesTheResonanceByTwentyToFiftyPercent() {
    double before = peak("impedance.free-air.fitted", 10, 200);
    for (String take : List.of("with-mass", "with-more-mass")) {
      double after = peak("impedance." + take + ".fitted", 10, 200);
      assertThat(1 - after / before).as(take).isBetween(0.2, 0.5);
    }
  }

  @Test
  void aVentedBoxShowsTwoPeaksWithTheTuningNearTheMinimumBetween() {
    double low = value("box.fl");
    double high = value("box.fh");
    assertThat(value("box.fm")).isBetween(low, high);
    assertThat(value("box.fb") / value("box.fm")).isBetween(0.93, 1.07);
    // common practice too: f_L² + f_H² = f_b² + f_c², exact without losses
    double fc = value("box.fc");
    double square = value("box.fb") * value("box.fb") + fc * fc;
    assertThat((low * low + high * high) / square).isBetween(0.97, 1.03);
  }

  @Test
  void aTotalQNearAHalfIsCalledModerate() {
    assertThat(value("drive-unit.qts")).isBetween(0.2, 1.0);
  }

  @Test
  void portAirAtTwoPointEightVoltsIsFarFromNoisy() {
    Curve speed = demo.curve("response.port-speed").orElseThrow();
    double fastest = speed.values().stream().mapToDouble(Double::doubleValue).max().orElseThrow();
    assertThat(fastest).isBetween(0.5, 17.0);
    // and it is fastest near the tuning
    double at = peak("response.port-speed", 10, 500);
    assertThat(at / value("box.fb")).isBetween(0.7, 1.3);
  }

  @Test
  void portAirBeyondSeventeenMetresASecondIsCautioned() {
    double volts = value("response.port-voltage");
    Curve speed = demo.curve("response.port-speed").orElseThrow();
    double fastest = speed.values().stream().mapToDouble(Double::doubleValue).max().orElseThrow();
    assertThat(volts * fastest / 2.83)
        .as(String.format(Locale.ROOT, "%.2f V", volts))
        .isBetween(16.9, 17.1);
  }
}
