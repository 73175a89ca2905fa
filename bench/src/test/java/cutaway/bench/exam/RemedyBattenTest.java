package cutaway.bench.exam;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.cabinet.Brace;
import cutaway.acoustics.cabinet.ImpossibleShapeException;
import cutaway.acoustics.cabinet.Point;
import cutaway.acoustics.cabinet.Wall;
import cutaway.bench.finding.Change.Batten;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RemedyBattenTest {
  /** The board is 18 mm thick, the gap 20 mm: a batten ends 29 mm short of the board's middle. */
  @ParameterizedTest
  @CsvSource({"0.2, 0.02, 0.38", "0.375, 0.02, 0.346", "0.025, 0.054, 0.38", "0.396, 0.02, 0.38"})
  void anEndWithinAWindowBraceIsDrawnIn(double height, double low, double high) {
    Wall back = wall("back", p(0.25, 0.3, 0), p(0, 0.3, 0), p(0, 0.3, 0.4), p(0.25, 0.3, 0.4));
    Brace batten = RemedyBatten.of(back, new Batten(true, 0.5), List.of(level(height)));
    List<Double> ends =
        Stream.of(batten.from(), batten.to())
            .map(end -> back.plane().space(end).z())
            .sorted()
            .toList();
    assertThat(ends.get(0)).isCloseTo(low, within(1e-12));
    assertThat(ends.get(1)).isCloseTo(high, within(1e-12));
  }

  @Test
  void noneLiesInAWindowBrace() {
    Wall back = wall("back", p(0.25, 0.3, 0), p(0, 0.3, 0), p(0, 0.3, 0.4), p(0.25, 0.3, 0.4));
    Batten across = new Batten(false, 0.5);
    assertThatThrownBy(() -> RemedyBatten.of(back, across, List.of(level(0.205))))
        .isInstanceOf(ImpossibleShapeException.class)
        .hasMessage("a batten lies in the window brace");
    Brace beside = RemedyBatten.of(back, across, List.of(level(0.22)));
    assertThat(beside.to().minus(beside.from()).length()).isCloseTo(0.21, within(1e-12));
    Wall low = wall("back", p(0.25, 0.3, 0), p(0, 0.3, 0), p(0, 0.3, 0.06), p(0.25, 0.3, 0.06));
    assertThatThrownBy(() -> RemedyBatten.of(low, new Batten(true, 0.5), List.of(level(0.042))))
        .hasMessage("a batten has no room before the window brace");
  }

  private static Wall level(double z) {
    return wall("brace", p(0, 0, z), p(0.25, 0, z), p(0.25, 0.3, z), p(0, 0.3, z));
  }

  private static Wall wall(String name, Point... corners) {
    return Wall.between(name, List.of(corners), WindowBrace.usual(0.018));
  }

  private static Point p(double x, double y, double z) {
    return new Point(x, y, z);
  }
}
