package cutaway.bench.exam;

import static cutaway.bench.exam.WrittenDossier.messages;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import cutaway.bench.finding.Findings;
import cutaway.bench.finding.Notice;
import cutaway.bench.problem.ProblemException;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What the sheet says of the box that cannot be, or is possible but hardly meant. */
class CabinetCheckTest {
  private static final String SIZE =
      "box:\n  loading: sealed\n  inner: { width: 250 mm, height: 360 mm, depth: 300 mm }\n";

  @TempDir Path folder;

  private Findings solve(String sheet) {
    return new WrittenDossier(folder).solve(sheet);
  }

  private Findings solveBut(String wall, String more) {
    return solve(SIZE + WrittenDossier.mdfBut(wall, more));
  }

  private List<String> told(String sheet) {
    return messages(solve(sheet));
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

  @Test
  void impossibleShapesAreSaid() {
    Findings crooked =
        solve(
            "box:\n  loading: sealed\n  outline: { height: 300 mm, points: [ [0 mm, 0 mm], [300 mm,"
                + " 300 mm], [300 mm, 0 mm], [0 mm, 300 mm] ] }\n");
    assertThat(messages(crooked))
        .anyMatch(m -> m.contains("no box has this shape") && m.contains("cross"));
    Findings thick =
        solve(
            "box:\n  loading: sealed\n  outer: { width: 60 mm, height: 200 mm, depth: 200 mm }\n"
                + "  wall: 40 mm\n");
    assertThat(messages(thick)).anyMatch(m -> m.startsWith("box: no box has this shape"));
    Findings over =
        solve(
            SIZE
                + "  wall: 18 mm\n  walls:\n"
                + "    - { name: front, material: mdf, cut-outs: [ { what: drive unit, at: [20 mm,"
                + " 240 mm], diameter: 146 mm } ] }\n"
                + "    - { name: back, material: mdf }\n    - { name: top, material: mdf }\n"
                + "    - { name: bottom, material: mdf }\n    - { name: right, material: mdf }\n"
                + "    - { name: left, material: mdf }\n    - { name: lid, material: mdf }\n");
    assertThat(messages(over))
        .anyMatch(
            m ->
                m.contains(
                    "on the front at [20 mm, 240 mm]: a cut-out reaches over the panel's edge; it is left out"))
        .anyMatch(m -> m.startsWith("box.walls.lid: this box has no such wall"));
    assertThat(over.finding("walls.left.level")).isPresent();
  }

  @Test
  void whatTheSheetGetsWrongIsSaidWithItsPlace() {
    assertThatThrownBy(
            () -> solve(SIZE + "  walls:\n    - { name: left, material: mdfx, thickness: 0 mm }\n"))
        .isInstanceOf(ProblemException.class)
        .hasMessageContaining("the material 'mdfx' is not known")
        .hasMessageContaining("did you mean 'mdf'")
        .hasMessageContaining("'0 mm' is not to be believed");
    assertThatThrownBy(() -> solve(SIZE + "takes:\n  - { id: k, file: k.wav, what: knock }\n"))
        .hasMessageContaining("a knock needs the wall that was tapped");
  }

  @Test
  void massesThatDoNotAddUpAreSaid() {
    Random random = new Random(2);
    new WrittenDossier(folder)
        .sound("tap.wav", 48000, 2, 3.9, i -> WrittenDossier.tap(i / 48000.0, random));
    Findings f =
        solve(
            "drive-unit: { mass: 9 kg }\n"
                + SIZE
                + "  mass: 8 kg\n  hardware-mass: 0.5 kg\n"
                + "takes:\n  - { id: k, file: tap.wav, what: knock, wall: left }\n");
    assertThat(f.notices())
        .anyMatch(
            n ->
                n.severity() == Notice.Severity.FAULT
                    && n.message().contains("weigh 1.50 kg more than the whole"));
    Findings heavy =
        solve(
            "drive-unit: { mass: 1 kg }\n"
                + SIZE
                + "  mass: 28 kg\n  hardware-mass: 0.5 kg\n"
                + WrittenDossier.MDF);
    assertThat(messages(heavy)).anyMatch(m -> m.contains("the masses do not add up"));
  }

  /** What has no place on its wall is named and left out; the rest is told. */
  @Test
  void whatDoesNotFitIsLeftOutByName() {
    String unit =
        ", material: mdf, cut-outs: [ { what: drive unit, at: [143 mm, 230 mm], diameter: 184 mm } ] }";
    Findings over =
        solve(
            SIZE
                + WrittenDossier.MDF.replace(
                    "{ name: front, material: mdf }", "{ name: front" + unit)
                + "  window-braces:\n    - { height: 300 mm, thickness: 16 mm, rim: 50 mm }\n"
                + "    - { height: 120 mm, thickness: 16 mm, rim: 50 mm }\n"
                + "    - { height: 125 mm, thickness: 16 mm, rim: 50 mm }\n");
    assertThat(messages(over))
        .anyMatch(m -> m.contains("the window brace at 300 mm: it meets a cut-out of the front"))
        .anyMatch(m -> m.contains("the window brace at 125 mm: it meets another"))
        .noneMatch(m -> m.contains("120 mm"));
    assertThat(over.finding("walls.left.level")).isPresent();
    for (String batten :
        List.of(
            "{ from: [150 mm, 130 mm], to: [150 mm, 130 mm], width: 18 mm, depth: 40 mm }",
            "{ from: [150 mm, 30 mm], to: [150 mm, 300 mm], width: 500 mm, depth: 40 mm }")) {
      Findings f = solveBut("left", ", material: mdf, braces: [ " + batten + " ] }");
      assertThat(messages(f))
          .anyMatch(
              m ->
                  m.contains("the brace on the left from [150 mm,")
                      && m.contains("has no length or"));
      assertThat(f.finding("walls.left.level")).isPresent();
    }
  }

  @Test
  void bracesThatCrossAreTold() {
    String upright = "{ from: [150 mm, 30 mm], to: [150 mm, 300 mm], width: 18 mm, depth: 30 mm }";
    String across = "{ from: [40 mm, 200 mm], to: [240 mm, 200 mm], width: 18 mm, depth: 30 mm }";
    String beside = "{ from: [80 mm, 30 mm], to: [80 mm, 300 mm], width: 18 mm, depth: 30 mm }";
    assertThat(messages(solveBut("left", ", braces: [ " + upright + ", " + across + " ] }")))
        .anyMatch(m -> m.contains("the braces on the left cross"));
    assertThat(messages(solveBut("left", ", braces: [ " + upright + ", " + beside + " ] }")))
        .noneMatch(m -> m.contains("cross;"));
  }

  @Test
  void aPointOnAStraightSideIsSaid() {
    assertThatThrownBy(
            () ->
                solve(
                    "box:\n  loading: sealed\n  outline: { height: 300 mm, points: [ [0 mm, 0 mm], [125"
                        + " mm, 0 mm], [250 mm, 0 mm], [250 mm, 300 mm], [0 mm, 300 mm] ] }\n"))
        .hasMessageContaining("point 2 lies on the straight line");
  }

  @Test
  void aMissingWallIsSaid() {
    Findings f =
        solve(
            """
            box:
              loading: sealed
              walls:
                - { name: long, corners: [[0 mm,0 mm,0 mm],[380 mm,0 mm,0 mm],[380 mm,0 mm,375 mm],[0 mm,0 mm,375 mm]] }
                - { name: short, corners: [[380 mm,0 mm,0 mm],[380 mm,380 mm,0 mm],[380 mm,380 mm,375 mm],[380 mm,0 mm,375 mm]] }
                - { name: slope, corners: [[380 mm,380 mm,0 mm],[0 mm,0 mm,0 mm],[0 mm,0 mm,375 mm],[380 mm,380 mm,375 mm]] }
                - { name: floor, corners: [[380 mm,380 mm,0 mm],[380 mm,0 mm,0 mm],[0 mm,0 mm,0 mm]] }
            """);
    assertThat(messages(f)).anyMatch(m -> m.contains("no other wall meets the"));
  }
}
