package cutaway.acoustics.cabinet;

import static org.assertj.core.api.Assertions.assertThat;

import cutaway.acoustics.modes.Lobatto;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Rows and columns of cells. */
class PanelCellsTest {
  /** A foot that rounding ends just short of an edge, beside a hole, leaves no sliver there. */
  @Test
  void roundingLeavesNoSliver() {
    List<Point> corners =
        List.of(
            new Point(0, 0, 0),
            new Point(0.418, 0, 0),
            new Point(0.418, 0.618, 0),
            new Point(0, 0.618, 0));
    Panel panel =
        new Panel(
            new Outline(corners),
            Board.isotropic(0.018, 745, 3.5e9, 0.3),
            Collections.nCopies(4, new Support.Free()),
            List.of(),
            List.of(new Hole(new Point(0.209, 0.321, 0), 0.09, 0.1025, 2)),
            List.of());
    double short_ = 0.41799999999999987;
    Edge foot = new Edge(new Point(0, 0.141, 0), new Point(short_, 0.141, 0));
    Edge again = new Edge(new Point(0, 0.14100000000000001, 0), new Point(short_, 0.141, 0));
    PlateElement element = new PlateElement(Lobatto.of(5), Lobatto.of(5), false);
    for (PanelCell cell : PanelCells.of(panel, List.of(foot, again), 0.34)) {
      assertThat(Arrays.stream(element.areas(cell)).min().orElseThrow()).isGreaterThan(1e-9);
    }
  }
}
