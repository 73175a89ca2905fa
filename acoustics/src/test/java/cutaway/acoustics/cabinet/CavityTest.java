package cutaway.acoustics.cabinet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import cutaway.acoustics.Published;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Against FreeFem++ (cabinet/README.md), the closed form of 07_cavity_modes.csv, and itself. */
class CavityTest {
  static Stream<String> cases() {
    return Stream.of(
        "b1_s01_rect",
        "b1_s02_trapezoid",
        "b1_s03_wedge",
        "b1_s04_frustum",
        "b1_s05_hexahedron",
        "b1_s06_l_prism");
  }

  @ParameterizedTest
  @MethodSource("cases")
  void standsWhereTheReferenceDoes(String name) {
    JsonNode truth = CabinetCase.json(name, "truth.json");
    Cavity cavity = Cavity.of(CabinetCase.shape(name), 15);
    double stated = truth.get("estimated_relative_error_max").asDouble();
    for (int mode = 0; mode < 15; mode++) {
      double k = truth.get("wavenumbers_rad_m").get(mode).asDouble();
      assertThat(cavity.wavenumber(mode))
          .as("mode %d", mode + 1)
          .isCloseTo(k, within(3 * k * stated));
    }
    assertThat(CabinetCase.shape(name).volume())
        .isCloseTo(truth.get("volume_m3").asDouble(), within(1e-8));
  }

  @ParameterizedTest
  @MethodSource("cases")
  void hasTheReferencesShapes(String name) {
    JsonNode truth = CabinetCase.json(name, "truth.json");
    Cavity cavity = Cavity.of(CabinetCase.shape(name), 15);
    List<double[]> rows = CabinetCase.rows(name, "mode_shapes.csv");
    for (int mode = 0; mode < 15; mode++) {
      if (truth.get("near_degenerate").get(mode).asBoolean()) {
        continue;
      }
      double product = 0;
      double size = 0;
      for (double[] row : rows) {
        double mine = cavity.pressures(new Point(row[0], row[1], row[2])).orElseThrow()[mode];
        product += mine * row[3 + mode];
        size += row[3 + mode] * row[3 + mode];
      }
      // one both for the shape and for its scale
      assertThat(Math.abs(product) / size).as("mode %d", mode + 1).isCloseTo(1, within(0.01));
    }
  }

  @Test
  void meetsTheClosedFormOfARectangularRoom() {
    Cavity cavity = Cavity.of(EightCorners.rectangular(0.5, 0.4, 0.3), 11, 7);
    for (int mode = 0; mode < 11; mode++) {
      double f = Published.value("07_cavity_modes.csv", "box." + (mode + 1));
      assertThat(343.2 * cavity.wavenumber(mode) / (2 * Math.PI)).isCloseTo(f, within(1e-6 * f));
    }
  }

  /** In a cube up to six waves share a frequency, and none may be missed. */
  @ParameterizedTest
  @ValueSource(doubles = {0, 1e-7})
  void findsAllWavesOfOneFrequencyInACube(double crooked) {
    double side = 0.3;
    List<Point> corners = new ArrayList<>(Enclosure.rectangular(side, side, side).corners());
    // a hair crooked it is not straight, and needs elements throughout
    corners.set(6, corners.get(6).plus(new Point(crooked, 2 * crooked, -crooked)));
    Cavity cavity = Cavity.of(new EightCorners(new Hexahedron(corners)), 45, 7);
    double[] all =
        IntStream.range(1, 6 * 6 * 6)
            .mapToDouble(i -> Math.PI / side * Math.sqrt(squares(i / 36, i / 6 % 6, i % 6)))
            .sorted()
            .toArray();
    for (int wave = 0; wave < 45; wave++) {
      assertThat(cavity.wavenumber(wave)).isCloseTo(all[wave], within(1e-5 * all[wave]));
    }
  }

  private static double squares(int x, int y, int z) {
    return x * x + y * y + z * z;
  }

  /** Exponentially where the room is smooth: two more orders take the error down a hundredfold. */
  @Test
  void refiningConverges() {
    BoxShape shape = CabinetCase.shape("b1_s04_frustum");
    Cavity fine = Cavity.of(shape, 12, 7);
    double coarse = worst(fine, Cavity.of(shape, 12, 4));
    double middle = worst(fine, Cavity.of(shape, 12, 6));
    assertThat(coarse).isBetween(1e-5, 3e-3);
    assertThat(middle).isLessThan(coarse / 50);
    assertThat(worst(fine, Cavity.of(shape, 12))).isLessThan(1e-4);
  }

  /** At an inward edge only as the grading allows; still far below what a wall is known to. */
  @Test
  void refiningConvergesAtAnInwardEdge() {
    BoxShape shape = CabinetCase.shape("b1_s06_l_prism");
    assertThat(worst(Cavity.of(shape, 12, 7), Cavity.of(shape, 12))).isLessThan(2e-4);
  }

  /** Slopes against differences, in a crooked room, a prism, one askew and a polyhedron. */
  @Test
  void slopesAreThoseOfThePressures() {
    Enclosure tapered =
        Enclosure.tapered(new double[] {0.25, 0.4}, 0.3, new double[] {0.02, 0.2, 0.05, 0.33});
    List<Point> corner =
        List.of(
            new Point(0, 0, 0),
            new Point(0.3, 0, 0),
            new Point(0.3, 0.2, 0),
            new Point(0.12, 0.25, 0),
            new Point(0, 0.3, 0));
    Enclosure prism = Enclosure.prism(new Outline(corner), corner, 0.35);
    double h = 1e-5;
    for (Cavity cavity :
        List.of(
            Cavity.of(tapered.room().orElseThrow(), 9),
            Cavity.of(prism.room().orElseThrow(), 9),
            Cavity.of(leaning(), 9),
            Cavity.of(slanted(6, 7, new Point(0, 0, -0.05)), 9),
            Cavity.of(slanted(5, 6, new Point(-0.05, 0, 0)), 9),
            Cavity.of(Polyhedron.of(tapered).orElseThrow(), 9))) {
      Point p = new Point(0.11, 0.13, 0.17);
      double[][] at = cavity.around(p).orElseThrow();
      Point[] steps = {new Point(h, 0, 0), new Point(0, h, 0), new Point(0, 0, h)};
      double[] here = cavity.pressures(p).orElseThrow();
      for (int axis = 0; axis < 3; axis++) {
        double[] low = cavity.pressures(p.minus(steps[axis])).orElseThrow();
        double[] high = cavity.pressures(p.plus(steps[axis])).orElseThrow();
        for (int mode = 0; mode < 9; mode++) {
          assertThat(at[0][mode + 1]).isCloseTo(here[mode], within(1e-12));
          assertThat(at[1 + axis][mode + 1])
              .isCloseTo((high[mode] - low[mode]) / (2 * h), within(2e-4));
        }
        assertThat(at[1 + axis][0]).isZero();
      }
    }
  }

  /** A plain room with two corners moved: straight along its width, or its depth. */
  private static EightCorners slanted(int first, int second, Point by) {
    List<Point> corners = new ArrayList<>(Enclosure.rectangular(0.26, 0.3, 0.4).corners());
    for (int corner : new int[] {first, second}) {
      corners.set(corner, corners.get(corner).plus(by));
    }
    return new EightCorners(new Hexahedron(corners));
  }

  /** A plain room none of whose edges runs along x, y or z. */
  private static EightCorners leaning() {
    Point x = new Point(0.24, 0.07, -0.03);
    Point y = x.cross(new Point(0, 0, 1)).times(-1.1);
    Point z = x.cross(y).times(4);
    Point o = new Point(-0.02, -0.05, -0.04);
    List<Point> corners = new ArrayList<>();
    for (Point up : List.of(o, o.plus(z))) {
      corners.addAll(List.of(up, up.plus(x), up.plus(x).plus(y), up.plus(y)));
    }
    return new EightCorners(new Hexahedron(corners));
  }

  /** The lowest are as good as ever where only they are asked to be. */
  @Test
  void aFewExactAmongManyAreExact() {
    BoxShape room =
        Enclosure.tapered(new double[] {0.25, 0.3}, 0.36, new double[] {0.02, 0.2, 0.05, 0.27})
            .room()
            .orElseThrow();
    Cavity all = Cavity.of(room, 40, 7);
    Cavity few = Cavity.of(room, 40, new Cavity.Exact(12));
    for (int mode = 0; mode < 40; mode++) {
      double grace = mode < 12 ? 1e-4 : 0.02;
      assertThat(few.wavenumber(mode) / all.wavenumber(mode)).isCloseTo(1, within(grace));
    }
  }

  /** A wave along one edge moves along that; a slant turns it a little. */
  @Test
  void waysAreThoseOfTheEdges() {
    Enclosure plain = Enclosure.rectangular(0.25, 0.3, 0.36);
    double[][] ways = Cavity.of(plain.room().orElseThrow(), 4).ways(plain.corners());
    assertThat(ways[0][2]).isCloseTo(1, within(1e-6));
    assertThat(ways[1][1]).isCloseTo(1, within(1e-6));
    assertThat(ways[3][0] + ways[3][1] + ways[3][2]).isCloseTo(1, within(1e-12));
  }

  private static double worst(Cavity truth, Cavity other) {
    double worst = 0;
    for (int mode = 0; mode < truth.size(); mode++) {
      worst = Math.max(worst, Math.abs(other.wavenumber(mode) / truth.wavenumber(mode) - 1));
    }
    return worst;
  }

  /**
   * A room whose cross-section is the same all along its height, depth, width or all three needs
   * elements for that only; a hair crooked it needs them throughout.
   */
  @ParameterizedTest
  @CsvSource({"2, 6, 0.05, 0", "5, 6, 0.05, 0", "6, 7, 0, 0.05", "6, 7, 0, 0"})
  void aStraightRoomIsAsOneAHairCrooked(int first, int second, double in, double forward) {
    EightCorners room = slanted(first, second, new Point(-in, -forward, 0));
    Cavity straight = Cavity.of(room, 12);
    List<Point> corners = new ArrayList<>(room.whole().corners());
    corners.set(6, corners.get(6).plus(new Point(1e-7, 2e-7, -1e-7)));
    Cavity crooked = Cavity.of(new EightCorners(new Hexahedron(corners)), 12);
    assertThat(straight.unknowns()).isLessThan(crooked.unknowns() / 5);
    assertThat(worst(crooked, straight)).isLessThan(1e-4);
  }

  @Test
  void turningTheRoomChangesNothing() {
    JsonNode geometry = CabinetCase.json("b1_s05_hexahedron", "geometry.json");
    List<Point> corners = CabinetCase.points(geometry.get("corners"));
    Cavity still = Cavity.of(new EightCorners(new Hexahedron(corners)), 6);
    double c = Math.cos(0.7);
    double s = Math.sin(0.7);
    List<Point> turned =
        corners.stream()
            .map(p -> new Point(c * p.x() - s * p.y(), s * p.x() + c * p.y(), p.z()))
            .map(p -> new Point(p.x(), c * p.y() - s * p.z() + 3, s * p.y() + c * p.z()))
            .toList();
    Cavity moved = Cavity.of(new EightCorners(new Hexahedron(turned)), 6);
    for (int mode = 0; mode < 6; mode++) {
      double k = still.wavenumber(mode);
      assertThat(moved.wavenumber(mode)).isCloseTo(k, within(1e-9 * k));
    }
  }
}
