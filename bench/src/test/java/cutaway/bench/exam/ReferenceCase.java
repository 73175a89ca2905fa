package cutaway.bench.exam;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import cutaway.bench.dossier.Dossier;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Locale;
import java.util.stream.Stream;

/** A reference case written out as the dossier a tester would make of it. */
record ReferenceCase(String name, Dossier dossier, JsonNode inputs, JsonNode truth) {
  private static final ObjectMapper JSON = new ObjectMapper();

  static ReferenceCase of(String name, Path scratch) {
    Path from = Path.of("src/test/resources/cases", name.substring(0, 2), name);
    try {
      JsonNode inputs = JSON.readTree(from.resolve("inputs.json").toFile());
      JsonNode truth = JSON.readTree(from.resolve("truth.json").toFile());
      Path folder = Files.createDirectories(scratch.resolve(name).resolve("takes"));
      try (Stream<Path> files = Files.list(from)) {
        for (Path file : files.toList()) {
          if (!file.getFileName().toString().matches("(inputs|truth).*")) {
            Files.copy(
                file, folder.resolve(file.getFileName()), StandardCopyOption.REPLACE_EXISTING);
          }
        }
      }
      Files.writeString(folder.resolveSibling(Dossier.SHEET), sheet(inputs));
      return new ReferenceCase(name, Dossier.open(scratch.resolve(name)), inputs, truth);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static String sheet(JsonNode in) {
    StringBuilder s =
        new StringBuilder("cutaway: 1\nunit: { name: " + in.get("unit").asText() + " }\n");
    s.append(
        String.format(
            Locale.ROOT,
            "air: { temperature: %s °C ± 0.1 °C, pressure: %s Pa ± 50 Pa, humidity: 0 %% ± 0.01 %% }%n",
            in.at("/air/temperature_c").asText(),
            in.at("/air/pressure_pa").asText()));
    if (in.has("sense_resistor_ohm")) {
      s.append("rig: { resistor: ")
          .append(measured(in, "sense_resistor", "ohm", "Ω"))
          .append(" }\n");
    }
    s.append("drive-unit:\n");
    if (in.has("piston_diameter_uncertainty_m")) {
      s.append("  piston-diameter: ")
          .append(measured(in, "piston_diameter", "m", "m"))
          .append('\n');
    } else {
      s.append("  piston-diameter: ").append(in.get("piston_diameter_m").asText()).append(" m\n");
    }
    if (in.has("known_mms_kg")) {
      s.append("  moving-mass: ").append(measured(in, "known_mms", "kg", "kg")).append('\n');
    }
    if (in.has("dc_resistance_cold_ohm")) {
      s.append(
          String.format(
              Locale.ROOT,
              "  dc-resistance: %s Ω ± %s Ω%n",
              in.get("dc_resistance_cold_ohm").asText(),
              in.get("dc_resistance_uncertainty_ohm").asText()));
    }
    box(in, s);
    s.append("takes:\n");
    for (JsonNode curve : in.path("curves")) {
      curve(curve, s);
    }
    if (in.has("captures")) {
      s.append("  - id: capture\n    file: takes/capture_drive_unit.flac\n");
      s.append("    what: two-channel sweep\n    setup: { mount: free air }\n    channels: ");
      boolean over = in.get("channel_2").asText().contains("resistor");
      s.append(over ? "branch and resistor\n" : "branch and drive unit\n");
      s.append("    calibration: { file: takes/capture_calibration.flac, resistor: ");
      s.append(measured(in, "calibration_resistor", "ohm", "Ω")).append(" }\n");
    }
    return s.toString();
  }

  private static String measured(JsonNode in, String name, String suffix, String unit) {
    return String.format(
        Locale.ROOT,
        "%s %s ± %s %s",
        in.get(name + "_" + suffix).asText(),
        unit,
        in.get(name + "_uncertainty_" + suffix).asText(),
        unit);
  }

  private static void box(JsonNode in, StringBuilder s) {
    if (!in.has("box_internal_m")) {
      return;
    }
    String loading =
        in.has("port") ? "vented" : in.has("passive_radiator") ? "passive radiator" : "sealed";
    s.append("box:\n  loading: ").append(loading).append('\n');
    s.append("  inner: { ");
    for (String side : new String[] {"width", "height", "depth"}) {
      s.append(side).append(": ").append(in.at("/box_internal_m/" + side).asText());
      s.append(" m ± 1 mm").append(side.equals("depth") ? " }\n" : ", ");
    }
    s.append("  displaced: ").append(in.get("displaced_volume_m3").asText()).append(" m³ ± 1 %\n");
    if (!in.path("contents").asText("empty").startsWith("empty")) {
      s.append("  lining: ")
          .append(in.get("contents").asText().contains("wall") ? "lined walls" : "loosely filled")
          .append('\n');
    }
    if (in.has("port")) {
      s.append("  port: { diameter: ").append(in.at("/port/inner_diameter_m").asText());
      s.append(" m ± 0.1 mm, length: ").append(in.at("/port/length_m").asText());
      s.append(" m ± 0.5 mm, ends: [flanged, free] }\n");
    }
    if (in.has("passive_radiator")) {
      s.append("  passive-radiator: { piston-diameter: ")
          .append(in.at("/passive_radiator/piston_diameter_m").asText())
          .append(" m }\n");
    }
  }

  private static void curve(JsonNode curve, StringBuilder s) {
    String file = curve.get("file").asText();
    String id = file.substring(0, file.indexOf('.')).replace('_', '-');
    s.append("  - id: ").append(id).append("\n    file: takes/").append(file).append('\n');
    s.append("    what: impedance\n    setup: { mount: ");
    switch (curve.get("role").asText()) {
      case "added_mass" ->
          s.append("free air, added-mass: ")
              .append(curve.get("added_mass_kg").asText())
              .append(" kg ± ")
              .append(curve.get("added_mass_uncertainty_kg").asText())
              .append(" kg }\n");
      case "test_volume" ->
          s.append("test box, volume: ")
              .append(curve.get("volume_m3").asText())
              .append(" m³ ± ")
              .append(curve.get("volume_uncertainty_m3").asText())
              .append(" m³ }\n");
      case "in_box" -> s.append("box }\n");
      default -> s.append("free air }\n");
    }
  }
}
