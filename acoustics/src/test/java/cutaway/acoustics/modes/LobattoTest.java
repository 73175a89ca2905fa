package cutaway.acoustics.modes;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class LobattoTest {
  @ParameterizedTest
  @ValueSource(ints = {1, 2, 5, 8, 12})
  void integratesExactlyUpToTheDegreePromised(int order) {
    Lobatto points = Lobatto.of(order);
    for (int degree = 0; degree <= 2 * order - 1; degree++) {
      double sum = 0;
      for (int i = 0; i < points.size(); i++) {
        sum += points.weight(i) * Math.pow(points.point(i), degree);
      }
      assertThat(sum).isCloseTo(degree % 2 == 0 ? 2.0 / (degree + 1) : 0, within(1e-13));
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {3, 6, 9})
  void takesPolynomialsAndTheirSlopesAnywhere(int order) {
    Lobatto points = Lobatto.of(order);
    for (double x : new double[] {-1, -0.3, 0.123, points.point(2), 1}) {
      double value = 0;
      double slope = 0;
      double at = 0;
      for (int i = 0; i < points.size(); i++) {
        double y = Math.pow(points.point(i), order);
        value += points.values(x)[i] * y;
        slope += points.slopes(x)[i] * y;
        at += points.slope(1, i) * y;
      }
      assertThat(value).isCloseTo(Math.pow(x, order), within(1e-13));
      assertThat(slope).isCloseTo(order * Math.pow(x, order - 1), within(1e-12));
      assertThat(at).isCloseTo(order * Math.pow(points.point(1), order - 1), within(1e-12));
    }
  }

  @Test
  void onePointStandsInTheMiddle() {
    Lobatto point = Lobatto.of(0);
    assertThat(point.size()).isEqualTo(1);
    assertThat(point.point(0)).isZero();
    assertThat(point.weight(0)).isEqualTo(2);
    assertThatThrownBy(() -> Lobatto.of(-1)).isInstanceOf(IllegalArgumentException.class);
  }
}
