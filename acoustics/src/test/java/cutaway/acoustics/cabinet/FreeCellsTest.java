package cutaway.acoustics.cabinet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.modes.Lobatto;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Cut-outs that no rows and columns go about. */
class FreeCellsTest {
  private static final Lobatto LOBATTO = Lobatto.of(9);
  private static final Board BOARD = Board.isotropic(0.018, 700, 3.4e9, 0.3);
  private static final List<Point> RECTANGLE = List.of(p(0, 0), p(0.3, 0), p(0.3, 0.5), p(0, 0.5));

  private static Point p(double x, double y) {
    return new Point(x, y, 0);
  }

  private static Window window(double left, double low, double right, double high) {
    return new Window(List.of(p(left, low), p(right, low), p(right, high), p(left, high)));
  }

  /** Panels as they are met with. */
  enum Met {
    TWO_CONES_TWEETER_AND_PORT(
        RECTANGLE,
        new Hole(p(0.15, 0.13), 0.085, 0.095, 2),
        new Hole(p(0.1, 0.32), 0.04, 0.048, 0.4),
        Hole.open(p(0.22, 0.28), 0.03),
        Hole.open(p(0.2, 0.42), 0.05)),
    L_WITH_A_HOLE_AT_ITS_ELBOW(
        List.of(p(0, 0), p(0.4, 0), p(0.4, 0.2), p(0.2, 0.2), p(0.2, 0.5), p(0, 0.5)),
        Hole.open(p(0.11, 0.11), 0.07),
        Hole.open(p(0.1, 0.35), 0.05)),
    FIVE_CORNERS(
        List.of(p(0, 0), p(0.3, 0), p(0.35, 0.25), p(0.15, 0.5), p(0, 0.45)),
        Hole.open(p(0.12, 0.2), 0.08),
        Hole.open(p(0.26, 0.2), 0.03)),
    WINDOW_AND_HOLE(RECTANGLE, window(0.05, 0.05, 0.25, 0.2), Hole.open(p(0.15, 0.35), 0.08)),
    TWO_WINDOWS(RECTANGLE, window(0.05, 0.05, 0.25, 0.2), window(0.05, 0.3, 0.25, 0.45)),
    TURNED_WINDOW(
        RECTANGLE, new Window(List.of(p(0.15, 0.1), p(0.27, 0.25), p(0.15, 0.4), p(0.03, 0.25))));

    @SuppressWarnings("ImmutableEnumChecker") // records in lists that cannot be changed
    private final List<Point> outline;

    @SuppressWarnings("ImmutableEnumChecker")
    private final List<CutOut> cutOuts;

    Met(List<Point> outline, CutOut... cutOuts) {
      this.outline = List.copyOf(outline);
      this.cutOuts = List.of(cutOuts);
    }

    Panel panel() {
      return FreeCellsTest.panel(outline, cutOuts.toArray(CutOut[]::new));
    }
  }

  private static Panel panel(List<Point> outline, CutOut... cutOuts) {
    return new Panel(
        new Outline(outline),
        BOARD,
        Collections.nCopies(outline.size(), new Support.Clamped()),
        List.of(),
        List.of(cutOuts),
        List.of());
  }

  /** All that is board and nothing else, its flanges too. */
  @ParameterizedTest
  @EnumSource
  void cellsFillThePanel(Met met) {
    Panel panel = met.panel();
    double board = panel.outline().area();
    for (CutOut cut : panel.cutOuts()) {
      board -=
          cut instanceof Hole hole
              ? Math.PI * hole.radius() * hole.radius()
              : new Outline(((Window) cut).corners()).area();
    }
    PlateElement element = new PlateElement(LOBATTO, LOBATTO, false);
    double sum = 0;
    for (PanelCell cell : PanelCells.of(panel, List.of(), 0.17)) {
      for (double area : element.areas(cell)) {
        assertThat(area).isPositive();
        sum += area;
      }
    }
    assertThat(sum).isCloseTo(board, within(1e-9));
  }

  /** Cells that did not meet edge to edge would not settle so. */
  @ParameterizedTest
  @EnumSource
  void modesConverge(Met met) {
    PanelModes some = PanelModes.of(met.panel(), 8, 5);
    PanelModes more = PanelModes.of(met.panel(), 8, 9);
    for (int mode = 0; mode < 8; mode++) {
      double f = more.frequency(mode);
      assertThat(some.frequency(mode)).as("mode %d", mode).isBetween(f * (1 - 1e-5), 1.005 * f);
    }
  }

  /** A rectangle of five corners is cut freely and swings as one of four in rows and columns. */
  @Test
  void cutFreelyIsTheSamePanel() {
    Hole[] holes = {
      new Hole(p(0.15, 0.14), 0.08, 0.09, 1.5), new Hole(p(0.15, 0.36), 0.05, 0.058, 0.5)
    };
    List<Point> five = List.of(p(0, 0), p(0.3, 0), p(0.3, 0.21), p(0.3, 0.5), p(0, 0.5));
    PanelModes rows = PanelModes.of(panel(RECTANGLE, holes), 8, 9);
    PanelModes freely = PanelModes.of(panel(five, holes), 8, 9);
    for (int mode = 0; mode < 8; mode++) {
      double f = rows.frequency(mode);
      assertThat(freely.frequency(mode)).as("mode %d", mode).isCloseTo(f, within(3e-4 * f));
    }
  }

  /**
   * Strips under a brace, whether it is cut along in rows or freely; slanted as well as upright.
   */
  @Test
  void aBraceCutAlongFreelyIsTheSameBrace() {
    List<Point> five = List.of(p(0, 0), p(0.3, 0), p(0.3, 0.21), p(0.3, 0.5), p(0, 0.5));
    Brace flat = new Brace(p(0.12, 0.05), p(0.12, 0.45), 0.06, 0.015, 3.4e9, 1.3e9, 700);
    Brace upright = new Brace(p(0.12, 0.05), p(0.12, 0.45), 0.018, 0.04, 3.4e9, 1.3e9, 700);
    for (Brace brace : List.of(flat, upright)) {
      double share = brace.equals(flat) ? 3e-4 : 0.015;
      PanelModes rows = PanelModes.of(braced(RECTANGLE, brace), 6);
      PanelModes freely = PanelModes.of(braced(five, brace), 6);
      for (int mode = 0; mode < 6; mode++) {
        double f = rows.frequency(mode);
        assertThat(freely.frequency(mode)).as("mode %d", mode).isCloseTo(f, within(share * f));
      }
    }
    Brace slanted = new Brace(p(0.07, 0.08), p(0.23, 0.42), 0.06, 0.015, 3.4e9, 1.3e9, 700);
    assertThat(slanted.footDepth(braced(RECTANGLE, slanted))).isPositive();
    PanelModes some = PanelModes.of(braced(RECTANGLE, slanted), 8, 5);
    PanelModes more = PanelModes.of(braced(RECTANGLE, slanted), 8, 8);
    for (int mode = 0; mode < 8; mode++) {
      double f = more.frequency(mode);
      assertThat(some.frequency(mode)).as("mode %d", mode).isCloseTo(f, within(2e-3 * f));
    }
  }

  private static Panel braced(List<Point> outline, Brace brace) {
    Panel plain = panel(outline);
    return new Panel(
        plain.outline(), BOARD, plain.supports(), List.of(), List.of(), List.of(brace));
  }

  /** A box a hair larger, its walls cut freely: found from its neighbour as it is in full. */
  @ParameterizedTest
  @EnumSource(names = {"TWO_CONES_TWEETER_AND_PORT", "L_WITH_A_HOLE_AT_ITS_ELBOW", "FIVE_CORNERS"})
  void aNearbyBoxIsNotMixedUp(Met met) {
    BoxModes base = BoxModes.of(box(met, 0), 8);
    for (double larger : new double[] {1e-5, 1e-4}) {
      List<Wall> others = box(met, larger);
      BoxModes near = base.nearby(others);
      BoxModes full = BoxModes.of(others, 8);
      for (int mode = 0; mode < 8; mode++) {
        double f = full.frequency(mode);
        assertThat(near.frequency(mode)).as("mode %d", mode).isCloseTo(f, within(3e-3 * f));
      }
    }
  }

  /** A box whose bottom and top are the panel, grown by so much all round; its top is holed. */
  private static List<Wall> box(Met met, double larger) {
    Outline outline = new Outline(met.panel().outline().corners());
    Enclosure plain = Enclosure.prism(outline, outline.corners(), 0.3);
    double[] by = new double[plain.walls().size()];
    Arrays.fill(by, larger);
    Enclosure grown = plain.grown(by);
    List<Wall> out = new ArrayList<>();
    for (Enclosure.Facet facet : grown.walls()) {
      List<Point> corners = facet.corners().stream().map(grown.corners()::get).toList();
      Wall wall = Wall.between(facet.name(), corners, BOARD);
      out.add(facet.name().equals("top") ? wall.with(met.panel().cutOuts()) : wall);
    }
    return out;
  }

  /** A hole of a millimetre close to an edge, whose cells once folded by what corners are moved. */
  @Test
  void noCellFoldsAboutATinyHole() {
    for (double share : new double[] {0.05, 0.06, 0.08, 0.1}) {
      noCellFolds(2, 0.75, 0.04, share);
    }
  }

  /** Holes of any size anywhere in panels of any outline. */
  @Property(tries = 300)
  void noCellFolds(
      @ForAll @IntRange(max = 2) int which,
      @ForAll @DoubleRange(min = 0, max = 1) double right,
      @ForAll @DoubleRange(min = 0, max = 1) double up,
      @ForAll @DoubleRange(min = 0.05, max = 0.8) double share) {
    Met met =
        List.of(Met.TURNED_WINDOW, Met.L_WITH_A_HOLE_AT_ITS_ELBOW, Met.FIVE_CORNERS).get(which);
    Outline outline = new Outline(met.panel().outline().corners());
    Point at = p(0.4 * right, 0.5 * up);
    Assume.that(outline.holds(at) && outline.room(at) > 0.003);
    double radius = share * outline.room(at);
    Hole hole = new Hole(at, radius, 1.1 * radius, 0.3);
    double sum = 0;
    PlateElement element = new PlateElement(LOBATTO, LOBATTO, false);
    for (PanelCell cell : PanelCells.of(panel(outline.corners(), hole), List.of(), 0.17)) {
      for (double area : element.areas(cell)) {
        assertThat(area).isPositive();
        sum += area;
      }
    }
    assertThat(sum).isCloseTo(outline.area() - Math.PI * radius * radius, within(1e-7));
  }

  /**
   * A batten stands beside a hole, however near; the same twice, or over a gap, stands on a line.
   */
  @Test
  void battensBesideHolesAreKept() {
    Hole hole = new Hole(p(0.12, 0.2), 0.085, 0.095, 2);
    for (double gap : new double[] {0.001, 0.004, 0.006, 0.01, 0.02, 0.04}) {
      double at = 0.12 + 0.095 + gap + 0.009;
      Brace brace = new Brace(p(at, 0.08), p(at, 0.3), 0.018, 0.04, 3e9, 1.2e9, 700);
      Brace slanted = new Brace(p(at, 0.08), p(at + 0.02, 0.3), 0.018, 0.04, 3e9, 1.2e9, 700);
      for (List<Brace> braces :
          List.of(List.of(brace), List.of(slanted), List.of(slanted, slanted))) {
        Panel plain = panel(RECTANGLE, hole);
        Panel braced =
            new Panel(plain.outline(), BOARD, plain.supports(), List.of(), plain.cutOuts(), braces);
        assertThat(PanelModes.of(braced, 1).frequency(0))
            .isGreaterThan(PanelModes.of(plain, 1).frequency(0));
      }
    }
  }

  /** Two millimetres of board between two holes are enough, none is not. */
  @Test
  void refusesCutOutsThatMeet() {
    Hole one = Hole.open(p(0.11, 0.15), 0.06);
    assertThat(PanelModes.of(panel(RECTANGLE, one, diagonally(0.002)), 2).frequency(0))
        .isPositive();
    for (CutOut other :
        List.of(diagonally(0), diagonally(-0.01), one, window(0.1, 0.18, 0.2, 0.3))) {
      assertThatThrownBy(() -> PanelModes.of(panel(RECTANGLE, one, other), 2))
          .isInstanceOf(ImpossibleShapeException.class)
          .hasMessageMatching("two cut-outs lie (over each other|too close to each other .*)");
    }
  }

  private static Hole diagonally(double apart) {
    double off = (0.06 + 0.06 + apart) / Math.sqrt(2);
    return Hole.open(p(0.11 + off, 0.15 + off), 0.06);
  }
}
