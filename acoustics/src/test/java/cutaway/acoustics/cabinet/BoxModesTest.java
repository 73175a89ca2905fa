package cutaway.acoustics.cabinet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Against CalculiX shells and solids (cabinet/README.md), and itself. */
class BoxModesTest {
  /** Within 2 % of the shells, or between them and the solids. */
  @ParameterizedTest
  @ValueSource(strings = {"b4_s01_rect", "b4_s02_trapezoid_thick_front", "b4_s03_rect_cutout_ring"})
  void swingsAsShellsOrSolidsDo(String name) {
    JsonNode truth = CabinetCase.json(name, "truth.json");
    BoxModes modes = BoxModes.of(CabinetCase.walls(name), 20);
    for (int mode = 0; mode < 20; mode++) {
      double shell = truth.get("frequencies_hz").get(mode).asDouble();
      double solid = truth.path("solid_frequencies_hz").path(mode).asDouble(shell);
      assertThat(modes.frequency(mode))
          .as("mode %d", mode + 1)
          .isBetween(0.98 * shell, Math.max(1.02 * shell, solid));
    }
  }

  /** The walls that the references name as moving most. */
  @ParameterizedTest
  @ValueSource(strings = {"b4_s01_rect", "b4_s02_trapezoid_thick_front", "b4_s03_rect_cutout_ring"})
  void theRightWallsMove(String name) {
    JsonNode truth = CabinetCase.json(name, "truth.json");
    BoxModes modes = BoxModes.of(CabinetCase.walls(name), 20);
    for (int mode = 0; mode < 10; mode++) {
      int most = 0;
      for (int wall = 1; wall < 6; wall++) {
        most = modes.rms(mode, wall) > modes.rms(mode, most) ? wall : most;
      }
      List<String> named = new ArrayList<>();
      truth.get("walls_moving_most").get(mode).forEach(w -> named.add(w.asText()));
      assertThat(named).as("mode %d", mode + 1).contains(modes.walls().get(most).name());
    }
  }

  /** The nodes' displacements, where two modes do not lie close together. */
  @ParameterizedTest
  @ValueSource(strings = {"b4_s01_rect", "b4_s02_trapezoid_thick_front", "b4_s03_rect_cutout_ring"})
  void hasTheShellsShapes(String name) {
    BoxModes modes = BoxModes.of(CabinetCase.walls(name), 8);
    List<double[]> rows = CabinetCase.rows(name, "mode_shapes.csv");
    for (int mode = 0; mode < 5; mode++) {
      double product = 0;
      double mine = 0;
      double theirs = 0;
      for (double[] row : rows) {
        Point p = new Point(row[0], row[1], row[2]);
        for (int wall = 0; wall < 6; wall++) {
          Point local = modes.walls().get(wall).plane().local(p);
          if (Math.abs(local.z()) < 1e-6) {
            Point u = modes.displacement(mode, wall, local).orElse(new Point(0, 0, 0));
            Point v = new Point(row[3 + 3 * mode], row[4 + 3 * mode], row[5 + 3 * mode]);
            product += u.dot(v);
            mine += u.dot(u);
            theirs += v.dot(v);
          }
        }
      }
      assertThat(product * product / mine / theirs).as("mode %d", mode + 1).isGreaterThan(0.8);
    }
  }

  private static List<Point> corners(double x, double y, double z) {
    List<Point> out = new ArrayList<>();
    for (int i = 0; i < 8; i++) {
      out.add(new Point((i % 4 == 1 || i % 4 == 2) ? x : 0, i % 4 > 1 ? y : 0, i > 3 ? z : 0));
    }
    return out;
  }

  private static final int[][] FACES = {
    {0, 1, 5, 4}, {1, 2, 6, 5}, {2, 3, 7, 6}, {3, 0, 4, 7}, {3, 2, 1, 0}, {4, 5, 6, 7}
  };

  private static List<Wall> box(List<Point> corners) {
    Board board = Board.isotropic(0.015, 700, 3e9, 0.3);
    List<Wall> out = new ArrayList<>();
    for (int[] face : FACES) {
      out.add(
          Wall.between(
              "wall " + out.size(),
              java.util.Arrays.stream(face).mapToObj(corners::get).toList(),
              board));
    }
    return out;
  }

  /** Slanted in space all the same; the order of the walls does not matter either. */
  @Test
  void turningTheBoxChangesNothing() {
    List<Point> corners = corners(0.25, 0.3, 0.45);
    BoxModes still = BoxModes.of(box(corners), 8);
    Plane tilted =
        new Plane(
            new Point(1, 2, 3), new Point(0.36, 0.48, 0.8).unit(), new Point(-0.8, 0.6, 0).unit());
    List<Wall> walls = new ArrayList<>(box(corners.stream().map(tilted::space).toList()));
    java.util.Collections.reverse(walls);
    BoxModes turned = BoxModes.of(walls, 8);
    for (int mode = 0; mode < 8; mode++) {
      double f = still.frequency(mode);
      assertThat(turned.frequency(mode)).isCloseTo(f, within(1e-4 * f));
    }
  }

  private static Wall frame(double height) {
    List<Point> corners =
        List.of(
            new Point(0, 0, height),
            new Point(0.25, 0, height),
            new Point(0.25, 0.3, height),
            new Point(0, 0.3, height));
    List<Point> opening =
        List.of(
            new Point(0.05, 0.05, 0),
            new Point(0.2, 0.05, 0),
            new Point(0.2, 0.25, 0),
            new Point(0.05, 0.25, 0));
    return Wall.between("brace", corners, Board.isotropic(0.015, 700, 3e9, 0.3))
        .with(List.<CutOut>of(new Window(opening)));
  }

  /** A frame across the middle, tied to four walls: the walls' first modes rise much. */
  @Test
  void aWindowBraceStiffens() {
    List<Wall> walls = new ArrayList<>(box(corners(0.25, 0.3, 0.45)));
    BoxModes plain = BoxModes.of(walls, 6);
    walls.add(frame(0.2));
    BoxModes braced = BoxModes.of(walls, 6);
    BoxModes finer = BoxModes.of(walls, 6, 8);
    assertThat(braced.frequency(0)).isGreaterThan(1.2 * plain.frequency(0));
    for (int mode = 0; mode < 6; mode++) {
      double f = finer.frequency(mode);
      assertThat(braced.frequency(mode)).as("mode %d", mode).isCloseTo(f, within(0.005 * f));
    }
  }

  /** The rest condensed, a changed wall gives what the whole solved anew does; braces too. */
  @Test
  void oneWallIsSwapped() {
    List<Wall> walls = box(corners(0.25, 0.3, 0.45));
    WallSwap swap = WallSwap.of(walls, 3, 12);
    Wall left = walls.get(3);
    Board thick = Board.isotropic(0.022, 700, 3e9, 0.3);
    Brace batten =
        new Brace(new Point(0.02, 0.2, 0), new Point(0.28, 0.2, 0), 0.018, 0.04, 3e9, 1.2e9, 700);
    for (Wall changed :
        List.of(
            left,
            Wall.between("thick", left.corners(), thick),
            left.with(List.of(Hole.open(new Point(0.15, 0.2, 0), 0.05))),
            new Wall(
                "braced",
                left.plane(),
                new Panel(
                    left.panel().outline(),
                    left.panel().board(),
                    left.panel().supports(),
                    List.of(),
                    List.of(),
                    List.of(batten))))) {
      BoxModes quick = swap.with(changed);
      List<Wall> all = new ArrayList<>(walls);
      all.set(3, changed);
      BoxModes full = BoxModes.of(all, 12);
      assertThat(quick.walls()).hasSameSizeAs(full.walls());
      for (int mode = 0; mode < 12; mode++) {
        double f = full.frequency(mode);
        assertThat(quick.frequency(mode)).isCloseTo(f, within(0.01 * f));
      }
      for (int wall = 0; wall < full.walls().size(); wall++) {
        assertThat(quick.rms(0, wall)).isCloseTo(full.rms(0, wall), within(0.03));
      }
    }
  }

  /** The same with a window brace that stands on the wall. */
  @Test
  void aWallUnderAWindowBraceIsSwapped() {
    List<Wall> walls = new ArrayList<>(box(corners(0.25, 0.3, 0.45)));
    walls.add(frame(0.2));
    WallSwap swap = WallSwap.of(walls, 3, 12);
    Wall left = walls.get(3);
    Brace batten =
        new Brace(new Point(0.05, 0.3, 0), new Point(0.25, 0.3, 0), 0.018, 0.04, 3e9, 1.2e9, 700);
    Panel panel = left.panel();
    Panel braced =
        new Panel(
            panel.outline(),
            Board.isotropic(0.022, 700, 3e9, 0.3),
            panel.supports(),
            List.of(),
            List.of(Hole.open(new Point(0.15, 0.09, 0), 0.04)),
            List.of(batten));
    for (Wall changed : List.of(left, left.with(braced))) {
      List<Wall> all = new ArrayList<>(walls);
      all.set(3, changed);
      BoxModes quick = swap.with(changed);
      BoxModes full = BoxModes.of(all, 12);
      assertThat(quick.walls()).hasSameSizeAs(full.walls());
      for (int mode = 0; mode < 12; mode++) {
        double f = full.frequency(mode);
        assertThat(quick.frequency(mode)).as("mode %d", mode).isCloseTo(f, within(0.01 * f));
      }
      for (int wall = 0; wall < full.walls().size(); wall++) {
        assertThat(quick.rms(0, wall))
            .as("wall %d", wall)
            .isCloseTo(full.rms(0, wall), within(0.03));
      }
    }
  }

  /** A box a little different from the same shapes; one that differs much in full. */
  @Test
  void nearbyIsAsGoodAsNew() {
    List<Wall> walls = box(corners(0.25, 0.3, 0.45));
    BoxModes base = BoxModes.of(walls, 10);
    for (double young : new double[] {3.2e9, 6e9}) {
      List<Wall> others = new ArrayList<>(walls);
      for (int wall = 0; wall < 3; wall++) {
        others.set(
            wall,
            Wall.between(
                "other " + wall,
                walls.get(wall).corners(),
                Board.isotropic(0.0153, 700, young, 0.3)));
      }
      BoxModes near = base.nearby(others);
      BoxModes full = BoxModes.of(others, 10);
      for (int mode = 0; mode < 8; mode++) {
        double f = full.frequency(mode);
        assertThat(near.frequency(mode)).isCloseTo(f, within(3e-3 * f));
      }
    }
  }

  /** Elements of a higher order bring less and less. */
  @Test
  void converges() {
    List<Wall> walls = CabinetCase.walls("b4_s01_rect");
    BoxModes coarse = BoxModes.of(walls, 10, 5);
    BoxModes fine = BoxModes.of(walls, 10, 7);
    BoxModes finest = BoxModes.of(walls, 10, 9);
    for (int mode = 0; mode < 10; mode++) {
      double f = finest.frequency(mode);
      assertThat(coarse.frequency(mode)).isCloseTo(f, within(2.5e-3 * f));
      assertThat(fine.frequency(mode)).isCloseTo(f, within(3e-4 * f));
    }
  }
}
