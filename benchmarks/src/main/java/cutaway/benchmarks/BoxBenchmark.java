package cutaway.benchmarks;

import cutaway.acoustics.cabinet.Board;
import cutaway.acoustics.cabinet.BoxModes;
import cutaway.acoustics.cabinet.Enclosure;
import cutaway.acoustics.cabinet.Wall;
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

/** Twenty modes of a whole box, walls joined; {@code side-by-side/box.sh} holds it to CalculiX. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(1)
public class BoxBenchmark {
  private static final int COUNT = 20;
  private final List<Wall> walls = walls();

  private static List<Wall> walls() {
    Enclosure middle = Enclosure.rectangular(0.24, 0.30, 0.40);
    Board board = Board.isotropic(0.018, 740, 3.3e9, 0.3);
    return middle.walls().stream()
        .map(
            f ->
                Wall.between(
                    f.name(), f.corners().stream().map(middle.corners()::get).toList(), board))
        .toList();
  }

  /** From boards to modes. */
  @Benchmark
  public BoxModes modes() {
    return BoxModes.of(walls, COUNT);
  }

  /** Prints the frequencies, Hz, for the script to compare. */
  public static void main(String[] args) {
    BoxModes modes = new BoxBenchmark().modes();
    StringBuilder out = new StringBuilder();
    for (int mode = 0; mode < COUNT; mode++) {
      out.append(String.format(Locale.ROOT, "%.4f ", modes.frequency(mode)));
    }
    System.out.println(out);
  }
}
