package cutaway.acoustics.cabinet;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;

/** Reads the reference cases of cabinet/README.md. */
final class CabinetCase {
  private CabinetCase() {}

  static JsonNode json(String name, String file) {
    try {
      return new ObjectMapper().readTree(text(name, file));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Numbers of a table, without its header and comments. */
  static List<double[]> rows(String name, String file) {
    return text(name, file)
        .lines()
        .filter(l -> !l.isBlank() && (Character.isDigit(l.charAt(0)) || l.charAt(0) == '-'))
        .map(l -> Arrays.stream(l.split(",", -1)).mapToDouble(Double::parseDouble).toArray())
        .toList();
  }

  private static String text(String name, String file) {
    String path = "/cabinet/" + name + "/" + file;
    try (InputStream in = CabinetCase.class.getResourceAsStream(path)) {
      return new String(Objects.requireNonNull(in, path).readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static List<Point> points(JsonNode list) {
    List<Point> out = new ArrayList<>();
    list.forEach(
        p -> out.add(new Point(p.get(0).asDouble(), p.get(1).asDouble(), p.get(2).asDouble())));
    return out;
  }

  /** Eight corners as such, else as the outline of the lower half of them, pulled upwards. */
  static BoxShape shape(String name) {
    List<Point> corners = points(json(name, "geometry.json").get("corners"));
    int half = corners.size() / 2;
    return half == 4
        ? new EightCorners(new Hexahedron(corners))
        : new Prism(
            new Outline(corners.subList(0, half)), corners.get(0).z(), corners.get(half).z());
  }

  /** The walls of a whole box. */
  static List<Wall> walls(String name) {
    JsonNode geometry = json(name, "geometry.json");
    List<Wall> out = new ArrayList<>();
    geometry
        .get("faces")
        .properties()
        .forEach(
            face -> {
              List<Point> corners = new ArrayList<>();
              for (JsonNode i : face.getValue()) {
                JsonNode p = geometry.get("corners").get(i.asInt());
                corners.add(
                    new Point(p.get(0).asDouble(), p.get(1).asDouble(), p.get(2).asDouble()));
              }
              JsonNode m = geometry.get("material");
              Board board =
                  Board.isotropic(
                      geometry.get("thickness_m").get(face.getKey()).asDouble(),
                      m.get("rho").asDouble(),
                      m.get("E").asDouble(),
                      m.get("nu").asDouble());
              Wall wall = Wall.between(face.getKey(), corners, board);
              JsonNode cut = geometry.path("cutout");
              if (cut.path("wall").asText().equals(face.getKey())) {
                Point centre =
                    wall.plane()
                        .local(
                            new Point(
                                cut.get("centre").get(0).asDouble(),
                                0,
                                cut.get("centre").get(1).asDouble()));
                wall =
                    wall.with(
                        List.of(
                            new Hole(
                                centre,
                                cut.get("radius").asDouble(),
                                cut.get("ring_outer").asDouble(),
                                cut.get("ring_mass").asDouble())));
              }
              out.add(wall);
            });
    return out;
  }
}
