package cutaway.app.command;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class MainTest {
  @TempDir Path folder;

  private record Ran(int code, String out, String err) {}

  private static Ran run(String... args) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    int code = Main.run(new PrintWriter(out), new PrintWriter(err), args);
    return new Ran(code, out.toString(), err.toString());
  }

  private String demo() {
    return folder.resolve("demo").toString();
  }

  @Test
  void helpNamesEveryCommandAndExitCode() {
    Ran r = run("--help");
    assertThat(r.code()).isZero();
    assertThat(r.out())
        .contains("demo", "new", "check", "solve", "report", "bench", "set", "Exit codes:");
    assertThat(run().out()).contains("Usage: cutaway");
    assertThat(run("--version").out()).startsWith("cutaway ");
  }

  @Test
  void demoPrintsTheSummaryAndWritesTheReport() throws IOException {
    Ran r = run("demo", "--no-serve", demo());
    assertThat(r.code()).isZero();
    assertThat(r.out())
        .contains("fault    drive-unit: added mass of with-mass")
        .contains("Drive unit", "f_s ", "V_ab", "Cross-checks", "contradicted", "Report: ");
    assertThat(r.out().lines().mapToInt(String::length).max().orElseThrow()).isLessThan(150);
    String report = Files.readString(folder.resolve("demo/made/report.html"));
    assertThat(report)
        .contains("<svg class=\"cutaway\"", "What is in the drive unit?", "default-src 'none'")
        .doesNotContain("http://", "https://", "<script");
    // sounds are in it, and nothing else is asked for
    assertThat(report.split("src=\"", -1)).hasSize(8);
    assertThat(report.split("src=\"data:audio/wav;base64,UklGR", -1)).hasSize(8);
    assertThat(run("report", demo()).out()).contains("report.html");
  }

  @Test
  void jsonHoldsEverythingAndNothingElseIsOnStdout() throws IOException {
    run("demo", "--no-serve", demo());
    Ran r = run("solve", demo(), "--json");
    JsonNode json = new ObjectMapper().readTree(r.out());
    assertThat(json.at("/findings/findings").size()).isGreaterThan(20);
    assertThat(json.at("/findings/findings/0/estimate/value").isNumber()).isTrue();
    assertThat(json.at("/basis/dossier.yaml").asText()).hasSize(64);
    assertThat(r.err()).isEmpty();
  }

  @Test
  void newCheckAndSetWorkTogether() throws IOException {
    String mine = folder.resolve("mine").toString();
    assertThat(run("new", mine).code()).isZero();
    assertThat(run("new", mine).code()).isEqualTo(1);
    assertThat(run("check", mine).out()).contains("lists no takes");
    assertThat(run("set", mine, "mains", "60 Hz").code()).isZero();
    assertThat(Files.readString(folder.resolve("mine/dossier.yaml"))).contains("mains: 60 Hz");
    assertThat(run("set", mine, "air.temperature", "-5 °C").code()).isZero();
    assertThat(Files.readString(folder.resolve("mine/dossier.yaml")))
        .contains("air: { temperature: \"-5 °C\" }");
    Ran wrong = run("set", mine, "mains", "55 Hz");
    assertThat(wrong.code()).isEqualTo(1);
    assertThat(wrong.err()).contains("write one of 50 Hz, 60 Hz");
  }

  @Test
  void checkReadsKnocksToo() {
    String demo = folder.resolve("demo").toString();
    assertThat(run("demo", "--no-serve", demo).code()).isZero();
    Ran r = run("check", demo);
    assertThat(r.code()).isZero();
    assertThat(r.out())
        .contains("takes.knock-left: FLAC", "5 taps, 5 of them used", "takes.in-box");
  }

  @Test
  void checkExitsWithThreeWhereATakeIsNotBelieved() throws IOException {
    Files.writeString(folder.resolve("a.txt"), "10 4\n20 5\n30 4\n");
    Files.writeString(
        folder.resolve("dossier.yaml"),
        "cutaway: 1\nunit: { name: U }\n"
            + "takes: [ { id: a, file: a.txt, what: impedance, setup: { mount: free air } } ]\n");
    Ran r = run("check", folder.toString());
    assertThat(r.code()).isEqualTo(3);
    assertThat(r.out()).contains("fault: takes.a: too few points");
  }

  @Test
  void problemsAreSentencesOnStderr() throws IOException {
    Ran none = run("solve", folder.resolve("none").toString());
    assertThat(none.code()).isEqualTo(1);
    assertThat(none.err()).contains("is no folder").doesNotContain("Exception", "\tat ");
    assertThat(none.out()).isEmpty();
    Files.writeString(folder.resolve("dossier.yaml"), "cutaway: 1\nunit:\n\tname: x\n");
    Ran tab = run("solve", folder.toString());
    assertThat(tab.err()).startsWith("dossier.yaml:3:1:");
    assertThat(run("sovle").code()).isEqualTo(2);
    assertThat(run("sovle").err()).contains("solve");
  }

  @Test
  void signalsAreWrittenWithACaution() {
    String file = folder.resolve("sweep.wav").toString();
    Ran r = run("signal", "sweep", file, "--to", "1 kHz", "--level", "-12 dB");
    assertThat(r.code()).isZero();
    assertThat(r.out()).contains("sweep from 15 Hz to 1 kHz, 5.", "peak -12 dB");
    assertThat(r.err()).contains("quietly first");
    assertThat(folder.resolve("sweep.wav")).isNotEmptyFile();
    assertThat(run("signal", "sweep", file).err()).contains("already there");
    String tone = folder.resolve("tone.wav").toString();
    assertThat(run("signal", "tone", tone, "--at", "87 Hz", "--level", "-16 dB,-6 dB").out())
        .contains("tone of 87 Hz");
    assertThat(run("signal", "chirp", tone).err()).contains("write one of sweep, tone");
    assertThat(run("signal", "tone", tone, "--volts", "2 V").err()).contains("--full-scale");
  }
}
