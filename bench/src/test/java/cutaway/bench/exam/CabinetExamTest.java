package cutaway.bench.exam;

import static cutaway.bench.exam.WrittenDossier.messages;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cutaway.bench.dossier.DemoDossier;
import cutaway.bench.dossier.Dossier;
import cutaway.bench.dossier.Solved;
import cutaway.bench.finding.Finding;
import cutaway.bench.finding.Findings;
import cutaway.bench.finding.Judgement;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Walls from the sheet to the findings: the invented demo's truth, and what may be wrong. */
class CabinetExamTest {
  private static final String SIZE =
      "box:\n  loading: sealed\n  inner: { width: 250 mm, height: 360 mm, depth: 300 mm }\n";

  @TempDir Path folder;

  private Findings solve(String sheet) {
    return new WrittenDossier(folder).solve(sheet);
  }

  /**
   * DemoKnocks: particleboard of 16.1 mm, 672 kg/m³, 3.15 GPa, its modes' losses 0.016 to 0.028.
   */
  @Test
  void theDemosUnseenBoardIsFound() {
    DemoDossier.copyTo(folder);
    Solved solved = Dossier.open(folder).solve(s -> {});
    Findings f = solved.findings();
    truth(f, "walls.board.thickness", 0.0161);
    truth(f, "walls.board.density", 672);
    truth(f, "walls.board.modulus", 3.15e9);
    Finding odds = f.finding("walls.board.odds").orElseThrow();
    assertThat(odds.name()).contains("particleboard");
    assertThat(odds.estimate().value()).isBetween(0.5, 0.999);
    assertThat(solved.understood().get("knock-left")).contains("5 taps, 5 of them used");
    assertThat(messages(f)).anyMatch(m -> m.startsWith("takes.knock-top: 2 of 6 taps fell"));
    // tapped on five places: told apart by shape
    List<Finding> alike =
        f.findings().stream().filter(x -> x.id().startsWith("walls.left.alike-")).toList();
    assertThat(alike).hasSize(6).allMatch(x -> x.estimate().value() > 0.95);
    for (String wall : List.of("front", "back", "left", "right", "top", "bottom")) {
      assertThat(f.finding("walls." + wall + ".resonance")).as(wall).isPresent();
      assertThat(f.finding("walls." + wall + ".heard").orElseThrow().estimate().value())
          .isBetween(0.0, 1.0);
      assertThat(f.curve("walls." + wall + ".radiation")).isPresent();
    }
    assertThat(f.shapes()).hasSize(4);
    assertThat(f.shapes().get(0).faces()).hasSize(6);
    Judgement claim =
        f.judgements().stream()
            .filter(j -> j.about().equals("walls.left.level"))
            .findFirst()
            .orElseThrow();
    assertThat(claim.verdict()).isEqualTo(Judgement.Verdict.CONTRADICTED);
    // along the height of 375 mm in front and 345 mm behind: about c/2h of the mean
    Finding wave = f.finding("cavity.wave-1").orElseThrow();
    assertThat(wave.name()).endsWith(", along the height, without the lining");
    assertThat(wave.estimate().value()).isCloseTo(344.4 / 0.72, within(3.0));
  }

  @Test
  void nothingIsTriedOnWallsThatAreNotKnown() {
    Findings f = solve(SIZE);
    Dossier dossier = Dossier.open(folder);
    assertThat(RemedyBench.of(dossier.sheet(), f, dossier.bench())).isEmpty();
  }

  private static void truth(Findings f, String id, double value) {
    Finding finding = f.finding(id).orElseThrow();
    double off = Math.abs(finding.estimate().value() - value) / finding.estimate().sd();
    assertThat(off).as(id).isLessThan(2.5);
  }

  @Test
  void knownWallsNeedNoKnock() {
    Findings f =
        solve(
            SIZE
                + "  wall: 18 mm\n  walls:\n"
                + "    - { name: front, material: mdf, cut-outs: [ { what: drive unit, at: [143 mm,"
                + " 240 mm], diameter: 146 mm, flange: 170 mm, mass: 2 kg } ] }\n"
                + "    - { name: back, material: mdf }\n    - { name: top, material: mdf }\n"
                + "    - { name: bottom, material: mdf }\n    - { name: right, material: mdf }\n"
                + "    - name: left\n      material: birch_plywood\n      braces:\n"
                + "        - { from: [40 mm, 190 mm], to: [296 mm, 190 mm], width: 18 mm, depth: 40"
                + " mm }\n");
    assertThat(f.finding("walls.left.level")).isPresent();
    assertThat(f.finding("walls.board.odds")).isEmpty();
    assertThat(messages(f)).noneMatch(m -> m.contains("it is left out"));
  }

  @Test
  void tapersAndOutlinesHaveStandingWaves() {
    Findings f =
        solve(
            "drive-unit: { piston-diameter: 130 mm, height: 240 mm }\n"
                + SIZE
                + "  wall: 18 mm\n  back: { width: 150 mm }\n");
    Finding gain = f.finding("cavity.shape-gain").orElseThrow();
    assertThat(gain.estimate().value()).isBetween(-12.0, 12.0);
    assertThat(gain.cautions().get(0)).contains("in the plain box");
    Findings outline =
        solve(
            "box:\n  loading: sealed\n  outline: { height: 300 mm, points: [ [0 mm, 0 mm], [300 mm, 0"
                + " mm], [300 mm, 300 mm], [150 mm, 300 mm], [150 mm, 150 mm], [0 mm, 150 mm] ]"
                + " }\n");
    assertThat(outline.finding("cavity.wave-3")).isPresent();
  }

  @Test
  void recordingsThatAreNoKnocksAreSaid() throws IOException {
    Random random = new Random(2);
    WrittenDossier dossier = new WrittenDossier(folder);
    dossier.sound("silence.wav", 8000, 1, 3.9, i -> 0);
    dossier.sound(
        "music.wav", 44100, 2, 3.9, i -> 0.3 * Math.sin(i * 0.03) + 0.2 * Math.sin(i * 0.05));
    dossier.sound("coarse.wav", 48000, 1, 3.9, i -> WrittenDossier.tap(i / 48000.0, random));
    dossier.sound("fast.wav", 192000, 3, 3.9, i -> WrittenDossier.tap(i / 192000.0, random));
    Findings f =
        solve(
            SIZE
                + "takes:\n"
                + "  - { id: silence, file: silence.wav, what: knock, wall: left }\n"
                + "  - { id: music, file: music.wav, what: knock, wall: left }\n"
                + "  - { id: coarse, file: coarse.wav, what: knock, wall: right }\n"
                + "  - { id: fast, file: fast.wav, what: knock, wall: top }\n"
                + "  - { id: lost, file: fast.wav, what: knock, wall: lid }\n");
    assertThat(messages(f))
        .anyMatch(m -> m.startsWith("takes.silence: no tap was found"))
        .anyMatch(m -> m.startsWith("takes.music: no tap was found"))
        .anyMatch(m -> m.startsWith("takes.lost: there is no wall 'lid'"));
    for (String wall : List.of("right", "top")) {
      Finding ring = f.finding("walls." + wall + ".ring-1").orElseThrow();
      assertThat(ring.estimate().value()).as(wall).isCloseTo(240, within(1.5));
    }
  }

  /** A back smaller than the front counts in the volume by tape. */
  @Test
  void aTaperCountsInTheVolume() throws IOException {
    DemoDossier.copyTo(folder);
    Path file = folder.resolve("dossier.yaml");
    String sheet =
        DemoSheet.withoutKnocks(DemoSheet.plain(Files.readString(file)))
            .replaceAll("(?s)\n  walls:\n.*?\ntakes:", "\ntakes:")
            .replace(
                "  wall: 16 mm",
                "  back: { width: 250 mm, height: 200 mm, left: 0 mm, bottom: 0 mm }\n  wall: 16 mm");
    Files.writeString(file, sheet);
    Findings f = Dossier.open(folder).solve(s -> {}).findings();
    // 250 × 300 × (360 + 200)/2 mm less 1.2 L and what the drive unit takes
    double net = f.finding("box.net-volume").orElseThrow().estimate().value();
    assertThat(net).isBetween(0.0175, 0.0199);
  }

  /** Thin steel cannot ring as the demo's board does. */
  @Test
  void aKnockOfAnotherBoxIsTold() throws IOException {
    DemoDossier.copyTo(folder);
    Path file = folder.resolve("dossier.yaml");
    String steel =
        Stream.of("left", "right", "back", "top", "bottom")
            .map(w -> "    - { name: " + w + ", thickness: 1 mm, material: steel }\n")
            .collect(Collectors.joining());
    String plain = DemoSheet.plain(Files.readString(file));
    Files.writeString(file, plain.replace("  walls:\n", "  walls:\n" + steel));
    Findings f = Dossier.open(folder).solve(s -> {}).findings();
    assertThat(messages(f))
        .anyMatch(
            m -> m.startsWith("takes.knock-left: the left rings from 259 Hz up when knocked"));
  }

  @Test
  void placesThatDoNotGoWithTheTapsAreTold() throws IOException {
    DemoDossier.copyTo(folder);
    Path file = folder.resolve("dossier.yaml");
    String sheet = Files.readString(file);
    Files.writeString(file, sheet.replace("    at: [[85 mm, 125 mm], ", "    at: ["));
    assertThat(messages(Dossier.open(folder).solve(s -> {}).findings()))
        .anyMatch(m -> m.startsWith("takes.knock-left: the sheet lists 4 places but 5 taps"));
    Files.writeString(file, sheet.replace("    at: [[85 mm, 125 mm]", "    at: [[850 mm, 125 mm]"));
    Findings f = Dossier.open(folder).solve(s -> {}).findings();
    assertThat(messages(f))
        .anyMatch(m -> m.startsWith("takes.knock-left: place 1 of its taps lies beside the wall"));
    // still used, by frequency
    assertThat(f.finding("walls.left.loss").orElseThrow().method()).isEqualTo("knocked");
  }

  /** Half of a square room 380 mm wide: its lowest wave has c/2a. */
  @Test
  void aFreeListOfWallsHasStandingWavesAndAVolume() {
    Findings f =
        solve(
            """
            air: { temperature: 20 °C, pressure: 1013 hPa, humidity: 50 % }
            box:
              loading: sealed
              walls:
                - { name: long, corners: [[0 mm,0 mm,0 mm],[380 mm,0 mm,0 mm],[380 mm,0 mm,375 mm],[0 mm,0 mm,375 mm]] }
                - { name: short, corners: [[380 mm,0 mm,0 mm],[380 mm,380 mm,0 mm],[380 mm,380 mm,375 mm],[380 mm,0 mm,375 mm]] }
                - { name: slope, corners: [[380 mm,380 mm,0 mm],[0 mm,0 mm,0 mm],[0 mm,0 mm,375 mm],[380 mm,380 mm,375 mm]] }
                - { name: floor, corners: [[380 mm,380 mm,0 mm],[0 mm,0 mm,0 mm],[380 mm,0 mm,0 mm]] }
                - { name: lid, corners: [[0 mm,0 mm,375 mm],[380 mm,0 mm,375 mm],[380 mm,380 mm,375 mm]] }
            """);
    double c = 343.4;
    assertThat(f.finding("cavity.wave-1").orElseThrow().estimate().value())
        .isCloseTo(c / 0.76, within(1.0));
    assertThat(f.finding("cavity.wave-2").orElseThrow().estimate().value())
        .isCloseTo(c / 0.75, within(1.0));
  }

  @Test
  void sheetAndWindowBraceCount() {
    Findings bare = solve(SIZE + WrittenDossier.MDF);
    Findings damped =
        solve(
            SIZE
                + WrittenDossier.MDF.replace(
                    "{ name: left,",
                    "{ name: left, damping: { kind: bitumen sheet, thickness: 4 mm },")
                + "  window-braces:\n"
                + "    - { height: 0.2 m, thickness: 18 mm, rim: 50 mm }\n");
    double before = bare.finding("walls.left.level").orElseThrow().estimate().value();
    double after = damped.finding("walls.left.level").orElseThrow().estimate().value();
    assertThat(after).isLessThan(before - 3);
    Findings over =
        solve(
            SIZE
                + WrittenDossier.MDF
                + "  window-braces:\n    - { height: 2 m, thickness: 18 mm, rim: 50 mm }\n");
    assertThat(messages(over)).anyMatch(m -> m.contains("the window brace at 2 m: it stands over"));
  }

  @Test
  void ofKindAndResistivityOneIsUsedAndSaid() {
    String felt = ", material: mdf, lining: { thickness: 30 mm, kind: felt";
    String both = felt + ", resistivity: 8000 Pa s/m² } }";
    assertThat(messages(solve(SIZE + WrittenDossier.mdfBut("left", both))))
        .anyMatch(m -> m.startsWith("box.walls.left.lining: both a kind of lining and its flow"));
    assertThat(messages(solve(SIZE + WrittenDossier.mdfBut("left", felt + " } }"))))
        .noneMatch(m -> m.contains("both a kind"));
  }

  @Test
  void outlinesMayEndWhereTheyBegan() {
    Findings f =
        solve(
            "box:\n  loading: sealed\n  wall: 18 mm\n  outline: { height: 300 mm, points: [ [0 mm, 0"
                + " mm], [250 mm, 0 mm], [250 mm, 300 mm], [0 mm, 300 mm], [0 mm, 0"
                + " mm] ] }\n  walls:\n"
                + Stream.of("side-1", "side-2", "side-3", "side-4", "top", "bottom")
                    .map(w -> "    - { name: " + w + ", material: mdf }\n")
                    .collect(Collectors.joining()));
    assertThat(messages(f)).noneMatch(m -> m.contains("shape") || m.contains("not told"));
    assertThat(f.finding("walls.side-4.level")).isPresent();
    assertThat(f.finding("cavity.wave-1").orElseThrow().estimate().value())
        .isCloseTo(344.0 / 0.6, within(4.0));
  }

  /** A front that may be of three boards is none of the unseen ones. */
  @Test
  void aListedWallIsNotPooledWithUnseenOnes() throws IOException {
    DemoDossier.copyTo(folder);
    Path file = folder.resolve("dossier.yaml");
    Files.writeString(
        file,
        Files.readString(file)
            .replace("      material: mdf\n", "      material: [mdf, hdf, birch_plywood]\n"));
    Finding odds =
        Dossier.open(folder).solve(s -> {}).findings().finding("walls.board.odds").orElseThrow();
    assertThat(odds.cautions()).anyMatch(c -> c.startsWith("walls: ") && !c.contains("front"));
  }

  /** One bad recording takes nothing from the others. */
  @Test
  void aBadKnockStopsNothing() throws IOException {
    DemoDossier.copyTo(folder);
    Files.writeString(folder.resolve("takes/knock-top.flac"), "no sound at all");
    Findings f = Dossier.open(folder).solve(s -> {}).findings();
    assertThat(messages(f)).anyMatch(m -> m.startsWith("takes.knock-top:"));
    assertThat(f.finding("walls.left.ring-1")).isPresent();
    assertThat(f.finding("drive-unit.fs")).isPresent();
  }

  /** The board of the others is not known, so the box is solved for it too. */
  @Test
  void aBraceOverACutOutIsLeftOut() throws IOException {
    DemoDossier.copyTo(folder);
    Path file = folder.resolve("dossier.yaml");
    Files.writeString(
        file,
        Files.readString(file)
            .replace(
                "      material: mdf\n",
                "      material: mdf\n      braces: [ { from: [30 mm, 230 mm], to: [250 mm, 230 mm],"
                    + " width: 18 mm, depth: 40 mm } ]\n"));
    Findings f = Dossier.open(folder).solve(s -> {}).findings();
    assertThat(messages(f))
        .contains(
            "box.walls: the brace on the front from [30 mm, 230 mm]: a brace stands over a cut-out; it is left out, and what is told of the walls is of a box without it");
    assertThat(f.finding("walls.left.level")).isPresent();
  }
}
