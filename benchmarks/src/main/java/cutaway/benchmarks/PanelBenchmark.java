package cutaway.benchmarks;

import cutaway.acoustics.cabinet.Board;
import cutaway.acoustics.cabinet.Panel;
import cutaway.acoustics.cabinet.PanelModes;
import cutaway.acoustics.cabinet.Point;
import cutaway.acoustics.cabinet.Support;
import java.util.Collections;
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

/** The first ten modes of a clamped board; {@code side-by-side/panel.py} writes the same. */
@State(Scope.Thread)
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(1)
public class PanelBenchmark {
  private static final int COUNT = 10;
  private final Panel panel =
      Panel.of(
          List.of(
              new Point(0, 0, 0),
              new Point(0.4, 0, 0),
              new Point(0.4, 0.3, 0),
              new Point(0, 0.3, 0)),
          Board.isotropic(0.018, 740, 3.3e9, 0.3),
          Collections.nCopies(4, new Support.Clamped()),
          List.of(),
          List.of(),
          List.of());

  /** From board to modes. */
  @Benchmark
  public PanelModes modes() {
    return PanelModes.of(panel, COUNT);
  }

  /** Prints the frequencies, Hz, for the script to compare. */
  public static void main(String[] args) {
    PanelModes modes = new PanelBenchmark().modes();
    StringBuilder out = new StringBuilder();
    for (int mode = 0; mode < COUNT; mode++) {
      out.append(String.format(Locale.ROOT, "%.4f ", modes.frequency(mode)));
    }
    System.out.println(out);
  }
}
