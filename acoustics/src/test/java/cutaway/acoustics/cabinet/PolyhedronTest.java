package cutaway.acoustics.cabinet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.cabinet.Enclosure.Facet;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Free lists of walls against rooms whose standing waves are known in closed form. */
class PolyhedronTest {
  /** Half of a square room, cut along its diagonal: a wall of three corners below and above. */
  private static Enclosure wedge(double side, double height) {
    List<Point> corners = new ArrayList<>();
    for (double z : new double[] {0, height}) {
      corners.add(new Point(0, 0, z));
      corners.add(new Point(side, 0, z));
      corners.add(new Point(side, side, z));
    }
    return new Enclosure(
        corners,
        List.of(
            new Facet("floor", List.of(2, 1, 0)),
            new Facet("lid", List.of(3, 4, 5)),
            new Facet("long", List.of(0, 1, 4, 3)),
            new Facet("short", List.of(1, 2, 5, 4)),
            new Facet("slope", List.of(2, 0, 3, 5))));
  }

  /** Those of the square that are symmetrical about the diagonal (images; any textbook). */
  private static double[] closed(double side, double height, int count) {
    List<Double> all = new ArrayList<>();
    for (int m = 0; m < 8; m++) {
      for (int n = m; n < 8; n++) {
        for (int p = 0; p < 8; p++) {
          all.add(Math.PI * Math.hypot(Math.hypot(m / side, n / side), p / height));
        }
      }
    }
    return all.stream().mapToDouble(k -> k).sorted().skip(1).limit(count).toArray();
  }

  @Test
  void aRoomOfFiveWallsStandsWhereTheClosedFormDoes() {
    BoxShape room = wedge(0.31, 0.42).room().orElseThrow();
    assertThat(room).isInstanceOf(Polyhedron.class);
    assertThat(room.volume()).isCloseTo(0.31 * 0.31 / 2 * 0.42, within(1e-12));
    Cavity cavity = Cavity.of(room, 15);
    double[] truth = closed(0.31, 0.42, 15);
    for (int mode = 0; mode < 15; mode++) {
      assertThat(cavity.wavenumber(mode) / truth[mode])
          .as("wave %d", mode)
          .isCloseTo(1, within(5e-4));
    }
  }

  @Test
  void aRectangularRoomIsTheSameByTetrahedra() {
    Enclosure box = Enclosure.rectangular(0.25, 0.3, 0.36);
    Cavity whole = Cavity.of(box.room().orElseThrow(), 12);
    Cavity parts = Cavity.of(Polyhedron.of(box).orElseThrow(), 12);
    for (int mode = 0; mode < 12; mode++) {
      assertThat(parts.wavenumber(mode) / whole.wavenumber(mode)).isCloseTo(1, within(5e-4));
    }
  }

  @Test
  void sixWallsOfFourCornersAreOneHexahedronHoweverTheyAreListed() {
    Enclosure plain =
        Enclosure.tapered(new double[] {0.3, 0.4}, 0.3, new double[] {0, 0.2, 0, 0.3});
    List<Facet> turned = new ArrayList<>();
    for (int i = 5; i >= 0; i--) {
      List<Integer> c = new ArrayList<>(plain.walls().get(i).corners());
      java.util.Collections.rotate(c, i);
      turned.add(new Facet("wall " + i, c));
    }
    BoxShape room = new Enclosure(plain.corners(), turned).room().orElseThrow();
    assertThat(room).isInstanceOf(EightCorners.class);
    assertThat(room.volume()).isCloseTo(plain.volume(), within(1e-12));
  }

  /** Corners as a tape and a pencil give them: each a little off the plane of its walls. */
  @Test
  void roundedCornersLeaveNoGaps() {
    List<Point> exact = new ArrayList<>();
    for (double along : new double[] {0, 0.35}) {
      for (int i = 0; i < 5; i++) {
        double x = 0.2 * Math.cos(2 * Math.PI * i / 5);
        double y = 0.2 * Math.sin(2 * Math.PI * i / 5);
        // leaning, so that no wall is upright
        exact.add(new Point(x + 0.3 * along, 0.8 * y - 0.6 * along, 0.6 * y + 0.8 * along));
      }
    }
    List<Facet> walls = new ArrayList<>();
    walls.add(new Facet("one end", List.of(4, 3, 2, 1, 0)));
    walls.add(new Facet("other end", List.of(5, 6, 7, 8, 9)));
    for (int i = 0; i < 5; i++) {
      int next = (i + 1) % 5;
      walls.add(new Facet("side " + i, List.of(i, next, 5 + next, 5 + i)));
    }
    Cavity truth = Cavity.of(new Enclosure(exact, walls).room().orElseThrow(), 6);
    List<Point> rounded =
        exact.stream().map(p -> new Point(micro(p.x()), micro(p.y()), micro(p.z()))).toList();
    Cavity off = Cavity.of(new Enclosure(rounded, walls).room().orElseThrow(), 6);
    for (int mode = 0; mode < 6; mode++) {
      assertThat(off.wavenumber(mode) / truth.wavenumber(mode)).isCloseTo(1, within(1e-5));
    }
  }

  private static double micro(double metres) {
    return Math.rint(metres * 1e7) / 1e7;
  }

  @Test
  void aWallThatIsMissingIsSaid() {
    Enclosure plain = Enclosure.rectangular(0.25, 0.3, 0.36);
    for (int missing = 0; missing < 6; missing++) {
      List<Facet> five = new ArrayList<>(plain.walls());
      five.remove(missing);
      assertThatThrownBy(() -> new Enclosure(plain.corners(), five))
          .isInstanceOf(ImpossibleShapeException.class)
          .hasMessageContaining("do not close");
    }
  }

  /** Two arms about a corner: none of the places inside sees all walls of a U. */
  @Test
  void aRoomWithANookThatNoPlaceSeesHasNone() {
    List<Point> u =
        List.of(
            new Point(0, 0, 0),
            new Point(0.4, 0, 0),
            new Point(0.4, 0.1, 0),
            new Point(0.1, 0.1, 0),
            new Point(0.1, 0.2, 0),
            new Point(0.4, 0.2, 0),
            new Point(0.4, 0.3, 0),
            new Point(0, 0.3, 0));
    Enclosure prism = Enclosure.prism(new Outline(u), u, 0.3);
    assertThat(Polyhedron.of(prism)).isEmpty();
    assertThat(prism.room()).isPresent();
  }
}
