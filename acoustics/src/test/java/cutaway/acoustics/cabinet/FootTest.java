package cutaway.acoustics.cabinet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.ToDoubleFunction;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.aggregator.ArgumentsAccessor;
import org.junit.jupiter.params.provider.CsvFileSource;

/** Boxes on feet, against mechanics in closed form and against what they are without. */
class FootTest {
  private static final double WIDTH = 0.25;
  private static final double DEPTH = 0.3;
  private static final double HEIGHT = 0.45;
  private static final double THICK = 0.015;
  private static final double DENSITY = 700;
  private static final double INSET = 0.03;

  private static final int[][] FACES = {
    {3, 2, 1, 0}, {0, 1, 5, 4}, {1, 2, 6, 5}, {2, 3, 7, 6}, {3, 0, 4, 7}, {4, 5, 6, 7}
  };

  /** A box by its middle planes, the bottom first. */
  private static List<Wall> box(double young, Plane turned) {
    List<Point> corners = new ArrayList<>();
    for (int i = 0; i < 8; i++) {
      corners.add(
          turned.space(
              new Point(
                  i % 4 == 1 || i % 4 == 2 ? WIDTH : 0,
                  i % 4 > 1 ? DEPTH : 0,
                  i > 3 ? HEIGHT : 0)));
    }
    List<Wall> out = new ArrayList<>();
    for (int[] face : FACES) {
      out.add(
          Wall.between(
              "wall " + out.size(),
              Arrays.stream(face).mapToObj(corners::get).toList(),
              Board.isotropic(THICK, DENSITY, young, 0.3)));
    }
    return out;
  }

  private static final Plane UPRIGHT =
      new Plane(new Point(0, 0, 0), new Point(1, 0, 0), new Point(0, 1, 0));

  private static List<Wall> standing(
      double young, Plane turned, double diameter, double k, double kt) {
    List<Wall> walls = box(young, turned);
    Plane plane = walls.get(0).plane();
    List<Foot> feet = new ArrayList<>();
    for (double x : new double[] {INSET, WIDTH - INSET}) {
      for (double y : new double[] {INSET, DEPTH - INSET}) {
        Point at = plane.local(turned.space(new Point(x, y, 0)));
        feet.add(new Foot(at, diameter, k, kt));
      }
    }
    walls.set(0, walls.get(0).on(feet));
    return walls;
  }

  /** Polynomials over a disc: ∫ x⁴ = r⁶π/8, ∫ x²y² = r⁶π/24, over πr². */
  @Test
  void partsStandForTheDisc() {
    Foot foot = new Foot(new Point(0.3, 0.2, 0), 0.04, 1, 1);
    double r = 0.02;
    assertThat(sum(foot, p -> 1)).isCloseTo(1, within(1e-12));
    assertThat(sum(foot, p -> p.x() - 0.3)).isCloseTo(0, within(1e-12));
    assertThat(sum(foot, p -> Math.pow(p.x() - 0.3, 2))).isCloseTo(r * r / 4, within(1e-12));
    assertThat(sum(foot, p -> Math.pow(p.x() - 0.3, 4)))
        .isCloseTo(Math.pow(r, 4) / 8, within(1e-15));
    assertThat(sum(foot, p -> Math.pow(p.x() - 0.3, 2) * Math.pow(p.y() - 0.2, 2)))
        .isCloseTo(Math.pow(r, 4) / 24, within(1e-15));
  }

  private static double sum(Foot foot, ToDoubleFunction<Point> f) {
    return foot.parts().stream().mapToDouble(p -> p.share() * f.applyAsDouble(p.at())).sum();
  }

  /**
   * A box that hardly gives is a stiff body on springs: it bounces at √(K/m), turns about the
   * upright at √(K_t(x² + y²)/J), and rocks and slides at the roots of two by two equations.
   */
  @Test
  void stiffBoxIsABodyOnSprings() {
    double k = 3e5;
    double kt = 1e5;
    double d = 0.03;
    double[] found = BoxModes.of(standing(3e13, UPRIGHT, d, k, kt), 3).onFeet();
    double m = 0;
    double[] inertia = new double[3];
    double[][] sizes = {
      {WIDTH, DEPTH, 0, HEIGHT / 2}, {WIDTH, HEIGHT, 1, DEPTH / 2}, {DEPTH, HEIGHT, 2, WIDTH / 2}
    };
    for (double[] s : sizes) {
      double its = s[0] * s[1] * THICK * DENSITY;
      m += 2 * its;
      int across = s[2] == 0 ? 2 : s[2] == 1 ? 1 : 0;
      int one = s[2] == 2 ? 1 : 0;
      int other = s[2] == 0 ? 1 : 2;
      double about = its * THICK * THICK / 12;
      inertia[across] += 2 * its * (s[0] * s[0] + s[1] * s[1]) / 12;
      inertia[one] += 2 * (its * (s[1] * s[1] / 12 + s[3] * s[3]) + about);
      inertia[other] += 2 * (its * (s[0] * s[0] / 12 + s[3] * s[3]) + about);
    }
    List<Double> expected = new ArrayList<>();
    expected.add(Math.sqrt(4 * k / m));
    double x = WIDTH / 2 - INSET;
    double y = DEPTH / 2 - INSET;
    // a pad resists turning of its own: ∫ x² over the disc, d²/16
    expected.add(Math.sqrt(4 * kt * (x * x + y * y + d * d / 8) / inertia[2]));
    double up = HEIGHT / 2 + THICK / 2;
    for (double[] way : new double[][] {{y, inertia[0]}, {x, inertia[1]}}) {
      double slide = 4 * kt / m;
      double rock = (4 * kt * up * up + 4 * k * (way[0] * way[0] + d * d / 16)) / way[1];
      double both = 4 * kt * up;
      double half = (slide + rock) / 2;
      double root = Math.sqrt(half * half - slide * rock + both * both / m / way[1]);
      expected.add(Math.sqrt(half - root));
      expected.add(Math.sqrt(half + root));
    }
    double[] truth = expected.stream().mapToDouble(w -> w / (2 * Math.PI)).sorted().toArray();
    assertThat(found).hasSize(6);
    for (int i = 0; i < 6; i++) {
      assertThat(found[i]).as("motion %d", i).isCloseTo(truth[i], within(2e-3 * truth[i]));
    }
  }

  /** Boxes on soft, stiff and hard feet, two to four of them (cabinet/feet_solids.csv). */
  @ParameterizedTest
  @CsvFileSource(resources = "/cabinet/feet_solids.csv", useHeadersInDisplayName = true)
  void movesAsTheSolidDoes(ArgumentsAccessor row) {
    double[] n = IntStream.range(1, 18).mapToDouble(row::getDouble).toArray();
    Enclosure outer = Enclosure.rectangular(n[0], n[1], n[2]);
    double[] half =
        outer.walls().stream()
            .mapToDouble(w -> -(w.name().equals("bottom") ? n[4] : n[3]) / 2)
            .toArray();
    Enclosure middle = outer.grown(half);
    List<Wall> walls = new ArrayList<>();
    for (int i = 0; i < half.length; i++) {
      Enclosure.Facet facet = middle.walls().get(i);
      List<Point> corners = facet.corners().stream().map(middle.corners()::get).toList();
      Board board = Board.isotropic(-2 * half[i], n[6], n[5], 0.3);
      Wall wall = Wall.between(facet.name(), corners, board);
      walls.add(facet.name().equals("bottom") ? wall.on(feet(row.getString(18), n, wall)) : wall);
    }
    BoxModes modes = BoxModes.of(walls, 20);
    double[] all =
        DoubleStream.concat(
                Arrays.stream(modes.onFeet()), IntStream.range(0, 20).mapToDouble(modes::frequency))
            .sorted()
            .toArray();
    for (int mode = 0; mode < 6; mode++) {
      double f = n[11 + mode];
      assertThat(all[mode]).as("mode %d", mode + 1).isCloseTo(f, within(n[10] * f));
    }
  }

  private static List<Foot> feet(String millimetres, double[] n, Wall bottom) {
    double[] at = Arrays.stream(millimetres.split(" ")).mapToDouble(Double::parseDouble).toArray();
    List<Foot> out = new ArrayList<>();
    for (int i = 0; i < at.length; i += 2) {
      Point p = bottom.plane().local(new Point(at[i] / 1000, at[i + 1] / 1000, 0));
      out.add(new Foot(new Point(p.x(), p.y(), 0), n[7], n[8], n[9]));
    }
    return out;
  }

  /**
   * On soft feet the walls swing as if it hung; the share of the feet tells what stiffer ones do.
   */
  @Test
  void theFeetsShareIsTheSlope() {
    BoxModes free = BoxModes.of(box(3e9, UPRIGHT), 10);
    BoxModes soft = BoxModes.of(standing(3e9, UPRIGHT, 0.025, 1e4, 3e3), 10);
    BoxModes hard = BoxModes.of(standing(3e9, UPRIGHT, 0.025, 5e6, 2e6), 10);
    BoxModes stiffer = BoxModes.of(standing(3e9, UPRIGHT, 0.025, 5.1e6, 2.04e6), 10);
    assertThat(free.onFeet()).isEmpty();
    for (int mode = 0; mode < 10; mode++) {
      assertThat(free.feet(mode)).isZero();
      double f = free.frequency(mode);
      assertThat(soft.frequency(mode)).isCloseTo(f, within(2e-3 * f));
      double rise = Math.log(stiffer.frequency(mode) / hard.frequency(mode)) / Math.log(1.02);
      assertThat(rise).as("mode %d", mode).isCloseTo(hard.feet(mode) / 2, within(2e-3));
    }
    assertThat(IntStream.range(0, 10).mapToDouble(hard::feet).max().orElseThrow())
        .isGreaterThan(0.02);
  }

  /** On hard feet the bottom bends more than they give, yet the box moves whole six ways. */
  @Test
  void onHardFeetTheBoxStillMovesAsAWhole() {
    BoxModes hard = BoxModes.of(standing(3e9, UPRIGHT, 0.012, 2e7, 2e6), 10);
    BoxModes free = BoxModes.of(box(3e9, UPRIGHT), 10);
    assertThat(hard.onFeet()).hasSize(6);
    assertThat(hard.frequency(0)).isCloseTo(free.frequency(0), within(0.05 * free.frequency(0)));
  }

  /**
   * All that the box does, whole or in its walls, rises with stiffer feet, whichever way it is
   * turned.
   */
  @Property(tries = 6)
  void stifferFeetLowerNothing(
      @ForAll @DoubleRange(min = 4, max = 7) double exponent,
      @ForAll @DoubleRange(min = 1, max = 4) double stiffer,
      @ForAll @DoubleRange(min = 0.1, max = 1) double sideways) {
    double k = Math.pow(10, exponent);
    Plane tilted =
        new Plane(
            new Point(1, 2, 3), new Point(0.36, 0.48, 0.8).unit(), new Point(-0.8, 0.6, 0).unit());
    double[] one = all(standing(3e9, UPRIGHT, 0.025, k, sideways * k));
    double[] turned = all(standing(3e9, tilted, 0.025, k, sideways * k));
    double[] other = all(standing(3e9, UPRIGHT, 0.025, stiffer * k, stiffer * sideways * k));
    for (int i = 0; i < one.length; i++) {
      assertThat(turned[i]).isCloseTo(one[i], within(1e-4 * one[i]));
      assertThat(other[i]).isGreaterThan(one[i] * (1 - 1e-9));
    }
  }

  private static double[] all(List<Wall> walls) {
    BoxModes modes = BoxModes.of(walls, 8);
    double[] walling = IntStream.range(0, 8).mapToDouble(modes::frequency).toArray();
    double[] out = Arrays.copyOf(modes.onFeet(), 6 + walling.length);
    System.arraycopy(walling, 0, out, modes.onFeet().length, walling.length);
    return Arrays.stream(out).filter(f -> f > 0).sorted().limit(8).toArray();
  }

  /** A wall changed, the box's feet under it or under another. */
  @Test
  void oneWallIsSwapped() {
    List<Wall> walls = standing(3e9, UPRIGHT, 0.025, 5e6, 1e6);
    Board thick = Board.isotropic(0.022, 700, 3e9, 0.3);
    for (int which : new int[] {0, 3}) {
      Wall its = walls.get(which);
      Wall changed = Wall.between(its.name(), its.corners(), thick).on(its.feet());
      List<Wall> all = new ArrayList<>(walls);
      all.set(which, changed);
      BoxModes quick = WallSwap.of(walls, which, 10).with(changed);
      BoxModes full = BoxModes.of(all, 10);
      for (int mode = 0; mode < 10; mode++) {
        double f = full.frequency(mode);
        assertThat(quick.frequency(mode)).isCloseTo(f, within(0.01 * f));
        assertThat(quick.feet(mode))
            .isCloseTo(full.feet(mode), within(0.002 + 0.1 * full.feet(mode)));
      }
      assertThat(quick.onFeet()).hasSameSizeAs(full.onFeet());
      for (int i = 0; i < full.onFeet().length; i++) {
        double f = full.onFeet()[i];
        assertThat(quick.onFeet()[i]).isCloseTo(f, within(5e-3 * f));
      }
      // else the shares would be told apart from nothing
      assertThat(IntStream.range(0, 10).mapToDouble(full::feet).max().orElseThrow())
          .isGreaterThan(0.03);
    }
  }

  /** A box a little different on the same feet. */
  @Test
  void nearbyIsAsGoodAsNew() {
    BoxModes base = BoxModes.of(standing(3e9, UPRIGHT, 0.025, 5e6, 1e6), 10);
    List<Wall> others = standing(3.2e9, UPRIGHT, 0.025, 1e6, 3e5);
    BoxModes near = base.nearby(others);
    BoxModes full = BoxModes.of(others, 10);
    for (int mode = 0; mode < 8; mode++) {
      double f = full.frequency(mode);
      assertThat(near.frequency(mode)).isCloseTo(f, within(3e-3 * f));
      assertThat(near.feet(mode))
          .isCloseTo(full.feet(mode), within(0.001 + 0.05 * full.feet(mode)));
    }
  }

  @Test
  void thereIsNoFootUnderAHole() {
    List<Wall> walls = standing(3e9, UPRIGHT, 0.025, 5e6, 1e6);
    Wall bottom = walls.get(0);
    Point at = new Point(0.12, 0.15, 0);
    walls.set(
        0,
        bottom
            .with(List.<CutOut>of(Hole.open(at, 0.04)))
            .on(List.of(new Foot(at, 0.02, 1e6, 1e5))));
    assertThatThrownBy(() -> BoxModes.check(walls))
        .isInstanceOf(ImpossibleShapeException.class)
        .hasMessage("a foot stands under a cut-out of the wall 0");
  }
}
