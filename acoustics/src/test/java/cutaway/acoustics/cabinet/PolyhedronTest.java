package cutaway.acoustics.cabinet;

import static org.assertj.core.api.Assertions.assertThat;
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
