package cutaway.acoustics.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.Published;
import org.junit.jupiter.api.Test;

class EstimateTest {

  @Test
  void refusesWhatIsNoEstimate() {
    assertThatThrownBy(() -> new Estimate(Double.NaN, 1))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> new Estimate(1, -1)).hasMessageContaining("uncertainty ≥ 0");
    assertThatThrownBy(() -> new Estimate(1, Double.NaN)).isNotNull();
  }

  @Test
  void countsDisagreementInStandardDeviations() {
    assertThat(new Estimate(10, 3).disagreement(new Estimate(20, 4))).isEqualTo(2);
    assertThat(Estimate.exact(1).disagreement(Estimate.exact(1))).isZero();
  }

  /** 13_statistics.csv gumH1.uc: root sum of squares as in JCGM 100:2008, H.1. */
  @Test
  void addsComponentsAsTheGumExampleDoes() {
    double[] information = {
      1 / 625.0, 0, 0, 0, 0, 1 / 94.09, 0, 0, 0, 0, 1 / 8.41, 0, 0, 0, 0, 1 / 275.56
    };
    Covariance c = Covariance.ofInformation(information, 4);
    Estimate sum = c.propagate(new double[4], t -> t[0] + t[1] + t[2] + t[3]);
    double expected = Published.value("13_statistics.csv", "gumH1.uc");
    assertThat(sum.sd()).isCloseTo(expected, within(1e-6 * expected));
  }

  @Test
  void propagatesACurveAsItDoesEachPoint() {
    Covariance c = Covariance.ofInformation(new double[] {4, 1, 1, 9}, 2);
    double[] theta = {0.3, -0.2};
    double[][] band = c.propagateCurve(theta, t -> new double[] {Math.exp(t[0]), t[0] * t[1]});
    Estimate first = c.propagate(theta, t -> Math.exp(t[0]));
    assertThat(band[0][0]).isEqualTo(first.value());
    assertThat(band[1][0]).isCloseTo(first.sd(), within(1e-12));
  }
}
