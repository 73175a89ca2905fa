package cutaway.bench.exam;

import static org.assertj.core.api.Assertions.assertThat;

import cutaway.acoustics.cabinet.Outline;
import cutaway.bench.dossier.Dossier;
import cutaway.bench.exam.BoxSection.Part;
import cutaway.bench.exam.BoxSection.View;
import cutaway.bench.finding.Findings;
import java.nio.file.Path;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A level board with an opening in a box that is L-shaped seen from above. */
class WindowBraceExamTest {
  private static final String BOX =
      "box:\n  loading: sealed\n  wall: 18 mm\n"
          + "  outline: { points: [[0 mm, 0 mm], [400 mm, 0 mm], [400 mm, 200 mm], [220 mm, 200 mm],"
          + " [220 mm, 420 mm], [0 mm, 420 mm]], height: 600 mm }\n  walls:\n"
          + "    - { name: side-1, material: mdf, cut-outs: [ { what: drive unit,"
          + " at: [218 mm, 330 mm], diameter: 180 mm, flange: 205 mm, mass: 2 kg } ] }\n"
          + IntStream.rangeClosed(2, 6)
              .mapToObj(i -> "    - { name: side-" + i + ", material: mdf }\n")
              .collect(Collectors.joining())
          + "    - { name: bottom, material: mdf }\n    - { name: top, material: mdf }\n";

  private static final String BRACE =
      "  window-braces: [ { height: 150 mm, thickness: 18 mm, rim: 45 mm } ]\n";

  @TempDir Path folder;

  private Dossier dossier(String sheet) {
    return new WrittenDossier(folder).open(sheet);
  }

  /** The lowest mode of the whole box, by the name of its shape: "mode 1, 123 Hz". */
  private static double lowest(Findings f) {
    return Double.parseDouble(f.shapes().get(0).name().replaceAll(".*?([0-9.]+) Hz.*", "$1"));
  }

  @Test
  void itStiffensTheBoxAndIsDrawn() {
    Findings plain = dossier(BOX).solve(s -> {}).findings();
    Dossier braced = dossier(BOX + BRACE);
    Findings f = braced.solve(s -> {}).findings();
    assertThat(f.notices()).noneMatch(n -> n.message().contains("window brace"));
    assertThat(lowest(f)).isGreaterThan(1.02 * lowest(plain));
    BoxSection above = BoxSection.of(braced.sheet(), f, View.ABOVE).orElseThrow();
    // seen from above, its opening: the room drawn in by the rim
    double open =
        above.pieces().stream()
            .filter(p -> p.part() == Part.BRACE_BEYOND)
            .mapToDouble(p -> new Outline(p.outline()).area())
            .sum();
    double expected = 0.31 * 0.11 + 0.13 * 0.22;
    assertThat(open).isBetween(0.999 * expected, 1.001 * expected);
  }
}
