package cutaway.benchmarks;

import cutaway.acoustics.cabinet.Cavity;
import cutaway.acoustics.cabinet.EightCorners;
import cutaway.acoustics.cabinet.Hexahedron;
import cutaway.acoustics.cabinet.Point;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * The first 15 standing waves of a trapezoidal room; {@code side-by-side/cavity.edp} has the same.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(1)
public class CavityBenchmark {
  private static final int COUNT = 15;
  private final EightCorners room = room();

  private static EightCorners room() {
    List<Point> corners = new ArrayList<>();
    for (double z : new double[] {0, 0.42}) {
      corners.add(new Point(0, 0, z));
      corners.add(new Point(0.26, 0, z));
      corners.add(new Point(0.21, 0.3, z));
      corners.add(new Point(0.05, 0.3, z));
    }
    return new EightCorners(new Hexahedron(corners));
  }

  /** From corners to waves. */
  @Benchmark
  public Cavity waves() {
    return Cavity.of(room, COUNT);
  }

  /** Prints the wavenumbers, rad/m, for the script to compare. */
  public static void main(String[] args) {
    Cavity cavity = new CavityBenchmark().waves();
    StringBuilder out = new StringBuilder().append(cavity.unknowns());
    for (int mode = 0; mode < COUNT; mode++) {
      out.append(String.format(Locale.ROOT, " %.9f", cavity.wavenumber(mode)));
    }
    System.out.println(out);
  }
}
