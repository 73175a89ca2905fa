package cutaway.bench.dossier;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import cutaway.bench.finding.Findings;
import cutaway.bench.finding.Judgement;
import cutaway.bench.finding.Notice;
import cutaway.bench.finding.Notice.Severity;
import cutaway.bench.problem.ProblemException;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
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
    assertThat(steps).isNotEmpty();
    assertThat(first).contains("\"rests_on\"", "\"next_readings\"");
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
  void forgetsWhatAnotherProgramSolved() throws IOException {
    DemoDossier.copyTo(folder.resolve("demo"));
    Dossier.open(folder.resolve("demo")).solve(s -> {});
    Path kept = folder.resolve("demo/made/findings.json");
    String text = Files.readString(kept);
    assertThat(text).contains("\"cutaway\"");
    Files.writeString(
        kept, text.replaceAll("\"cutaway\" *: *\"[^\"]*\"", "\"cutaway\": \"older\""));
    List<String> steps = new ArrayList<>();
    Dossier.open(folder.resolve("demo")).solve(steps::add);
    assertThat(steps).isNotEmpty();
  }
}
