package cutaway.acoustics.driveunit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.box.Loading;
import cutaway.acoustics.estimate.Estimate;
import cutaway.acoustics.estimate.Jacobian;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Known answers: every analytic derivative against central differences. */
class JacobianTest {

  static Stream<ModelChoice> choices() {
    List<CoilLoss> coils =
        List.of(
            new CoilLoss.None(),
            new CoilLoss.Ideal(3e-4),
            new CoilLoss.OneLoop(2e-4, 5e-4, 4),
            new CoilLoss.TwoLoops(1e-4, 8e-4, 2, 3e-4, 12),
            new CoilLoss.PowerLaw(4e-3, 0.7));
    List<Suspension> suspensions =
        List.of(
            new Suspension.Plain(),
            new Suspension.Creep(0.11),
            new Suspension.StiffnessSlope(0.08),
            new Suspension.DampingSlope(0.3));
    List<RearLoad> loads = new ArrayList<>();
    loads.addAll(new Loading.Closed(false, false).alternatives());
    loads.addAll(new Loading.Vented(true, false, false).alternatives());
    loads.addAll(new Loading.PassiveRadiator(true, false, false).alternatives());
    List<ModelChoice> out = new ArrayList<>();
    int k = 0;
    for (RearLoad load : loads) {
      for (CoilLoss coil : coils) {
        out.add(
            new ModelChoice(
                coil,
                suspensions.get(k % 4),
                k % 3 == 0,
                List.of(false, k % 2 == 0, true),
                List.of(new NoLoad(), new NoLoad(), load),
                List.of(false, false, k % 5 < 3),
                List.of(false, false, false)));
        k++;
      }
    }
    return out.stream();
  }

  @ParameterizedTest
  @MethodSource("choices")
  void agreesWithDifferences(ModelChoice choice) {
    double[] f = {7, 23, 44, 61, 180, 2000, 15000};
    double[] r = {5, 8, 30, 12, 6, 8, 20};
    double[] x = {1, 9, 3, -12, -1, 4, 18};
    ImpedanceCurve curve = ImpedanceCurve.of(f, r, x);
    Estimate mass = Estimate.relative(0.012, 0.01);
    List<Take> bench =
        List.of(
            new Take(
                "a",
                curve,
                new Mounting.FreeAir(),
                VoltageDivider.rigErrors(
                    VoltageDivider.Listening.DRIVE_UNIT,
                    Estimate.relative(10, 0.002),
                    Optional.of(Estimate.relative(8, 0.001)))),
            new Take(
                "b",
                curve,
                new Mounting.AddedMass(mass),
                VoltageDivider.rigErrors(
                    VoltageDivider.Listening.RESISTOR,
                    Estimate.relative(10, 0.002),
                    Optional.empty())),
            new Take(
                "c",
                ImpedanceCurve.ofMagnitude(f, r),
                new Mounting.Boxed(
                    choice.loads().get(2), Optional.of(Estimate.relative(0.01, 0.02)))));
    Readings readings =
        new Readings(
            Bench.AIR,
            Optional.of(Estimate.relative(0.13, 0.005)),
            Optional.empty(),
            Optional.of(Estimate.relative(5.1, 0.01)),
            Optional.of(0.3),
            Optional.of(0.02));
    List<ScaleReading> scale =
        List.of(
            new ScaleReading.Mass(1, "b", mass),
            new ScaleReading.Volume(2, "c", Estimate.relative(0.01, 0.02)),
            new ScaleReading.MovingMass(Estimate.relative(0.02, 0.05)));
    JointModel model = new JointModel(choice, bench, readings, scale);
    int p = model.parameters();
    int n = model.rows();
    double[] theta = StartingValues.of(bench).theta(choice, model.layout(), readings);
    for (int k = 0; k < bench.size(); k++) {
      theta[model.layout().take(k).drift()] = 0.03 * (k - 0.6);
    }
    theta[model.layout().leads] = 0.7;
    Jacobian jacobian = model.room(0);
    double[] residual = new double[n];
    model.evaluate(theta, residual, jacobian, true);
    double[] up = new double[n];
    double[] down = new double[n];
    for (int j = 0; j < p; j++) {
      double h = 1e-5;
      double kept = theta[j];
      theta[j] = kept + h;
      model.evaluate(theta, up, jacobian, false);
      theta[j] = kept - h;
      model.evaluate(theta, down, jacobian, false);
      theta[j] = kept;
      int i = 0;
      for (int stretch = 0; stretch < model.stretches().length; stretch++) {
        for (int row = 0; row < model.stretches()[stretch]; row++, i++) {
          double difference = (up[i] - down[i]) / (2 * h);
          assertThat(jacobian.at(stretch, row, j))
              .as("row %d, parameter %d of %s", i, j, choice)
              .isCloseTo(difference, within(2e-7 * Math.max(1, Math.abs(difference))));
        }
      }
      assertThat(i).isEqualTo(n);
    }
  }
}
