package cutaway.bench.exam;

import static cutaway.bench.exam.WrittenDossier.messages;
import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What the sheet says of the box that is possible but hardly meant. */
class CabinetCheckTest {
  private static final String SIZE =
      "box:\n  loading: sealed\n  inner: { width: 250 mm, height: 360 mm, depth: 300 mm }\n";

  @TempDir Path folder;

  private List<String> told(String sheet) {
    return messages(new WrittenDossier(folder).solve(sheet));
  }

  @ParameterizedTest
  @CsvSource({
    "'left: 260 mm, width: 200 mm', true",
    "'left: -210 mm, width: 200 mm', true",
    "'bottom: 400 mm', true",
    "'left: 240 mm, width: 200 mm', false",
    "'height: 300 mm', false"
  })
  void aBackBesideTheFrontIsSaid(String back, boolean beside) {
    List<String> told = told(SIZE + "  back: { " + back + " }\n" + WrittenDossier.MDF);
    assertThat(told.stream().anyMatch(m -> m.startsWith("box.back: the back lies wholly beside")))
        .isEqualTo(beside);
  }

  @Test
  void aLiningBehindTheConeIsSaid() {
    String lined =
        WrittenDossier.MDF.replace(
            "name: front, material: mdf",
            "name: front, material: mdf, lining: { thickness: 20 mm, kind: felt }, cut-outs: ["
                + " { what: drive unit, at: [125 mm, 240 mm], diameter: 146 mm } ]");
    assertThat(told(SIZE + lined))
        .contains(
            "box.walls.front.lining: the lining is counted all over this wall, behind the drive"
                + " unit too");
    assertThat(told(SIZE + lined.replace("20 mm, kind", "295 mm, kind")))
        .noneMatch(m -> m.contains("all over this wall"));
    String unlisted = lined.replaceAll(", cut-outs: .* ]", "");
    assertThat(told("drive-unit: { height: 240 mm }\n" + SIZE + unlisted))
        .anyMatch(m -> m.endsWith("behind the drive unit too"));
    assertThat(told(SIZE + lined.replace("lining: { thickness: 20 mm, kind: felt }, ", "")))
        .noneMatch(m -> m.contains("lining"));
  }
}
