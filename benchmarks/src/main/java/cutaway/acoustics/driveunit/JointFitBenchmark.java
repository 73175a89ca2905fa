package cutaway.acoustics.driveunit;

import cutaway.acoustics.air.Air;
import cutaway.acoustics.estimate.Estimate;
import cutaway.acoustics.estimate.LevenbergMarquardt;
import cutaway.acoustics.estimate.Solution;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * The joint fit of reference case A1-01: two curves, one added mass, one lossy loop. {@code
 * side-by-side/joint_fit.py} solves the same residuals from the same start with SciPy. It stands in
 * the package it measures to reach the plain least-squares problem without the search around it.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(1)
public class JointFitBenchmark {
  private static final Path CASE = Path.of("bench/src/test/resources/cases/A1/A1-01");

  private List<Take> takes = List.of();
  private Readings readings =
      Readings.of(Air.of(new Estimate(18.5, 0.1), new Estimate(101650, 50), Estimate.exact(0)));
  private JointModel model = model();
  private double[] start = new double[0];
  private double[] weights = new double[0];

  /** Reads the case; run from the repository's root. */
  @Setup
  public void read() {
    Estimate mass = new Estimate(0.004502, 2e-5);
    takes =
        List.of(
            new Take("free", curve("free_air.txt"), new Mounting.FreeAir()),
            new Take("mass", curve("added_mass_1.txt"), new Mounting.AddedMass(mass)));
    readings = readings.withPistonDiameter(new Estimate(0.1128, 0.00056));
    model = model();
    start = start(model);
    weights = new double[model.rows()];
    Arrays.fill(weights, 1 / (0.002 * 0.002));
    for (int i = 0; i < model.readingRows().size(); i++) {
      double sd = model.readingRows().get(i).sd();
      weights[model.curveRows() + i] = 1 / (sd * sd);
    }
  }

  private JointModel model() {
    int n = takes.size();
    List<RearLoad> loads = Collections.nCopies(n, new NoLoad());
    CoilLoss coil = new CoilLoss.OneLoop(3e-4, 5e-4, 4);
    ModelChoice choice = ModelChoice.of(coil, new Suspension.Plain(), loads);
    List<ScaleReading> scale =
        n == 0
            ? List.of()
            : List.of(new ScaleReading.Mass(1, "mass", new Estimate(0.004502, 2e-5)));
    return new JointModel(choice, takes, readings, scale);
  }

  /** The start that the script uses too: within some 10 to 30 % of the answer. */
  private static double[] start(JointModel model) {
    double[] theta = new double[model.parameters()];
    double[] values = {4.2, 65, 6, 0.6, 3e-4, 5e-4, 4, 0.4, 0.011, 0.0100};
    for (int i = 0; i < theta.length; i++) {
      theta[i] = Math.log(values[i]);
    }
    return theta;
  }

  private static ImpedanceCurve curve(String file) {
    try {
      List<double[]> rows = new ArrayList<>();
      for (String line : Files.readAllLines(CASE.resolve(file))) {
        if (!line.startsWith("*")) {
          rows.add(Arrays.stream(line.split(",", -1)).mapToDouble(Double::parseDouble).toArray());
        }
      }
      int n = rows.size();
      double[] f = new double[n];
      double[] re = new double[n];
      double[] im = new double[n];
      for (int i = 0; i < n; i++) {
        double phase = Math.toRadians(rows.get(i)[2]);
        f[i] = rows.get(i)[0];
        re[i] = rows.get(i)[1] * Math.cos(phase);
        im[i] = rows.get(i)[1] * Math.sin(phase);
      }
      return ImpedanceCurve.of(f, re, im);
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  /** One weighted least-squares fit, from start to solution. */
  @Benchmark
  public Solution solve() {
    return LevenbergMarquardt.solve(model, start, weights, 1e-6);
  }

  /** The whole search over kinds of coil and suspension, noise and readings. */
  @Benchmark
  public JointFit search() {
    return JointFit.of(takes, readings);
  }

  /** Prints the weighted square sum, for the script to reach. */
  public static void main(String[] args) {
    JointFitBenchmark b = new JointFitBenchmark();
    b.read();
    System.out.println(b.solve().cost());
  }
}
