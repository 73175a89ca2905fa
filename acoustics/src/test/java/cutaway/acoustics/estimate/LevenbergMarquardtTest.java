package cutaway.acoustics.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.Published;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.hipparchus.analysis.differentiation.Gradient;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Published truth: NIST StRD nonlinear regression, certified to eleven digits. */
class LevenbergMarquardtTest {

  /** Evaluates a data set's model with exact derivatives. */
  private interface Law {
    Gradient at(Gradient[] b, double x);
  }

  private static Law law(String name) {
    return switch (name) {
      case "Misra1a", "BoxBOD" -> (b, x) -> b[0].multiply(b[1].multiply(-x).exp().negate().add(1));
      case "Thurber" ->
          (b, x) ->
              b[0].add(b[1].multiply(x))
                  .add(b[2].multiply(x * x))
                  .add(b[3].multiply(x * x * x))
                  .divide(
                      b[4].multiply(x)
                          .add(b[5].multiply(x * x))
                          .add(b[6].multiply(x * x * x))
                          .add(1));
      case "MGH09" ->
          (b, x) ->
              b[0].multiply(b[1].multiply(x).add(x * x))
                  .divide(b[2].multiply(x).add(b[3]).add(x * x));
      case "Lanczos3" ->
          (b, x) ->
              b[0].multiply(b[1].multiply(-x).exp())
                  .add(b[2].multiply(b[3].multiply(-x).exp()))
                  .add(b[4].multiply(b[5].multiply(-x).exp()));
      case "MGH10" -> (b, x) -> b[0].multiply(b[1].divide(b[2].add(x)).exp());
      case "Eckerle4" ->
          (b, x) -> {
            Gradient d = b[2].subtract(x).divide(b[1]);
            return b[0].divide(b[1]).multiply(d.multiply(d).multiply(-0.5).exp());
          };
      case "Rat43" ->
          (b, x) ->
              b[0].divide(b[1].subtract(b[2].multiply(x)).exp().add(1).pow(b[3].reciprocal()));
      default -> throw new IllegalArgumentException(name);
    };
  }

  private record DataSet(
      String name, List<Double> far, List<Double> near, List<Double> certified, List<Double> sd) {}

  private static List<Double> numbers(String text) {
    return Arrays.stream(text.split(" ", -1)).map(Double::valueOf).toList();
  }

  static Stream<String> sets() {
    return Published.lines("nist/certified.csv").stream();
  }

  /**
   * The sets that a descent reaches from the far start. From there BoxBOD leads downhill into a
   * flat region without a minimum, and MGH10 along a valley too long for any number of steps we
   * would wait for; our own fits start near.
   */
  static Stream<String> reachable() {
    return sets().filter(l -> !l.startsWith("BoxBOD") && !l.startsWith("MGH10"));
  }

  private static DataSet parse(String line) {
    List<String> f = List.of(line.split(";", -1));
    return new DataSet(
        f.get(0), numbers(f.get(2)), numbers(f.get(3)), numbers(f.get(4)), numbers(f.get(5)));
  }

  private static Residuals residuals(String name, int size) {
    double[][] data =
        Published.lines("nist/" + name + ".csv").stream()
            .skip(1)
            .map(l -> Arrays.stream(l.split(",", -1)).mapToDouble(Double::parseDouble).toArray())
            .toArray(double[][]::new);
    Law law = law(name);
    return new Residuals() {
      @Override
      public int rows() {
        return data.length;
      }

      @Override
      public int parameters() {
        return size;
      }

      @Override
      public void evaluate(double[] theta, double[] r, Jacobian jacobian, boolean want) {
        Gradient[] b = new Gradient[size];
        for (int i = 0; i < size; i++) {
          b[i] = Gradient.variable(size, i, theta[i]);
        }
        for (int row = 0; row < data.length; row++) {
          Gradient y = law.at(b, data[row][1]);
          r[row] = y.getValue() - data[row][0];
          for (int i = 0; want && i < size; i++) {
            jacobian.column(0, i)[row] = y.getPartialDerivative(i);
          }
        }
      }
    };
  }

  @ParameterizedTest
  @MethodSource("sets")
  void findsCertifiedParametersFromTheNearStart(String line) {
    DataSet set = parse(line);
    check(set, set.near());
  }

  @ParameterizedTest
  @MethodSource("reachable")
  void findsCertifiedParametersFromTheFarStart(String line) {
    DataSet set = parse(line);
    check(set, set.far());
  }

  private static void check(DataSet set, List<Double> start) {
    int p = start.size();
    Residuals residuals = residuals(set.name(), p);
    double[] ones = new double[residuals.rows()];
    Arrays.fill(ones, 1);
    Solution s =
        LevenbergMarquardt.solve(
            residuals, start.stream().mapToDouble(Double::doubleValue).toArray(), ones);
    assertThat(s.converged()).isTrue();
    double variance = s.cost() / (residuals.rows() - p);
    for (int i = 0; i < p; i++) {
      double certified = set.certified().get(i);
      assertThat(s.theta(i)).isCloseTo(certified, within(1e-6 * Math.abs(certified)));
      double sd = s.covariance().sd(i) * Math.sqrt(variance);
      assertThat(sd).isCloseTo(set.sd().get(i), within(1e-4 * set.sd().get(i)));
    }
  }

  @Test
  void refusesArgumentsOfTheWrongLength() {
    assertThatThrownBy(
            () ->
                LevenbergMarquardt.solve(
                    residuals("BoxBOD", 2), new double[] {1}, new double[] {1}))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("1 starting values for 2 parameters");
  }

  @Test
  void saysWhenTheDataLeaveAParameterOpen() {
    double[] information = {1, 0, 0, 0};
    assertThatThrownBy(() -> Covariance.ofInformation(information, 2))
        .isInstanceOf(SingularInformationException.class)
        .hasMessageContaining("parameter 1");
    double[] dependent = {1, 1, 1, 1};
    assertThatThrownBy(() -> Covariance.ofInformation(dependent, 2))
        .isInstanceOf(SingularInformationException.class);
  }
}
