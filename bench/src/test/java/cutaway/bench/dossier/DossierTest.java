package cutaway.bench.dossier;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import cutaway.bench.finding.Finding;
import cutaway.bench.finding.Findings;
import cutaway.bench.finding.Fingerprint;
import cutaway.bench.finding.Judgement;
import cutaway.bench.finding.Notice;
import cutaway.bench.finding.Notice.Severity;
import cutaway.bench.problem.ProblemException;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class DossierTest {

  @TempDir Path folder;

  @Test
  void theDemoNamesItsMistakeAndFindsItsTruth() {
    DemoDossier.copyTo(folder.resolve("demo"));
    Findings f = Dossier.open(folder.resolve("demo")).solve(s -> {}).findings();
    assertThat(f.notices().get(0).severity()).isEqualTo(Severity.FAULT);
    assertThat(f.notices().get(0).message())
        .contains("without added mass of with-more-mass, so it is left out");
    // the truths of the generator, InventedLoudspeaker in benchmarks
    near(f, "drive-unit.re", 3.42);
    near(f, "drive-unit.mms", 0.0421);
    near(f, "drive-unit.bl", 8.35);
    near(f, "box.volume", 0.02483);
    near(f, "box.ql", 11);
    near(f, "box.qp", 38);
    assertThat(f.judgements())
        .extracting(Judgement::verdict)
        .containsExactly(
            Judgement.Verdict.CONTRADICTED,
            Judgement.Verdict.CONTRADICTED,
            Judgement.Verdict.CONTRADICTED,
            Judgement.Verdict.CONTRADICTED,
            Judgement.Verdict.SUPPORTED);
    assertThat(f.curve("response.half-space")).isPresent();
    assertThat(f.curve("response.port-speed")).isPresent();
  }

  private static void near(Findings f, String id, double truth) {
    var e = f.finding(id).orElseThrow().estimate();
    assertThat(Math.abs(e.value() - truth) / e.sd()).as(id + " " + e).isLessThan(3);
  }

  @Test
  void sameInSameOutAndNothingDoneTwice() throws IOException {
    Path demo = folder.resolve("demo");
    DemoDossier.copyTo(demo);
    DemoDossier.copyTo(demo);
    List<String> steps = new ArrayList<>();
    String first = SolvedJson.write(Dossier.open(demo).solve(steps::add));
    assertThat(steps).isNotEmpty();
    steps.clear();
    assertThat(SolvedJson.write(Dossier.open(demo).solve(steps::add))).isEqualTo(first);
    assertThat(steps).isEmpty();
    Files.writeString(demo.resolve("made/findings.json"), "{ broken");
    assertThat(SolvedJson.write(Dossier.open(demo).solve(steps::add))).isEqualTo(first);
    assertThat(steps).isEmpty();
    assertThat(Files.readString(demo.resolve("made/findings.json"))).isEqualTo(first);
    assertThat(first).contains("\"rests_on\"", "\"next_readings\"");
  }

  private Path solvedDemo() {
    Path demo = folder.resolve("demo");
    DemoDossier.copyTo(demo);
    Dossier.open(demo).solve(s -> {});
    return demo;
  }

  /** What is worked out again after a change of the demo's sheet, and what then stands there. */
  private static Solved after(Path demo, List<String> steps, String before, String now)
      throws IOException {
    Path sheet = demo.resolve("dossier.yaml");
    String text = Files.readString(sheet);
    assertThat(text).contains(before);
    Files.writeString(sheet, text.replace(before, now));
    steps.clear();
    Solved solved = Dossier.open(demo).solve(steps::add);
    // whatever was taken from earlier, the whole is as if nothing had been there
    try (var kept = Files.list(demo.resolve("made/kept"))) {
      for (Path file : kept.toList()) {
        Files.delete(file);
      }
    }
    assertThat(SolvedJson.write(Dossier.open(demo).solve(s -> {})))
        .isEqualTo(SolvedJson.write(solved));
    return solved;
  }

  @Test
  void worksOutAgainOnlyWhatAChangeBearsOn() throws IOException {
    Path demo = solvedDemo();
    List<String> steps = new ArrayList<>();
    after(demo, steps, "# One reading is wrong", "# One of them is wrong");
    assertThat(steps).isEmpty();
    after(demo, steps, "value: 25 L", "value: 30 L");
    assertThat(steps).isEmpty();
    after(demo, steps, "wall: 16 mm", "wall: 15 mm");
    assertThat(steps)
        .startsWith("takes", "drive unit", "box", "predictions")
        // these two side by side
        .containsExactlyInAnyOrder(
            "takes", "drive unit", "box", "predictions", "air inside", "walls");
    after(demo, steps, "mains: 50 Hz", "mains: 50 Hz\ndrive: { source-resistance: 0.2 Ω }");
    assertThat(steps).containsExactly("takes", "drive unit", "predictions");
  }

  @Test
  void readsAgainOnlyTheTakeThatChanged() throws IOException {
    Path demo = solvedDemo();
    Path kept = demo.resolve("made/kept");
    Path recording = kept.resolve("takes.in-box.json");
    Path curve = kept.resolve("takes.free-air.json");
    Path sheet = demo.resolve("dossier.yaml");
    String text = Files.readString(sheet);
    Files.writeString(sheet, text + "# a remark\n");
    Dossier.open(demo).solve(s -> {});
    var recorded = Files.getLastModifiedTime(recording);
    var read = Files.getLastModifiedTime(curve);
    Path file = demo.resolve("takes/free-air.csv");
    Files.writeString(file, Files.readString(file) + "# a word more\n");
    Dossier.open(demo).solve(s -> {});
    assertThat(Files.getLastModifiedTime(recording)).isEqualTo(recorded);
    assertThat(Files.getLastModifiedTime(curve)).isNotEqualTo(read);
    int from = text.indexOf("  - id: with-mass");
    Files.writeString(
        sheet, text.substring(0, from) + text.substring(text.indexOf("  - id: with-more-mass")));
    Dossier.open(demo).solve(s -> {});
    assertThat(kept.resolve("takes.with-mass.json")).doesNotExist();
    assertThat(recording).exists();
  }

  @Test
  void believesNothingKeptThatWasAltered() throws IOException {
    Path demo = solvedDemo();
    Path kept = demo.resolve("made/kept/drive-unit.json");
    String text = Files.readString(kept);
    Files.writeString(kept, text.replaceFirst("\"value\":3\\.", "\"value\":9."));
    assertThat(Files.readString(kept)).isNotEqualTo(text);
    Path findings = demo.resolve("made/findings.json");
    String found = Files.readString(findings);
    Files.writeString(findings, found.replaceFirst("\"value\" : 3\\.", "\"value\" : 9."));
    assertThat(Files.readString(findings)).isNotEqualTo(found);
    List<String> steps = new ArrayList<>();
    Findings f = Dossier.open(demo).solve(steps::add).findings();
    assertThat(steps).contains("drive unit");
    near(f, "drive-unit.re", 3.42);
    assertThat(Files.readString(kept)).isEqualTo(text);
    assertThat(Files.readString(findings)).isEqualTo(found);
  }

  @Test
  void aFindingBearsTheHashOfWhatItRestsOn() throws IOException {
    Path demo = solvedDemo();
    Solved before = Dossier.open(demo).solve(s -> {});
    for (Finding f : before.findings().findings()) {
      assertThat(f.fingerprint())
          .as(f.id())
          .isEqualTo(
              Fingerprint.of(
                  f.restsOn().stream()
                      .map(id -> id + " " + before.evidence().get(id) + "\n")
                      .collect(Collectors.joining())));
    }
    Solved now =
        after(demo, new ArrayList<>(), "displaced: 1.2 L ± 0.2 L", "displaced: 1.3 L ± 0.2 L");
    assertThat(print(now, "drive-unit.fs")).isEqualTo(print(before, "drive-unit.fs"));
    assertThat(print(now, "box.volume")).isEqualTo(print(before, "box.volume"));
    assertThat(print(now, "box.net-volume")).isNotEqualTo(print(before, "box.net-volume"));
  }

  private static String print(Solved solved, String id) {
    return solved.findings().finding(id).orElseThrow().fingerprint();
  }

  @Test
  void beginsADossierThatChecksAndSolves() {
    NewDossier.create(folder.resolve("new"));
    Dossier d = Dossier.open(folder.resolve("new"));
    assertThat(d.sheet().takes()).isEmpty();
    assertThat(d.solve(s -> {}).findings().notices())
        .extracting(Notice::message)
        .contains("there is no impedance take");
    assertThatThrownBy(() -> NewDossier.create(folder.resolve("new")))
        .hasMessageContaining("already holds");
    assertThatThrownBy(() -> DemoDossier.copyTo(folder.resolve("new")))
        .hasMessageContaining("holds another dossier");
  }

  @Test
  void setsAValueInPlace() throws IOException {
    NewDossier.create(folder.resolve("new"));
    Dossier.set(folder.resolve("new"), "unit.name", "Mine");
    String text = Files.readString(folder.resolve("new/dossier.yaml"));
    assertThat(text).contains("  name: Mine\n  # kind: powered bass box");
    assertThatThrownBy(() -> Dossier.set(folder, "unit.name", "x"))
        .hasMessageContaining("holds no dossier.yaml");
  }

  private Dossier with(String file) throws IOException {
    Files.writeString(
        folder.resolve("dossier.yaml"),
        "cutaway: 1\nunit: { name: U }\ntakes: [ { id: a, file: \""
            + file
            + "\", what: impedance, setup: { mount: free air } } ]\n");
    return Dossier.open(folder);
  }

  @Test
  void servesNothingFromOutside() throws IOException {
    Path outside = Files.createTempFile("outside", ".csv");
    Files.writeString(outside, "10 4\n20 5\n");
    assertThatThrownBy(() -> with("../x.csv").bench()).hasMessageContaining("outside the dossier");
    assertThatThrownBy(() -> with(outside.toString()).bench())
        .hasMessageContaining("outside the dossier");
    Files.createSymbolicLink(folder.resolve("link.csv"), outside);
    assertThatThrownBy(() -> with("link.csv").bench()).hasMessageContaining("outside the dossier");
    assertThatThrownBy(() -> with("none.csv").bench()).hasMessageContaining("is missing");
    Files.createDirectory(folder.resolve("dir"));
    assertThatThrownBy(() -> with("dir").bench()).hasMessageContaining("is a folder");
  }

  @Test
  void refusesFoldersWithoutASheet() {
    assertThatThrownBy(() -> Dossier.open(folder.resolve("none")))
        .hasMessageContaining("is no folder");
    assertThatThrownBy(() -> Dossier.open(folder)).hasMessageContaining("holds no dossier.yaml");
  }

  @Test
  void writesWholeOrNotAtAll() throws IOException {
    Path file = folder.resolve("a/b.txt");
    DurableFile.write(file, "one");
    DurableFile.write(file, "two");
    assertThat(Files.readString(file)).isEqualTo("two");
    try (var left = Files.list(folder.resolve("a"))) {
      assertThat(left.toList()).hasSize(1);
    }
    // a file stands where a folder would have to be: as little writable as a read-only disk
    assertThatThrownBy(() -> DurableFile.write(file.resolve("c.txt"), "x"))
        .isInstanceOf(ProblemException.class)
        .hasMessageContaining("nothing was changed");
    assertThat(Files.readString(file)).isEqualTo("two");
  }

  /** Writes a megabyte to the file named; run by itself under a limit on the size of files. */
  public static void main(String[] args) {
    try {
      DurableFile.write(Path.of(args[0]), "x".repeat(1 << 20));
    } catch (ProblemException e) {
      System.out.print(e.getMessage());
    }
  }

  @Test
  void aWriteThatFailsHalfwayLeavesTheOldFile() throws IOException, InterruptedException {
    Path file = folder.resolve("findings.json");
    DurableFile.write(file, "old");
    String java = ProcessHandle.current().info().command().orElseThrow();
    Process process =
        new ProcessBuilder(
                "bash",
                "-c",
                "ulimit -f 64; exec \"$0\" -XX:-UsePerfData -cp \"$1\" " + "\"$2\" \"$3\"",
                java,
                System.getProperty("java.class.path"),
                DossierTest.class.getName(),
                file.toString())
            .start();
    String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(process.waitFor()).isZero();
    assertThat(said).contains("cannot be written", "nothing was changed");
    assertThat(Files.readString(file)).isEqualTo("old");
    try (var left = Files.list(folder)) {
      assertThat(left.toList()).containsExactly(file);
    }
  }

  @Test
  void followsNoLinkLaidOutForItsTemporaryFile() throws IOException {
    Path victim = Files.writeString(folder.resolve("victim"), "mine");
    Path file = folder.resolve("made/findings.json");
    Files.createDirectories(folder.resolve("made"));
    Files.createSymbolicLink(folder.resolve("made/.findings.json.part"), victim);
    Files.createSymbolicLink(file, victim);
    DurableFile.write(file, "new");
    assertThat(Files.readString(victim)).isEqualTo("mine");
    assertThat(Files.isSymbolicLink(file)).isFalse();
  }

  @Test
  void forgetsWhatAnotherProgramSolved() {
    Path kept = folder.resolve("kept");
    Kept mine = new Kept(kept, "one");
    assertThat(mine.recall("a", "key", Note.class, () -> new Note("first")).text())
        .isEqualTo("first");
    mine.write(Set.of("a"));
    Supplier<Note> again = () -> new Note("again");
    assertThat(new Kept(kept, "one").recall("a", "key", Note.class, again).text())
        .isEqualTo("first");
    assertThat(new Kept(kept, "two").recall("a", "key", Note.class, again).text())
        .isEqualTo("again");
    assertThat(new Kept(kept, "one").recall("a", "other", Note.class, again).text())
        .isEqualTo("again");
  }

  record Note(String text) {}

  @Test
  void aTakeMayBearAnyNameAndChangesAreSeen() throws IOException {
    DemoDossier.copyTo(folder.resolve("demo"));
    Path d = folder.resolve("named");
    Files.createDirectories(d);
    Files.copy(folder.resolve("demo/takes/free-air.csv"), d.resolve("cutaway"));
    Files.writeString(
        d.resolve("dossier.yaml"),
        "cutaway: 1\nunit: { name: U }\ntakes:"
            + " [ { id: a, file: cutaway, what: impedance, setup: { mount: free air } } ]\n");
    double before = resistance(d, s -> {});
    String text = Files.readString(d.resolve("cutaway"));
    Files.writeString(
        d.resolve("cutaway"), text.substring(0, text.lastIndexOf('\n', text.length() - 2)));
    assertThat(resistance(d, s -> {})).isNotEqualTo(before);
    Files.writeString(d.resolve("cutaway"), text);
    assertThatThrownBy(() -> resistance(d, s -> append(d.resolve("cutaway"))))
        .hasMessageContaining("changed while it was read");
    assertThat(resistance(d, s -> {})).isEqualTo(before);
  }

  private static void append(Path file) {
    try {
      Files.writeString(file, Files.readString(file) + "# more\n");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static double resistance(Path folder, Consumer<String> progress) {
    return Dossier.open(folder)
        .solve(progress)
        .findings()
        .finding("drive-unit.re")
        .orElseThrow()
        .estimate()
        .value();
  }
}
