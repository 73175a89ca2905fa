package cutaway.acoustics.cabinet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.assertj.core.api.Assertions.withinPercentage;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.hipparchus.complex.Complex;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Against modal superposition of CalculiX shells (cabinet/README.md). */
class WallResponseTest {
  /** By standing wave; they do not depend on frequency, and each test has one response. */
  private final Map<List<Integer>, double[]> forces = new HashMap<>();

  /**
   * With the reference's own frequencies, so that what is compared is the shapes, the forces and
   * the sound: within 1 dB but near the nulls, where two parts cancel.
   */
  @ParameterizedTest
  @CsvSource({"b7_s01_side_pressure_only, 0.95", "b7_s02_back_pressure_reaction, 0.8"})
  void radiatesAsTheReferenceDoes(String name, double share) {
    double[] known =
        CabinetCase.rows(name, "box_modes.csv").stream().mapToDouble(r -> r[1]).toArray();
    BoxModes modes = BoxModes.of(CabinetCase.walls(name), known.length);
    WallResponse response = new WallResponse(modes, known, losses(name, known.length));
    List<Double> off = new ArrayList<>();
    for (double[] row : CabinetCase.rows(name, "wall_radiation.csv")) {
      if (row[3] > -50) {
        off.add(Math.abs(level(name, modes, response, row[0]) - row[3]));
      }
    }
    off.sort(null);
    assertThat(off.size()).isGreaterThan(100);
    assertThat(off.get(off.size() / 2)).isLessThan(0.45);
    assertThat(off.get((int) (share * off.size()))).isLessThan(1);
  }

  /**
   * With its own frequencies: the loudest peak as high within 1.5 dB, within 1.5 % of its place.
   */
  @ParameterizedTest
  @ValueSource(strings = {"b7_s01_side_pressure_only", "b7_s02_back_pressure_reaction"})
  void findsTheLoudestPeak(String name) {
    BoxModes modes = BoxModes.of(CabinetCase.walls(name), 42);
    double[] losses = losses(name, 42);
    WallResponse response = new WallResponse(modes, losses);
    JsonNode peak = CabinetCase.json(name, "truth.json").get("peaks").get(0);
    double best = Double.NEGATIVE_INFINITY;
    double at = 0;
    for (double f = 100; f < 800; f *= 1.003) {
      double level = level(name, modes, response, f);
      at = level > best ? f : at;
      best = Math.max(best, level);
    }
    assertThat(at).isCloseTo(peak.get("f_hz").asDouble(), withinPercentage(1.5));
    assertThat(best).isCloseTo(peak.get("level_db").asDouble(), within(1.5));
  }

  private static double[] losses(String name, int count) {
    double[] out = new double[count];
    Arrays.fill(
        out,
        CabinetCase.json(name, "geometry.json").get("structure").get("loss_factor").asDouble());
    return out;
  }

  private double level(String name, BoxModes modes, WallResponse response, double frequency) {
    JsonNode geometry = CabinetCase.json(name, "geometry.json");
    double rho = 1.2044;
    double c = 343.2;
    double omega = 2 * Math.PI * frequency;
    JsonNode driver = geometry.get("driver");
    double radius = driver.get("radius").asDouble();
    Point centre =
        new Point(
            driver.get("centre").get(0).asDouble(), 0, driver.get("centre").get(1).asDouble());
    boolean uniform =
        geometry.get("excitation").get("internal_pressure").asText().startsWith("uniform");
    double eta = geometry.get("excitation").get("cavity_loss_factor").asDouble();
    double volume = geometry.get("excitation").get("cavity_volume_m3").asDouble();
    Complex[] sum = new Complex[modes.size()];
    Arrays.fill(sum, Complex.ZERO);
    boolean cut = geometry.has("cutout");
    double[] size = {
      geometry.get("corners").get(6).get(0).asDouble(),
      geometry.get("corners").get(6).get(1).asDouble(),
      geometry.get("corners").get(6).get(2).asDouble()
    };
    JsonNode h = geometry.get("thickness_m");
    double[] low = {
      h.get("left").asDouble() / 2, h.get("front").asDouble() / 2, h.get("bottom").asDouble() / 2
    };
    double[] inner = {
      size[0] - low[0] - h.get("right").asDouble() / 2,
      size[1] - low[1] - h.get("back").asDouble() / 2,
      size[2] - low[2] - h.get("top").asDouble() / 2
    };
    int top = uniform ? 0 : 8;
    for (int a = 0; a <= top; a++) {
      for (int b = 0; b <= top; b++) {
        for (int d = 0; d <= top; d++) {
          int[] n = {a, b, d};
          double k2 = 0;
          double norm = 1;
          for (int i = 0; i < 3; i++) {
            k2 += Math.pow(Math.PI * n[i] / inner[i], 2);
            norm *= n[i] == 0 ? 1 : 0.5;
          }
          if (Math.sqrt(k2) * c / (2 * Math.PI) > 4000) {
            continue;
          }
          double[] force =
              forces.computeIfAbsent(
                  List.of(a, b, d),
                  key ->
                      response.pressure(
                          p -> {
                            boolean cone =
                                !cut && p.y() < 1e-9 && p.minus(centre).length() < radius;
                            return cone ? 0 : shape(p, n, low, inner);
                          },
                          6));
          double piston = 0;
          int samples = 0;
          for (int i = -20; i <= 20; i++) {
            for (int k = -20; k <= 20; k++) {
              Point p = centre.plus(new Point(i * radius / 20, 0, k * radius / 20));
              if (p.minus(centre).length() <= radius) {
                piston += shape(p, n, low, inner);
                samples++;
              }
            }
          }
          piston /= samples;
          double own = k2 * c * c;
          // an outward cone draws air out
          Complex amplitude =
              uniform
                  ? new Complex(rho * c * c, rho * c * c * eta)
                      .divide(new Complex(0, omega * volume))
                      .negate()
                  : new Complex(0, -omega * rho * c * c * piston / (volume * norm))
                      .divide(new Complex(own - omega * omega, own * eta + (own == 0 ? -0.0 : 0)));
          for (int m = 0; m < sum.length; m++) {
            sum[m] = sum[m].add(amplitude.multiply(force[m]));
          }
        }
      }
    }
    if (!geometry.get("excitation").get("reaction_force").asText().equals("none")) {
      Hole hole = (Hole) modes.walls().get(0).panel().cutOuts().get(0);
      double[] force = response.flange(0, hole);
      double mass = driver.get("moving_mass").asDouble();
      Complex pull = new Complex(0, -omega * mass / (Math.PI * radius * radius));
      for (int m = 0; m < sum.length; m++) {
        sum[m] = sum[m].add(pull.multiply(force[m]));
      }
    }
    JsonNode at = geometry.get("receiver").get("point_m");
    int wall = 0;
    while (!modes.walls().get(wall).name().equals(geometry.get("named_wall").asText())) {
      wall++;
    }
    Complex[] q = response.amplitudes(sum, frequency);
    Complex p =
        response.radiated(
            wall,
            response.velocity(wall, q, frequency),
            new Point(at.get(0).asDouble(), at.get(1).asDouble(), at.get(2).asDouble()),
            frequency,
            rho,
            c);
    return 20 * Math.log10(p.norm() / (omega * rho / (2 * Math.PI)));
  }

  private static double shape(Point p, int[] n, double[] low, double[] inner) {
    double[] at = {p.x() - low[0], p.y() - low[1], p.z() - low[2]};
    double out = 1;
    for (int i = 0; i < 3; i++) {
      double place = Math.max(0, Math.min(1, at[i] / inner[i]));
      out *= Math.cos(Math.PI * n[i] * place);
    }
    return out;
  }
}
