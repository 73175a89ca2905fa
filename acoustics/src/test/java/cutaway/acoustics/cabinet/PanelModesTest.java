package cutaway.acoustics.cabinet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import cutaway.acoustics.Published;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.aggregator.ArgumentsAccessor;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Against CalculiX solids, an independent Mindlin plate (cabinet/README.md), and itself. */
class PanelModesTest {
  private static Panel panel(String name) {
    JsonNode geometry = CabinetCase.json(name, "geometry.json");
    List<Point> corners = new ArrayList<>();
    geometry
        .get("corners_xy")
        .forEach(p -> corners.add(new Point(p.get(0).asDouble(), p.get(1).asDouble(), 0)));
    List<Support> supports = new ArrayList<>();
    for (char letter : geometry.get("bc").asText().toCharArray()) {
      supports.add(
          switch (letter) {
            case 'C' -> new Support.Clamped();
            case 'F' -> new Support.Free();
            default ->
                new Support.Supported(geometry.path("edge_spring_Nm_per_rad_per_m").asDouble(0));
          });
    }
    List<AddedMass> masses = new ArrayList<>();
    geometry
        .path("patches")
        .forEach(
            m ->
                masses.add(
                    new AddedMass(
                        m.get("x").get(0).asDouble(),
                        m.get("x").get(1).asDouble(),
                        m.get("y").get(0).asDouble(),
                        m.get("y").get(1).asDouble(),
                        m.get("mass_kg").asDouble())));
    JsonNode hole = geometry.path("hole");
    List<CutOut> cut =
        hole.isMissingNode()
            ? List.of()
            : List.of(
                Hole.open(
                    new Point(
                        hole.get("centre").get(0).asDouble(),
                        hole.get("centre").get(1).asDouble(),
                        0),
                    hole.get("radius").asDouble()));
    return Panel.of(corners, board(geometry), supports, masses, cut, braces(geometry));
  }

  /** The cases have their braces across the panel, along x. */
  private static List<Brace> braces(JsonNode geometry) {
    List<Brace> out = new ArrayList<>();
    for (JsonNode rib : geometry.path("ribs")) {
      double front = rib.get("y").get(0).asDouble();
      double back = rib.get("y").get(1).asDouble();
      JsonNode m = geometry.get("material");
      double young = m.get("E").asDouble();
      out.add(
          new Brace(
              new Point(rib.get("x").get(0).asDouble(), (front + back) / 2, 0),
              new Point(rib.get("x").get(1).asDouble(), (front + back) / 2, 0),
              back - front,
              rib.get("height").asDouble(),
              young,
              young / (2 * (1 + m.get("nu").asDouble())),
              m.get("rho").asDouble()));
    }
    return out;
  }

  private static Board board(JsonNode geometry) {
    double h = geometry.get("thickness_m").asDouble();
    JsonNode m = geometry.get("material");
    if (!m.has("ortho")) {
      return Board.isotropic(
          h, m.get("rho").asDouble(), m.get("E").asDouble(), m.get("nu").asDouble());
    }
    JsonNode o = m.get("ortho");
    return new Board(
        h,
        m.get("rho").asDouble(),
        o.get("E1").asDouble(),
        o.get("E2").asDouble(),
        o.get("nu12").asDouble(),
        o.get("G12").asDouble(),
        o.get("G13").asDouble(),
        o.get("G23").asDouble(),
        Math.toRadians(geometry.path("grain_angle_deg").asDouble(0)));
  }

  @ParameterizedTest
  @CsvSource({
    "b3_s01_rect_clamped, 0.01",
    "b3_s02_rect_simply, 0.01",
    "b3_s03_rect_free, 0.01",
    "b3_s04_trapezoid_clamped, 0.01",
    "b3_s05_hole_clamped, 0.02",
    "b3_s06_mass_patch, 0.01",
    "b3_s07_one_brace, 0.02",
    "b3_s08_two_braces, 0.02",
    "b3_s09_plywood, 0.02",
    "b3_s10_elastic_edge, 0.01"
  })
  void swingsAsTheSolidDoes(String name, double tolerance) {
    JsonNode truth = CabinetCase.json(name, "truth.json");
    PanelModes modes = PanelModes.of(panel(name), 10);
    for (int mode = 0; mode < 10; mode++) {
      double f = truth.get("frequencies_hz").get(mode).asDouble();
      assertThat(modes.frequency(mode)).as("mode %d", mode + 1).isCloseTo(f, within(tolerance * f));
    }
  }

  /** Thick boards, a window near an edge, braces from upright to flat (cabinet/own_solids.csv). */
  @ParameterizedTest
  @CsvFileSource(resources = "/cabinet/own_solids.csv", useHeadersInDisplayName = true)
  void swingsAsOtherSolidsDo(ArgumentsAccessor row) {
    double[] n =
        IntStream.range(0, row.size())
            .filter(i -> i > 0 && i != 7)
            .mapToDouble(row::getDouble)
            .toArray();
    Point from = new Point(n[6], n[7], 0);
    Point to = new Point(n[8], n[9], 0);
    List<CutOut> cut = List.of();
    List<Brace> braces = List.of();
    if (row.getString(7).equals("window")) {
      cut =
          List.of(
              new Window(List.of(from, new Point(n[8], n[7], 0), to, new Point(n[6], n[9], 0))));
    } else if (row.getString(7).equals("brace")) {
      double shear = n[3] / (2 * (1 + n[4]));
      braces = List.of(new Brace(from, to, n[10], n[11], n[3], shear, n[5]));
    }
    PanelModes modes =
        PanelModes.of(
            clamped(n[0], n[1], Board.isotropic(n[2], n[5], n[3], n[4]), cut, braces), 10);
    for (int mode = 0; mode < 10; mode++) {
      double f = n[13 + mode];
      assertThat(modes.frequency(mode)).as("mode %d", mode + 1).isCloseTo(f, within(n[12] * f));
    }
  }

  /**
   * Where a hole's cells reach under a flat brace it stands on a line, and none lies over a hole.
   */
  @Test
  void aFlatBraceIsNotLostBesideAHole() {
    Brace beside =
        new Brace(new Point(0, 0.25, 0), new Point(0.3, 0.25, 0), 0.08, 0.018, 3e9, 1.15e9, 700);
    Brace clear =
        new Brace(new Point(0, 0.34, 0), new Point(0.3, 0.34, 0), 0.03, 0.008, 3e9, 1.15e9, 700);
    Brace over =
        new Brace(new Point(0, 0.14, 0), new Point(0.3, 0.14, 0), 0.08, 0.018, 3e9, 1.15e9, 700);
    assertThat(beside.footDepth(holed(List.of(beside)))).isZero();
    assertThat(clear.footDepth(holed(List.of(clear)))).isPositive();
    double plain = PanelModes.of(holed(List.of()), 1).frequency(0);
    assertThat(PanelModes.of(holed(List.of(beside)), 1).frequency(0)).isGreaterThan(1.05 * plain);
    assertThatThrownBy(() -> PanelModes.of(holed(List.of(over)), 1))
        .isInstanceOf(ImpossibleShapeException.class)
        .hasMessageContaining("stands over a cut-out");
  }

  private static Panel holed(List<Brace> braces) {
    return clamped(
        0.3,
        0.4,
        Board.isotropic(0.016, 700, 3e9, 0.3),
        List.of(Hole.open(new Point(0.15, 0.14, 0), 0.07)),
        braces);
  }

  /** A brace across the way of the elements, and one that reaches over the edge. */
  @Test
  void bracesMayRunAnyWayWithinThePanel() {
    double plain = braced(List.of()).frequency(0);
    double slanted = braced(List.of(brace(0.05, 0.05, 0.25, 0.35))).frequency(0);
    double across = braced(List.of(brace(0, 0.2, 0.3, 0.2))).frequency(0);
    assertThat(slanted).isGreaterThan(plain);
    assertThat(across).isGreaterThan(slanted);
    assertThatThrownBy(() -> braced(List.of(brace(0.1, 0.1, 0.4, 0.1))))
        .isInstanceOf(ImpossibleShapeException.class)
        .hasMessageContaining("the brace reaches over the panel's edge");
  }

  private static Brace brace(double x, double y, double toX, double toY) {
    return new Brace(new Point(x, y, 0), new Point(toX, toY, 0), 0.018, 0.04, 3e9, 1.2e9, 700);
  }

  private static PanelModes braced(List<Brace> braces) {
    return PanelModes.of(
        clamped(0.3, 0.4, Board.isotropic(0.016, 700, 3e9, 0.3), List.of(), braces), 3);
  }

  private static Panel clamped(
      double width, double height, Board board, List<CutOut> cutOuts, List<Brace> braces) {
    return new Panel(
        rectangle(width, height),
        board,
        Collections.nCopies(4, new Support.Clamped()),
        List.of(),
        cutOuts,
        braces);
  }

  /** As the independent plate has it, where the board is the same in every direction. */
  private static Panel withShearOfFiveSixths(Panel p) {
    Board b = p.board();
    if (b.along() != b.across()) {
      return p;
    }
    double g = b.inPlaneShear();
    Board plain =
        new Board(b.thickness(), b.density(), b.along(), b.across(), b.poisson(), g, g, g, 0);
    return new Panel(p.outline(), plain, p.supports(), p.masses(), p.cutOuts(), p.braces());
  }

  /** The independent plate does not cut its elements at the edge of a mass: 06 is left out. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "b3_s01_rect_clamped",
        "b3_s02_rect_simply",
        "b3_s03_rect_free",
        "b3_s04_trapezoid_clamped",
        "b3_s09_plywood",
        "b3_s10_elastic_edge"
      })
  void swingsAsAnIndependentPlateDoes(String name) {
    JsonNode truth = CabinetCase.json(name, "truth.json").get("mindlin_p_element_hz");
    PanelModes modes = PanelModes.of(withShearOfFiveSixths(panel(name)), 10);
    for (int mode = 0; mode < 10; mode++) {
      double f = truth.get(mode).asDouble();
      assertThat(modes.frequency(mode)).as("mode %d", mode + 1).isCloseTo(f, within(2e-4 * f));
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "b3_s01_rect_clamped",
        "b3_s04_trapezoid_clamped",
        "b3_s05_hole_clamped",
        "b3_s06_mass_patch"
      })
  void hasTheSolidsShapes(String name) {
    PanelModes modes = PanelModes.of(panel(name), 6);
    List<double[]> rows = CabinetCase.rows(name, "mode_shapes.csv");
    for (int mode = 0; mode < 6; mode++) {
      double product = 0;
      double size = 0;
      for (double[] row : rows) {
        double mine = modes.deflection(mode, new Point(row[0], row[1], 0)).orElseThrow();
        product += mine * row[2 + mode];
        size += row[2 + mode] * row[2 + mode];
      }
      assertThat(Math.abs(product) / size).as("mode %d", mode + 1).isCloseTo(1, within(0.03));
    }
  }

  /**
   * 06_plates.csv: thin plates (Ritz series, first principles), a two-hundredth of a side thick.
   */
  @ParameterizedTest
  @CsvSource({
    "SSSS, 1, ab1",
    "CCCC, 1, ab1",
    "SCSC, 1, ab1",
    "CFFF, 1, ab1",
    "CCCC, 1.5, ab1.5",
    "FFFF, 1.5, ab1.5",
    "SCSC, 0.4, ab0.4",
    "SSSS, 2, ab2"
  })
  void nearsTheThinPlate(String edges, double ratio, String id) {
    double a = 0.4;
    double h = a / 400 / Math.max(1, ratio);
    List<Support> supports = new ArrayList<>();
    // the table goes x = 0, y = 0, x = a, y = b; a panel y = 0, x = a, y = b, x = 0
    for (int at : new int[] {1, 2, 3, 0}) {
      supports.add(
          switch (edges.charAt(at)) {
            case 'C' -> new Support.Clamped();
            case 'F' -> new Support.Free();
            default -> new Support.Supported(0);
          });
    }
    Board board = Board.isotropic(h, 700, 3e9, 0.3);
    PanelModes modes =
        PanelModes.of(
            new Panel(rectangle(a, a / ratio), board, supports, List.of(), List.of(), List.of()),
            6,
            9);
    double d = 3e9 * h * h * h / 12 / (1 - 0.09);
    for (int mode = 0; mode < 5; mode++) {
      double lambda = Published.value("06_plates.csv", edges + "." + id + "." + (mode + 1));
      double f = lambda / (a * a) * Math.sqrt(d / (700 * h)) / (2 * Math.PI);
      assertThat(modes.frequency(mode)).as("mode %d", mode + 1).isCloseTo(f, within(3e-3 * f));
    }
  }

  private static Outline rectangle(double a, double b) {
    return new Outline(
        List.of(new Point(0, 0, 0), new Point(a, 0, 0), new Point(a, b, 0), new Point(0, b, 0)));
  }

  private static PanelModes rectangle(Board board, Support support, List<AddedMass> masses) {
    return PanelModes.of(
        new Panel(
            rectangle(0.3, 0.4),
            board,
            Collections.nCopies(4, support),
            masses,
            List.of(),
            List.of()),
        8);
  }

  @Test
  void stiffnessNeverLowersAFrequencyAndMassNeverRaisesOne() {
    Board board = Board.isotropic(0.016, 700, 3e9, 0.3);
    PanelModes plain = rectangle(board, new Support.Supported(500), List.of());
    PanelModes stiffer = rectangle(board, new Support.Supported(3000), List.of());
    PanelModes clamped = rectangle(board, new Support.Clamped(), List.of());
    PanelModes heavier =
        rectangle(
            board, new Support.Supported(500), List.of(new AddedMass(0.05, 0.2, 0.1, 0.3, 0.8)));
    for (int mode = 0; mode < 8; mode++) {
      double f = plain.frequency(mode);
      assertThat(stiffer.frequency(mode)).isGreaterThan(f);
      assertThat(clamped.frequency(mode)).isGreaterThan(stiffer.frequency(mode));
      assertThat(heavier.frequency(mode)).isLessThan(f);
    }
  }

  /** Slanted edges, springs and grain with them: all that knows of directions. */
  @Test
  void turningThePanelChangesNothing() {
    List<Point> corners =
        List.of(
            new Point(0, 0, 0),
            new Point(0.34, 0.02, 0),
            new Point(0.28, 0.38, 0),
            new Point(0.06, 0.33, 0));
    List<Support> supports =
        List.of(
            new Support.Supported(0),
            new Support.Supported(900),
            new Support.Clamped(),
            new Support.Free());
    PanelModes still = turned(corners, supports, 0, false);
    for (PanelModes other :
        List.of(turned(corners, supports, 0.9, false), turned(corners, supports, 2.2, true))) {
      for (int mode = 0; mode < 6; mode++) {
        double f = still.frequency(mode);
        assertThat(other.frequency(mode)).isCloseTo(f, within(1e-8 * f));
      }
    }
  }

  private static PanelModes turned(
      List<Point> corners, List<Support> supports, double angle, boolean backwards) {
    double c = Math.cos(angle);
    double s = Math.sin(angle);
    List<Point> at = new ArrayList<>();
    corners.forEach(p -> at.add(new Point(c * p.x() - s * p.y() + 1, s * p.x() + c * p.y(), 0)));
    List<Support> held = new ArrayList<>(supports);
    if (backwards) {
      Collections.reverse(at);
      // the last edge, from the last corner to the first, stays the last
      held = new ArrayList<>(List.of(held.get(2), held.get(1), held.get(0), held.get(3)));
    }
    Board board = new Board(0.018, 680, 9e9, 6e9, 0.1, 7e8, 2.2e8, 2e8, 0.3 + angle);
    return PanelModes.of(Panel.of(at, board, held, List.of(), List.of(), List.of()), 6);
  }

  @Test
  void refusesWhatIsNoPanel() {
    assertThatThrownBy(() -> Board.isotropic(0, 700, 3e9, 0.3))
        .hasMessageContaining("no board has these constants");
    Board board = Board.isotropic(0.016, 700, 3e9, 0.3);
    assertThatThrownBy(
            () -> new Panel(rectangle(0.3, 0.4), board, List.of(), List.of(), List.of(), List.of()))
        .hasMessageContaining("0 supports for 4 edges");
    assertThatThrownBy(() -> holed(0.12, 0.14))
        .hasMessageContaining("reaches over the panel's edge");
    assertThat(holed(0.15, 0.08).frequency(0)).isPositive();
  }

  private static PanelModes holed(double x, double radius) {
    return PanelModes.of(
        clamped(
            0.3,
            0.4,
            Board.isotropic(0.016, 700, 3e9, 0.3),
            List.of(Hole.open(new Point(x, 0.2, 0), radius)),
            List.of()),
        4);
  }
}
