package cutaway.acoustics.driveunit;

import static org.assertj.core.api.Assertions.assertThat;

import cutaway.acoustics.box.Loading;
import cutaway.acoustics.estimate.Estimate;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Known answers: invented boxes measured alone, with nothing in free air. */
class BoxedAloneTest {

  /** Truths within four uncertainties, of which many are looked at, whatever leaks. */
  @ParameterizedTest
  @ValueSource(doubles = {5, 10, 25, 50, 100, 1e6})
  void aLeakySealedBoxHidesNoneOfItsLossInOtherFigures(double leak) {
    for (int seed = 1; seed <= 4; seed++) {
      Bench b = new Bench(300 + seed);
      b.points = 300;
      double volume = 0.02;
      double alpha = b.vas() / volume;
      // the fit counts the leak at f_s, the truth is given at f_c
      double atFs = leak / Math.sqrt(1 + alpha);
      Take take = b.inBox(new Loading.Closed(true, false), volume, atFs);
      JointFit fit = JointFit.of(List.of(take), Readings.of(Bench.AIR));
      String which = "Q_L " + leak + ", seed " + seed + ", ";
      near(which + "R_e", fit.averaged(Fitted::re), b.re);
      double u = Math.sqrt(1 + alpha);
      near(which + "f_c", fit.averagedIfShown(f -> f.box(0).fc()).orElseThrow(), b.fs * u);
      near(which + "Q_ec", fit.averagedIfShown(f -> f.box(0).qec()).orElseThrow(), b.qes * u);
    }
  }

  private static void near(String what, Estimate found, double truth) {
    assertThat(found.disagreement(Estimate.exact(truth)))
        .as("%s: %s against %s", what, found, truth)
        .isLessThan(4);
  }

  @Test
  void twoTakesOfOneBoxThatDisagreeCoverBoth() {
    Bench b = new Bench(310);
    Take first = b.inBox(new Loading.Closed(false, false), 0.02);
    Take later = b.inBox(new Loading.Closed(false, false), 0.023);
    JointFit fit =
        JointFit.of(
            List.of(first, new Take("later", later.curve(), later.mounting())),
            Readings.of(Bench.AIR));
    Estimate fc = fit.averagedIfShown(f -> f.box(0).fc()).orElseThrow();
    assertThat(fit.drift()).isPresent();
    for (double volume : new double[] {0.02, 0.023}) {
      double truth = b.fs * Math.sqrt(1 + b.vas() / volume);
      assertThat(fc.disagreement(Estimate.exact(truth))).isLessThan(2.5);
    }
  }
}
