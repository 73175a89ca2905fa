package cutaway.acoustics.driveunit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.Published;
import cutaway.acoustics.box.Loading;
import cutaway.acoustics.cabinet.UnitInBox;
import cutaway.acoustics.driveunit.Drive.Filter;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.hipparchus.complex.Complex;
import org.junit.jupiter.api.Test;

/** Published truth: box alignments of 01_*.csv, from Thiele and Small by network equations. */
class SmallSignalTest {

  /** A drive unit without inductance in a load, built straight from numbers. */
  private static SmallSignal system(
      double fs, double qms, double qts, RearLoad load, double alpha, double... values) {
    ModelChoice choice = ModelChoice.of(new CoilLoss.None(), new Suspension.Plain(), List.of(load));
    ImpedanceCurve blank = ImpedanceCurve.ofMagnitude(new double[] {1}, new double[] {1});
    List<Take> bench = List.of(new Take("x", blank, new Mounting.Boxed(load, Optional.empty())));
    Layout layout = new Layout(choice, bench, Readings.of(Bench.AIR), false);
    double[] theta = new double[layout.size];
    theta[Layout.RE] = Math.log(6);
    theta[Layout.FS] = Math.log(fs);
    theta[Layout.QMS] = Math.log(qms);
    theta[Layout.QES] = Math.log(1 / (1 / qts - 1 / qms));
    theta[layout.take(0).stiffness()] = Math.log(alpha);
    for (int i = 0; i < values.length; i++) {
      theta[layout.take(0).load() + i] = Math.log(values[i]);
    }
    TakeModel model = new TakeModel(choice, layout, 0, theta);
    return new SmallSignal(model, 0.02, 0.02, Bench.AIR, Drive.of(2.83));
  }

  private static final double LOSSLESS = 1e9;

  @Test
  void putsTheMinusThreePointOfASealedBoxWhereSmallDoes() {
    Pattern id = Pattern.compile("Qtc([0-9.]+)\\.f3fc");
    int checked = 0;
    for (Map<String, String> row : Published.rows("01_sealed_box.csv")) {
      Matcher m = id.matcher(Objects.requireNonNull(row.get("id")));
      Matcher q =
          Pattern.compile("Qtc=([0-9.]+)").matcher(Objects.requireNonNull(row.get("conditions")));
      if (!m.matches() || !q.find()) {
        continue;
      }
      double qtc = Double.parseDouble(q.group(1));
      double ratio = Double.parseDouble(Objects.requireNonNull(row.get("value")));
      double alpha = 3;
      // fc = 2 fs, Qtc = 2 Qts
      SmallSignal s = system(30, LOSSLESS, qtc / 2, new Loading.Closed(false, false), alpha);
      double drop = s.level(60 * ratio) - s.referenceLevel();
      assertThat(drop).as(row.get("id")).isCloseTo(-3.0103, within(1e-4));
      checked++;
    }
    assertThat(checked).isGreaterThan(5);
  }

  @Test
  void putsTheMinusThreePointOfVentedAlignmentsWhereThieleAndSmallDo() {
    int checked = 0;
    for (Map<String, String> row : Published.rows("01_vented_alignments.csv")) {
      if (!"computed".equals(row.get("status"))) {
        continue;
      }
      String qlText = Objects.requireNonNull(row.get("QL"));
      boolean lossy = !qlText.equals("inf");
      double h = number(row, "h_fB_over_fS");
      Loading load = new Loading.Vented(true, lossy, false);
      SmallSignal s =
          lossy
              ? system(
                  30,
                  LOSSLESS,
                  number(row, "QT"),
                  load,
                  number(row, "alpha_Vas_over_VB"),
                  30 * h,
                  LOSSLESS,
                  Double.parseDouble(qlText))
              : system(
                  30,
                  LOSSLESS,
                  number(row, "QT"),
                  load,
                  number(row, "alpha_Vas_over_VB"),
                  30 * h,
                  LOSSLESS);
      double drop = s.level(30 * number(row, "f3_over_fS")) - s.referenceLevel();
      assertThat(drop).as(row.get("id")).isCloseTo(-3.0103, within(2e-4));
      checked++;
    }
    assertThat(checked).isGreaterThan(30);
  }

  private static double number(Map<String, String> row, String name) {
    return Double.parseDouble(Objects.requireNonNull(row.get(name)));
  }

  @Test
  void standsStillAtTheTuningAndBlowsThroughThePort() {
    SmallSignal s = system(30, 5, 0.4, new Loading.Vented(true, false, false), 1.5, 30, LOSSLESS);
    assertThat(s.excursion(30)).isLessThan(1e-6 * s.excursion(15));
    assertThat(s.portFlow(30)).isPositive();
    assertThat(s.portSpeed(30, 0.002))
        .isCloseTo(Math.sqrt(2) * s.portFlow(30) / 0.002, within(1e-9));
  }

  /** The settled step of a sealed box of Q_tc = 1/√2 crosses zero and dies out. */
  @Test
  void stepsAsASecondOrderHighPass() {
    SmallSignal s = system(30, LOSSLESS, 0.5, new Loading.Closed(false, false), 1e-6);
    // Q = 1/2 at 30 Hz: s(t) = p (1 − ωt) e^{−ωt}
    double[] step = s.step(12000, 1200);
    double p = 20e-6 * Math.pow(10, s.referenceLevel() / 20);
    for (int i : new int[] {20, 64, 200, 700}) {
      double x = 2 * Math.PI * 30 * i / 12000.0;
      assertThat(step[i]).isCloseTo(p * (1 - x) * Math.exp(-x), within(0.004 * p));
    }
  }

  /** Group delay of the same high-pass at ω ≫ ω_s: 2ω_s/ω² (closed form). */
  @Test
  void delaysAsItsClosedFormSays() {
    SmallSignal s = system(30, LOSSLESS, 0.5, new Loading.Closed(false, false), 1e-6);
    for (double f : new double[] {15, 30, 90}) {
      double ws = 2 * Math.PI * 30;
      double w = 2 * Math.PI * f;
      double expected = 2 / ws / (1 + w * w / (ws * ws));
      assertThat(s.groupDelay(f)).isCloseTo(expected, within(2e-5 * expected + 1e-7));
    }
  }

  @Test
  void filtersHalveThePowerAtTheirCorner() {
    double[] phasor = {1, 0};
    new Filter(true, 80, 2, Math.sqrt(0.5)).apply(80, phasor);
    assertThat(Math.hypot(phasor[0], phasor[1])).isCloseTo(Math.sqrt(0.5), within(1e-12));
    double[] low = {1, 0};
    new Filter(false, 80, 1, 1).apply(80, low);
    assertThat(Math.hypot(low[0], low[1])).isCloseTo(Math.sqrt(0.5), within(1e-12));
    double[] far = {1, 0};
    new Filter(true, 80, 1, 1).apply(8, far);
    assertThat(Math.hypot(far[0], far[1])).isCloseTo(0.0995, within(1e-4));
    assertThatThrownBy(() -> new Filter(true, 80, 3, 1))
        .isInstanceOf(IllegalArgumentException.class);
  }

  /** Taken apart and put together again, a box with one pressure everywhere gives the same. */
  @Test
  void isTakenApartWithoutLoss() {
    Loading load = new Loading.Vented(true, true, true);
    SmallSignal s = system(30, 5, 0.4, load, 1.5, 38, 60, 12, 40);
    for (double f : new double[] {20, 38, 75, 400}) {
      UnitInBox whole =
          UnitInBox.of(
              s.network(f).orElseThrow(), new Complex[][] {{Complex.ZERO}}, Optional.empty());
      double p = Bench.AIR.density().value() * f * whole.output().norm();
      assertThat(p).isCloseTo(s.pressure(f), within(1e-9 * p));
      assertThat(whole.port().norm()).isCloseTo(s.portFlow(f), within(1e-9 * s.portFlow(f)));
      double x = Math.sqrt(2) * whole.cone().norm() / 0.02 / (2 * Math.PI * f);
      assertThat(x).isCloseTo(s.excursion(f), within(1e-9 * x));
    }
  }
}
