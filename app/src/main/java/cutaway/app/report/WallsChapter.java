package cutaway.app.report;

import cutaway.app.chart.Chart;
import cutaway.app.drawing.SpectrogramDrawing;
import cutaway.app.drawing.WallsDrawing;
import cutaway.app.report.Story.ChartFigure;
import cutaway.app.report.Story.Exhibit;
import cutaway.app.report.Story.Fact;
import cutaway.bench.finding.Finding;
import cutaway.bench.finding.Findings;
import cutaway.bench.finding.Shown;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;

/** Words, table and pictures of what the walls do. */
final class WallsChapter {
  private static final String HEARD = ".heard";
  private static final int MOST_LINES = 4;

  private static final String CARE =
      "Sawing, drilling and sanding boards makes dust that harms the lungs: extract it, wear a mask,"
          + " and follow the data sheet of glue and damping material. Boxes are heavy and sharp"
          + " inside: lift with two, wear gloves. Unplug and leave anything that carries mains to"
          + " qualified people.";

  private final Findings findings;

  WallsChapter(Findings findings) {
    this.findings = findings;
  }

  /** Walls whose sound was computed, those most likely heard first. */
  private List<String> walls() {
    return findings.findings().stream()
        .filter(f -> f.id().startsWith("walls.") && f.id().endsWith(HEARD))
        .sorted(Comparator.comparingDouble(f -> -f.estimate().value()))
        .map(f -> f.id().substring("walls.".length(), f.id().length() - HEARD.length()))
        .toList();
  }

  private Optional<Finding> find(String wall, String what) {
    return findings.finding("walls." + wall + "." + what);
  }

  String lead() {
    List<String> walls = walls();
    StringBuilder out = new StringBuilder();
    if (!walls.isEmpty()) {
      out.append(sentence(walls.get(0)));
    }
    findings
        .finding("walls.board.odds")
        .ifPresent(
            f ->
                out.append(out.isEmpty() ? "" : " ")
                    .append(f.name())
                    .append(": ")
                    .append(Shown.percent(f.estimate().value()))
                    .append(
                        findings
                            .finding("walls.board.thickness")
                            .map(t -> ", some " + Shown.of(t).text() + " thick")
                            .orElse(""))
                    .append('.'));
    return out.toString();
  }

  private String sentence(String wall) {
    String level =
        find(wall, "level")
            .map(
                f ->
                    Math.abs(f.estimate().value()) < 0.5
                        ? "as loud as the unit's output"
                        : String.format(
                            Locale.ROOT,
                            "%.0f dB %s the unit's output",
                            Math.abs(f.estimate().value()),
                            f.estimate().value() <= 0 ? "below" : "above"))
            .orElse("");
    return capital(wall)
        + " wall: "
        + find(wall, "resonance").map(f -> Shown.of(f).text()).orElse("")
        + ", loss factor "
        + find(wall, "loss").map(f -> Shown.of(f).text()).orElse("")
        + ", "
        + level
        + ": "
        + words(find(wall, "heard").map(f -> f.estimate().value()).orElse(0.0))
        + ".";
  }

  /** Between which frequencies the box moves as a whole. */
  private Optional<String> feet() {
    return findings
        .finding("walls.feet.lowest")
        .flatMap(
            low ->
                findings
                    .finding("walls.feet.highest")
                    .map(
                        high ->
                            "On its feet the box slides, rocks and bounces between "
                                + Shown.of(low).text()
                                + " and "
                                + Shown.of(high).text()
                                + "."));
  }

  private static String words(double likelihood) {
    if (likelihood >= 0.8) {
      return "likely audible on sustained tones";
    }
    if (likelihood >= 0.5) {
      return "more likely audible on sustained tones than not";
    }
    return likelihood >= 0.2 ? "perhaps audible on sustained tones" : "unlikely to be heard";
  }

  private static String capital(String s) {
    return s.substring(0, 1).toUpperCase(Locale.ROOT) + s.substring(1);
  }

  Exhibit exhibit() {
    List<String> walls = walls();
    List<List<String>> rows = new ArrayList<>();
    for (String wall : walls) {
      rows.add(
          List.of(
              wall,
              shown(wall, "resonance"),
              shown(wall, "loss"),
              shown(wall, "level"),
              find(wall, "heard").map(f -> Shown.percent(f.estimate().value())).orElse("")));
    }
    return new Exhibit(
        WallsDrawing.tinted(findings).orElse(""),
        Stream.concat(walls.stream().skip(1).map(this::sentence), feet().stream()).toList(),
        List.of("Wall", "Worst resonance", "Loss factor", "Over the unit's output", "Heard"),
        rows,
        Stream.concat(
                findings.shapes().stream()
                    .map(s -> new Fact(capital(s.name()), WallsDrawing.moving(s))),
                findings.spectrograms().stream()
                    .map(
                        s ->
                            new Fact(
                                s.name() + "; modes at the right, Hz", SpectrogramDrawing.of(s))))
            .toList(),
        rows.isEmpty() ? "" : CARE);
  }

  private String shown(String wall, String what) {
    return find(wall, what).map(f -> Shown.of(f).text()).orElse("");
  }

  /** The loudest walls over frequency. */
  List<ChartFigure> charts(Charts charts, Function<Chart, ChartFigure> figure) {
    List<String> pairs = new ArrayList<>();
    for (String wall : walls().stream().limit(MOST_LINES).toList()) {
      pairs.add("walls." + wall + ".radiation");
      pairs.add(wall);
    }
    Optional<ChartFigure> radiation =
        pairs.isEmpty()
            ? Optional.empty()
            : charts
                .predicted(
                    "walls",
                    "Sound of the walls at 1 m over the drive unit's own",
                    "level over the unit's own, dB",
                    v -> v,
                    Double.NaN,
                    List.of(),
                    pairs.toArray(new String[0]))
                .map(figure);
    Stream<ChartFigure> knocks =
        findings.spectrograms().stream()
            .map(s -> s.id().replace(".knock", ""))
            .flatMap(wall -> ringDown(wall, charts).stream())
            .map(figure);
    return Stream.concat(radiation.stream(), knocks).toList();
  }

  private static Optional<Chart> ringDown(String wall, Charts charts) {
    String name = wall.substring("walls.".length());
    return charts.predicted(
        "ring-down-" + name,
        "How a tap on the " + name + " wall rings down",
        "level, dB",
        v -> v,
        -60,
        List.of(),
        wall + ".ring-down",
        "recorded",
        wall + ".ring-down-modes",
        "modes found");
  }
}
