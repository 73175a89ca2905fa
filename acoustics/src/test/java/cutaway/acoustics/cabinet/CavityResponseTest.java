package cutaway.acoustics.cabinet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.hipparchus.complex.Complex;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Against FreeFem++ (cabinet/README.md) and plain physics. */
class CavityResponseTest {
  private static final double DENSITY = 1.2044;
  private static final double SPEED = 343.2;
  private static final double HIGHEST = 2 * Math.PI * 2000 / SPEED;

  @ParameterizedTest
  @ValueSource(
      strings = {
        "b2_s01_rect_rigid",
        "b2_s02_rect_lined_back",
        "b2_s03_trapezoid_rigid",
        "b2_s04_trapezoid_lined_topbottom"
      })
  void hearsThePistonAsTheReferenceDoes(String name) {
    JsonNode geometry = CabinetCase.json(name, "geometry.json");
    JsonNode piston = geometry.get("piston");
    Point centre =
        new Point(
            piston.get("centre_xz").get(0).asDouble(),
            0,
            piston.get("centre_xz").get(1).asDouble());
    List<Patch> patches = new ArrayList<>();
    patches.add(
        piston.has("radius_m")
            ? Patch.disc(centre, new Point(0, 1, 0), piston.get("radius_m").asDouble())
            : square(centre, piston));
    for (String at : List.of("behind_piston", "port_mouth", "centre")) {
      JsonNode p = geometry.get("receivers").get(at);
      patches.add(
          Patch.point(new Point(p.get(0).asDouble(), p.get(1).asDouble(), p.get(2).asDouble())));
    }
    CavityResponse response =
        CavityResponse.of(
            (EightCorners) CabinetCase.shape(name), lining(geometry), patches, HIGHEST);
    Fluid air = Fluid.air(DENSITY, SPEED, geometry.get("air_bulk_loss_factor").asDouble());
    List<Double> errors = new ArrayList<>();
    for (double[] row : CabinetCase.rows(name, "pressure.csv")) {
      Complex[][] z = response.impedance(row[0], air, fluid(geometry, row[0], air));
      double square = 0;
      double worst = 0;
      for (int r = 0; r < 3; r++) {
        Complex truth = new Complex(row[1 + 2 * r], row[2 + 2 * r]);
        worst = Math.max(worst, z[1 + r][0].subtract(truth).norm());
        square += truth.norm() * truth.norm() / 3;
      }
      errors.add(worst / Math.sqrt(square));
    }
    errors.sort(Double::compare);
    assertThat(errors.get(errors.size() / 2)).isLessThan(0.006);
    assertThat(errors.get((int) (0.95 * errors.size()))).isLessThan(0.03);
    assertThat(errors.get(errors.size() - 1)).isLessThan(0.05);
  }

  /** From the bare room's waves alone: what smoothing the lining's face costs, to 1 kHz. */
  @ParameterizedTest
  @ValueSource(strings = {"b2_s02_rect_lined_back", "b2_s04_trapezoid_lined_topbottom"})
  void followsFromTheBareWaves(String name) {
    JsonNode geometry = CabinetCase.json(name, "geometry.json");
    EightCorners box = (EightCorners) CabinetCase.shape(name);
    Enclosure room = Enclosure.ofEight(box.whole().corners());
    Map<Face, Double> lining = lining(geometry);
    double[] thickness = new double[6];
    for (int wall = 0; wall < 6; wall++) {
      String its = room.walls().get(wall).name().toUpperCase(Locale.ROOT);
      thickness[wall] = lining.getOrDefault(Face.valueOf(its), 0.0);
    }
    List<Patch> patches = new ArrayList<>();
    for (String at : List.of("behind_piston", "port_mouth")) {
      JsonNode p = geometry.get("receivers").get(at);
      patches.add(
          Patch.disc(
              new Point(p.get(0).asDouble(), p.get(1).asDouble(), p.get(2).asDouble()),
              new Point(0, 1, 0),
              0.03));
    }
    CavityResponse full = CavityResponse.of(box, lining, patches, 2 * Math.PI * 1000 / SPEED);
    Cavity waves = Cavity.of(box, 60);
    double[][] means =
        patches.stream()
            .map(p -> StandingWaves.means(waves, p).orElseThrow())
            .toArray(double[][]::new);
    CavityResponse quick = CavityResponse.ofWaves(waves, room, thickness, means);
    Fluid air = Fluid.air(DENSITY, SPEED, 0.01);
    StandingWaves.Lining fibre = f -> fluid(geometry, f, air);
    StandingWaves exact = StandingWaves.lined(full, air, fibre);
    StandingWaves near = StandingWaves.lined(quick, air, fibre);
    assertThat(off(near, exact)).isLessThan(0.06);
    Cavity bare = Cavity.of(box, 4);
    double[] f = new double[4];
    for (int wave = 0; wave < 4; wave++) {
      f[wave] = bare.wavenumber(wave) * SPEED / (2 * Math.PI);
    }
    StandingWaves smooth = near.smoothBetween(30, 0.5 * f[0]);
    double size = near.extra(0.5 * f[0])[1][0].norm();
    for (double at = 31; at < 0.6 * f[0]; at *= 1.1) {
      for (int q = 0; q < 2; q++) {
        Complex through = smooth.extra(at)[1][q];
        assertThat(through.subtract(near.extra(at)[1][q]).norm()).isLessThan(1e-6 * size);
      }
    }
    List<Complex> theirs = full.resonances(f, air, fibre);
    List<Complex> mine = quick.resonances(f, air, fibre);
    for (int wave = 0; wave < 4; wave++) {
      Complex a = theirs.get(wave);
      Complex b = mine.get(wave);
      assertThat(b.getReal()).isCloseTo(a.getReal(), within(0.01 * a.getReal()));
      assertThat(b.getImaginary()).isCloseTo(a.getImaginary(), within(0.03 * a.getImaginary()));
    }
  }

  /** A lining through most of the room, and a tall room with many half-waves along it. */
  @ParameterizedTest
  @CsvSource({"0.36, 0.10", "0.36, 0.15", "0.36, 0.20", "1.1, 0.05", "1.1, 0.15"})
  void followsThickLinings(double height, double thickness) {
    EightCorners box = EightCorners.rectangular(0.25, 0.3, height);
    Enclosure room = Enclosure.ofEight(box.whole().corners());
    double[] lined = new double[6];
    for (int wall = 0; wall < 6; wall++) {
      lined[wall] = room.walls().get(wall).name().equals("back") ? thickness : 0;
    }
    Patch cone = Patch.disc(new Point(0.13, 0, 0.22), new Point(0, 1, 0), 0.05);
    CavityResponse full =
        CavityResponse.of(
            box, Map.of(Face.BACK, thickness), List.of(cone), 2 * Math.PI * 1000 / SPEED);
    Cavity waves = Cavity.of(box, 60, new Cavity.Exact(20));
    double[][] means = {StandingWaves.means(waves, cone).orElseThrow()};
    CavityResponse quick = CavityResponse.ofWaves(waves, room, lined, means);
    Fluid air = Fluid.air(DENSITY, SPEED, 0.02);
    StandingWaves.Lining fibre = f -> LiningLaw.MIKI.fluid(6300, f, DENSITY, SPEED);
    StandingWaves exact = StandingWaves.lined(full, air, fibre);
    StandingWaves near = StandingWaves.lined(quick, air, fibre);
    assertThat(off(near, exact)).isLessThan(0.2);
    double[] f = new double[3];
    for (int wave = 0; wave < 3; wave++) {
      f[wave] = waves.wavenumber(wave) * SPEED / (2 * Math.PI);
    }
    List<Complex> theirs = full.resonances(f, air, fibre);
    List<Complex> mine = quick.resonances(f, air, fibre);
    for (int wave = 0; wave < 3; wave++) {
      Complex a = theirs.get(wave);
      assertThat(mine.get(wave).subtract(a).norm()).isLessThan(0.01 * a.norm());
    }
  }

  /** How far the cone's pressures lie from the true ones up to 1 kHz, over the mean of these. */
  private static double off(StandingWaves near, StandingWaves exact) {
    double wrong = 0;
    double all = 0;
    for (double f = 150; f < 1000; f *= 1.02) {
      Complex a = exact.extra(f)[0][0];
      wrong += Math.pow(near.extra(f)[0][0].subtract(a).norm(), 2);
      all += a.norm() * a.norm();
    }
    return Math.sqrt(wrong / all);
  }

  /** At an edge that points into the air, both walls' linings count in full. */
  @Test
  void liningCountsInConcaveRooms() {
    List<Point> corners =
        List.of(
            new Point(0, 0, 0),
            new Point(0.4, 0, 0),
            new Point(0.4, 0.2, 0),
            new Point(0.2, 0.2, 0),
            new Point(0.2, 0.5, 0),
            new Point(0, 0.5, 0));
    Enclosure room = Enclosure.prism(new Outline(corners), corners, 0.3);
    double[] thickness = new double[8];
    double expected = 0;
    for (int wall = 0; wall < 6; wall++) {
      String name = room.walls().get(wall).name();
      if (name.equals("side-3") || name.equals("side-4")) {
        thickness[wall] = 0.03;
        expected += 0.03 * room.area(room.walls().get(wall));
      }
    }
    Layer layer = Layer.of(room, thickness, 40);
    double sum = layer.volumes().stream().mapToDouble(Double::doubleValue).sum();
    assertThat(sum).isCloseTo(expected, within(1e-9));
  }

  /** Where linings of several walls meet they count once: all the room but what is bare. */
  @Test
  void liningThatMeetsCountsOnce() {
    double[] size = {0.24, 0.2, 0.35};
    Enclosure room = Enclosure.rectangular(size[0], size[1], size[2]);
    double t = 0.04;
    for (int walls = 1; walls <= 6; walls++) {
      double[] thickness = new double[6];
      double[] bare = size.clone();
      for (int wall = 0; wall < walls; wall++) {
        thickness[wall] = t;
        Point normal = room.plane(room.walls().get(wall)).normal();
        bare[0] -= t * Math.abs(normal.x());
        bare[1] -= t * Math.abs(normal.y());
        bare[2] -= t * Math.abs(normal.z());
      }
      double expected = size[0] * size[1] * size[2] - bare[0] * bare[1] * bare[2];
      double sum =
          Layer.of(room, thickness, 40).volumes().stream().mapToDouble(Double::doubleValue).sum();
      assertThat(sum).as("%d walls", walls).isCloseTo(expected, within(1e-4 * expected));
    }
  }

  /** Without lining the waves are the bare room's, exactly on the roots. */
  @Test
  void wavesOfABareRoomAreItsOwn() {
    Fluid air = Fluid.air(DENSITY, SPEED, 0);
    double[] f = {SPEED / 0.6, SPEED / 0.5, SPEED / 0.4};
    List<Complex> found = small(Map.of(), new Point(0.1, 0, 0.2)).resonances(f, air, x -> air);
    for (int wave = 0; wave < 3; wave++) {
      assertThat(found.get(wave).getReal() / (2 * Math.PI))
          .isCloseTo(f[wave], within(1e-4 * f[wave]));
      assertThat(found.get(wave).getImaginary()).isCloseTo(0, within(1e-3));
    }
  }

  /** Square across: waves of one frequency part under a lining, and none is told twice. */
  @Test
  void noWaveIsFoundTwice() {
    EightCorners box = EightCorners.rectangular(0.25, 0.25, 0.4);
    Enclosure room = Enclosure.ofEight(box.whole().corners());
    Cavity waves = Cavity.of(box, 60);
    Fluid air = Fluid.air(DENSITY, SPEED, 0.02);
    // front, right, back, left; under bottom or top the pairs stay alike
    for (int wall = 0; wall < 4; wall++) {
      double[] thickness = new double[6];
      thickness[wall] = 0.04;
      CavityResponse lined = CavityResponse.ofWaves(waves, room, thickness, new double[0][]);
      double[] f = new double[5];
      for (int wave = 0; wave < 5; wave++) {
        f[wave] = waves.wavenumber(wave) * SPEED / (2 * Math.PI);
      }
      List<Complex> found =
          lined.resonances(f, air, x -> LiningLaw.MIKI.fluid(6000, x, DENSITY, SPEED));
      for (int wave = 0; wave < 5; wave++) {
        for (int other = 0; other < wave; other++) {
          double apart = found.get(wave).subtract(found.get(other)).norm();
          assertThat(apart).isGreaterThan(1e-4 * found.get(wave).norm());
        }
      }
    }
  }

  private static Patch square(Point centre, JsonNode piston) {
    double side = piston.get("side_m").asDouble();
    return Patch.parallelogram(centre, new Point(side, 0, 0), new Point(0, 0, side));
  }

  private static Map<Face, Double> lining(JsonNode geometry) {
    Map<Face, Double> out = new EnumMap<>(Face.class);
    JsonNode lining = geometry.get("lining");
    lining
        .path("walls")
        .forEach(
            w ->
                out.put(
                    Face.valueOf(w.asText().toUpperCase(Locale.ROOT)),
                    lining.get("thickness_m").asDouble()));
    return out;
  }

  private static Fluid fluid(JsonNode geometry, double f, Fluid air) {
    JsonNode lining = geometry.get("lining");
    if (lining.isNull()) {
      return air;
    }
    return LiningLaw.valueOf(lining.get("model").asText().toUpperCase(Locale.ROOT))
        .fluid(lining.get("sigma_Pa_s_m2").asDouble(), f, DENSITY, SPEED);
  }

  private static CavityResponse small(Map<Face, Double> lining, Point... points) {
    List<Patch> patches = new ArrayList<>();
    for (Point p : points) {
      patches.add(Patch.point(p));
    }
    return CavityResponse.of(EightCorners.rectangular(0.2, 0.25, 0.3), lining, patches, 15);
  }

  /** Far below the first wave the air is a spring: p = ρc²U/(jωV). */
  @Test
  void isASpringAtLowFrequencies() {
    Fluid air = Fluid.air(DENSITY, SPEED, 0);
    Complex z =
        small(Map.of(), new Point(0.1, 0, 0.2), new Point(0.05, 0.2, 0.1))
            .impedance(5, air, air)[1][0];
    double expected = DENSITY * SPEED * SPEED / (2 * Math.PI * 5 * 0.2 * 0.25 * 0.3);
    assertThat(z.getImaginary()).isCloseTo(-expected, within(1e-3 * expected));
    assertThat(Math.abs(z.getReal())).isLessThan(1e-6 * expected);
  }

  @Test
  void hearsTheSameBothWays() {
    Fluid air = Fluid.air(DENSITY, SPEED, 0.01);
    Fluid wool = LiningLaw.MIKI.fluid(9000, 600, DENSITY, SPEED);
    Complex[][] z =
        small(Map.of(Face.TOP, 0.03), new Point(0.1, 0, 0.1), new Point(0.06, 0.2, 0.2))
            .impedance(600, air, wool);
    assertThat(z[0][1].subtract(z[1][0]).norm()).isLessThan(1e-9 * z[0][1].norm());
  }

  /** Lining filled with air is no lining. */
  @Test
  void liningMadeOfAirChangesNothing() {
    Fluid air = Fluid.air(DENSITY, SPEED, 0.01);
    Point a = new Point(0.1, 0, 0.2);
    Point b = new Point(0.05, 0.2, 0.1);
    Complex with =
        small(Map.of(Face.BACK, 0.04, Face.LEFT, 0.03), a, b).impedance(700, air, air)[1][0];
    Complex without = small(Map.of(), a, b).impedance(700, air, air)[1][0];
    assertThat(with.subtract(without).norm()).isLessThan(2e-3 * without.norm());
  }

  @Test
  void refusesAPatchOutsideTheRoom() {
    assertThatThrownBy(() -> small(Map.of(), new Point(0.3, 0, 0.2)))
        .isInstanceOf(ImpossibleShapeException.class)
        .hasMessageContaining("outside the room");
    assertThatThrownBy(() -> small(Map.of(Face.TOP, 0.2, Face.BOTTOM, 0.2), new Point(0.1, 0, 0.2)))
        .isInstanceOf(ImpossibleShapeException.class);
  }
}
