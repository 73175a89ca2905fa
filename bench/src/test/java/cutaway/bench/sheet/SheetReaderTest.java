package cutaway.bench.sheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import cutaway.acoustics.box.Port;
import cutaway.bench.problem.Problem;
import cutaway.bench.problem.ProblemException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;

class SheetReaderTest {
  private static final String HEAD = "cutaway: 1\nunit: { name: Unit }\n";

  private static List<Problem> problems(String text) {
    ProblemException e =
        catchThrowableOfType(ProblemException.class, () -> SheetReader.read(text, "dossier.yaml"));
    assertThat(e).as("a problem in %s", text).isNotNull();
    return e.problems();
  }

  private static String only(String text) {
    List<Problem> found = problems(text);
    assertThat(found).hasSize(1);
    return found.get(0).sentence();
  }

  @Test
  void readsEveryKeyOfAFullSheet() {
    Sheet s =
        SheetReader.read(
            HEAD.replace(
                    "name: Unit",
                    "name: Unit, kind: box, obtained: bought, note: x, price: [ { amount: 249 EUR, where: street } ]")
                + "air: { temperature: 21 °C, pressure: 1007 hPa, humidity: 45 % }\n"
                + "mains: 60 Hz\n"
                + "rig: { resistor: 10 Ω ± 0.1 Ω }\n"
                + "drive-unit: { piston-diameter: 164 mm, dc-resistance: 3.4 Ω, height: 20 cm }\n"
                + "box:\n  loading: vented\n  inner: { width: 1 m, height: 1 m, depth: 1 m }\n"
                + "  port: { width: 20 cm, height: 2 cm, length: 30 cm, count: 2, bends: 1, ends: [flared, near wall] }\n"
                + "drive: { source-resistance: 0.1 Ω, high-pass: { frequency: 30 Hz, order: 2 }, low-pass: { frequency: 100 Hz, order: 1 } }\n"
                + "takes:\n  - { id: a, file: a.csv, what: impedance, setup: { mount: box, port: blocked }, from: 10 Hz, to: 1 kHz, read: { columns: [frequency, magnitude], phase-unit: radians, frequency-unit: kHz } }\n"
                + "  - { id: b, file: b.wav, what: two-channel noise, channels: branch and resistor, setup: { mount: test box, volume: 20 L }, calibration: { file: c.wav, resistor: 8 Ω } }\n"
                + "claims: [ { by: maker, says: loud, about: box.fb, sense: at most } ]\n",
            "dossier.yaml");
    assertThat(s.mains()).containsExactly(60.0);
    assertThat(s.takes()).hasSize(2);
    assertThat(s.takes().get(0).portBlocked()).isTrue();
    assertThat(s.takes().get(1).overResistor()).isTrue();
    assertThat(s.takes().get(1).isRecording()).isTrue();
    assertThat(s.drive().filters()).hasSize(2);
    assertThat(s.box().orElseThrow().port().orElseThrow().count()).isEqualTo(2);
    assertThat(s.claims().get(0).sense()).isEqualTo(Sense.AT_MOST);
  }

  @Test
  void everyWordOfTheSchemaHasItsValue() {
    assertThat(words("/box/loading")).isEqualTo(wordsOf(BoxKind.values()));
    assertThat(words("/box/lining")).isEqualTo(wordsOf(Lining.values()));
    assertThat(words("/box/port/ends/0")).isEqualTo(wordsOf(Port.End.values()));
    assertThat(words("/takes/0/setup/mount")).isEqualTo(wordsOf(Mount.values()));
    assertThat(words("/claims/0/sense")).isEqualTo(wordsOf(Sense.values()));
  }

  private static List<String> words(String pointer) {
    List<String> out = new ArrayList<>();
    SheetSchema.schemaAt(pointer).path("enum").forEach(w -> out.add(w.asText()));
    return out.stream().sorted().toList();
  }

  private static List<String> wordsOf(Enum<?>... values) {
    return Arrays.stream(values).map(Words::of).sorted().toList();
  }

  @Test
  void namesLineColumnAndTheNearestKnownKey() {
    assertThat(only(HEAD + "drive-unit:\n  piston-diametre: 164 mm\n"))
        .isEqualTo(
            "dossier.yaml:4:3: the key 'piston-diametre' is not known; did you mean"
                + " 'piston-diameter'?");
    assertThat(only(HEAD + "colour: red\n")).contains("known here: cutaway, unit, air");
  }

  @Test
  void saysHowToWriteAPlainNumber() {
    assertThat(only(HEAD + "drive-unit: { piston-diameter: 164 }\n"))
        .startsWith("dossier.yaml:3:32: 'drive-unit.piston-diameter' is the plain number 164")
        .endsWith("write a length like '164 mm ± 2 mm'");
  }

  @Test
  void refusesWrongDimensionsAndImpossibleValues() {
    assertThat(only(HEAD + "drive-unit: { piston-diameter: 5 kg }\n"))
        .contains("'5 kg' is not a length");
    assertThat(only(HEAD + "drive-unit: { height: -5 mm }\n"))
        .contains("'-5 mm' is not above zero");
    assertThat(only(HEAD + "drive-unit: { piston-diameter: 165 cm }\n"))
        .contains("'165 cm' is not to be believed: it would have to lie between")
        .endsWith("check figure and unit");
    assertThat(only(HEAD + "air: { pressure: '1,007 hPa' }\n")).contains("not to be believed");
    assertThat(only(HEAD + "drive-unit: { piston-diameter: 165 mm ± 0 mm }\n"))
        .contains("claims to be exact");
    assertThat(only(HEAD + "drive-unit: { piston-diameter: 165 mm ± -1 mm }\n"))
        .contains("uncertainty below zero");
    assertThat(only(HEAD + "mains: \"\\e[31m\"\n")).contains("control character");
    assertThat(only(HEAD + "box: { loading: horn }\n"))
        .contains("write one of sealed, vented, passive radiator");
    assertThat(only(HEAD + "box: { loading: vented, port: { length: 20 cm } }\n"))
        .contains("the port has no cross-section");
    assertThat(only("cutaway: 1\n")).contains("lacks 'unit'");
    assertThat(only("cutaway: 2\nunit: { name: U }\n")).contains("write cutaway: 1");
    assertThat(only("cutaway: 1\nunit: { name: 7 }\n")).contains("write it in quotes");
    assertThat(only(HEAD + "takes: yes\n")).contains("should be a list");
  }

  @Test
  void refusesTakesThatContradictThemselves() {
    String take =
        "takes:\n  - { id: a, file: a.csv, what: impedance, setup: { mount: free air } }\n";
    assertThat(only(HEAD + take + take.replace("takes:\n", "")))
        .contains("the id 'a' is taken by take 1");
    assertThat(
            only(
                HEAD
                    + "takes: [ { id: a, file: a.wav, what: two-channel sweep, setup: { mount: free air } } ]\n"))
        .contains("a recording needs the series resistor");
    assertThat(
            only(HEAD + "takes: [ { id: a, file: a, what: impedance, setup: { mount: box } } ]\n"))
        .contains("needs to know the box");
    assertThat(
            only(
                HEAD
                    + "takes: [ { id: a, file: a, what: impedance, setup: { mount: test box, volume: 10 L, added-mass: 3 g } } ]\n"))
        .contains("an added mass goes with 'mount: free air'");
    assertThat(
            only(
                HEAD
                    + "takes: [ { id: a, file: a, what: impedance, setup: { mount: test box } } ]\n"))
        .contains("needs the box's volume");
    assertThat(
            only(
                HEAD
                    + "takes: [ { id: A b, file: a, what: impedance, setup: { mount: free air } } ]\n"))
        .contains("small letters, digits, hyphens");
  }

  @Test
  void refusesYamlThatIsNoSheet() {
    assertThat(only("")).contains("is empty");
    assertThat(only(HEAD + "air:\n\ttemperature: 21 °C\n")).contains("takes no tabs");
    assertThat(only(HEAD + "unit: { name: V }\n")).contains("has the key 'unit' twice");
    assertThat(only("a: &x 1\nb: *x\n")).contains("anchor");
    assertThat(only("[1, 2]: 3\n")).contains("a key that is no word");
    assertThat(only("{".repeat(100_000))).isNotBlank();
    assertThat(only("- ".repeat(3000) + "x")).isNotBlank();
    assertThat(only("x".repeat(3 << 20))).contains("MiB large");
    assertThat(only("a: 'open")).contains("dossier.yaml:1");
    String bomb =
        """
        a: &a [x,x,x,x]
        b: &b [*a,*a,*a,*a]
        c: [*b,*b,*b,*b]
        """;
    assertThat(problems(bomb)).isNotEmpty();
  }

  @Property(tries = 300)
  void anyTextIsReadOrRefused(@ForAll String text) {
    try {
      SheetReader.read(text, "dossier.yaml");
    } catch (ProblemException e) {
      assertThat(e.problems()).isNotEmpty();
    }
  }

  @Test
  void setsOneValueAndLeavesEveryOtherCharacter() {
    String sheet =
        "# mine\ncutaway: 1   # keep\nunit:\n  name: Unit\nbox:\n  loading: vented # tuned\n"
            + "  port: { diameter: 60 mm, length: 180 mm }  # measured\n# end\n";
    assertThat(SheetEditor.set(sheet, "f", "box.port.length", "175 mm ± 1 mm"))
        .isEqualTo(sheet.replace("180 mm", "175 mm ± 1 mm"));
    assertThat(SheetEditor.set(sheet, "f", "box.wall", "18 mm"))
        .isEqualTo(sheet.replace("# measured\n", "# measured\n  wall: 18 mm\n"));
    assertThat(SheetEditor.set(sheet, "f", "box.port.count", "2"))
        .contains("length: 180 mm, count: 2 }  # measured");
    assertThat(SheetEditor.set(sheet, "f", "air.temperature", "21 °C"))
        .contains("air: { temperature: 21 °C }\n");
    assertThatThrownBy(
            () ->
                SheetEditor.set(
                    "cutaway: 1\nunit:\n  name: |\n    two\n    lines\n# mine\n",
                    "f",
                    "unit.name",
                    "x"))
        .hasMessageContaining("stands on several lines");
    assertThat(SheetEditor.set(sheet, "f", "unit.name", "He said: \"hi\""))
        .contains("name: \"He said: \\\"hi\\\"\"");
    assertThatThrownBy(() -> SheetEditor.set(sheet, "f", "box.port.length", "5 kg"))
        .hasMessageContaining("is not a length");
    assertThatThrownBy(() -> SheetEditor.set(sheet, "f", "box.port", "x"))
        .hasMessageContaining("should be a group of keys");
    assertThatThrownBy(() -> SheetEditor.set(sheet, "f", "cutaway.x", "1"))
        .hasMessageContaining("goes deeper than the sheet does");
  }

  @Test
  void setsEntriesOfListsGroupsAndTextsThatLookLikeNumbers() {
    String sheet =
        """
        cutaway: 1
        unit: { name: U }
        box:
          loading: vented
        takes:
          - { id: a, file: a.csv, what: impedance, setup: { mount: free air } }
          - id: b
            file: b.csv
            what: impedance
            setup: { mount: box }   # in its box
        """;
    assertThat(SheetEditor.set(sheet, "f", "takes.b.from", "20 Hz"))
        .contains("    setup: { mount: box }   # in its box\n    from: 20 Hz\n");
    assertThat(SheetEditor.set(sheet, "f", "takes.1.setup.added-mass", "10 g"))
        .contains("setup: { mount: free air, added-mass: 10 g } }");
    String port =
        SheetEditor.set(
            sheet, "f", "box.port", "{ diameter: 60 mm, length: 180 mm, ends: [free, flanged] }");
    assertThat(port).contains("  loading: vented\n  port: { diameter: 60 mm,");
    assertThat(SheetEditor.set(port, "f", "box.port.ends", "[flared, flared]"))
        .contains("ends: [flared, flared] }");
    for (String name : List.of("300", "true", "2026-09-14", "~")) {
      String named = SheetEditor.set(sheet, "f", "unit.name", name);
      assertThat(SheetReader.read(named, "f").unit().name()).isEqualTo(name);
    }
    assertThat(SheetEditor.set(sheet.replace("\n", "\r\n"), "f", "box.wall", "18 mm"))
        .contains("  loading: vented\r\n  wall: 18 mm\r\ntakes:");
  }

  @Test
  void saysWhichKeyCannotBeSet() {
    String sheet =
        "cutaway: 1\nunit: { name: U }\ntakes:\n"
            + "  - { id: a, file: a.csv, what: impedance, setup: { mount: free air } }\n";
    for (String key : List.of("", "..", "box..wall")) {
      assertThatThrownBy(() -> SheetEditor.set(sheet, "f", key, "x"))
          .hasMessageContaining("is no key");
    }
    assertThatThrownBy(() -> SheetEditor.set(sheet, "f", "takes.c.from", "20 Hz"))
        .hasMessageContaining("the list has no 'c'");
    assertThatThrownBy(() -> SheetEditor.set(sheet, "f", "takes", "[]x"))
        .hasMessageContaining("stands on several lines");
    assertThatThrownBy(() -> SheetEditor.set(sheet, "f", "takes.a.what", "noise"))
        .hasMessageContaining("'takes.a.what' is 'noise'");
  }

  /** Of a value that may be written in two ways one thing is said: what to write. */
  @Test
  void ofTwoWaysToWriteOneIsNamed() {
    String take =
        HEAD
            + "takes:\n  - { id: a, file: a.wav, what: sound, sensors: [cone],"
            + " signal: { shape: tone, at: 80 Hz, level: %s } }\n";
    assertThat(problems(take.formatted("[-16, -6]")))
        .extracting(Problem::what)
        .containsExactly(
            "'takes.a.signal.level.1' is the plain number -16",
            "'takes.a.signal.level.2' is the plain number -6");
    assertThat(only(take.formatted("-6")))
        .endsWith("'takes.a.signal.level' is the plain number -6; write a level like '-6 dB'");
    assertThat(only(take.formatted("6 dB"))).contains("the level is over full scale");
  }

  /** A full scale for all takes that is no pressure is said once. */
  @Test
  void whatManyTakesShareIsSaidOnce() {
    String take = "  - { id: %s, file: a.wav, what: sound, sensors: [cone] }\n";
    assertThat(
            only(
                HEAD
                    + "rig: { full-scale: { cone: 20 V } }\ntakes:\n"
                    + take.formatted("a")
                    + take.formatted("b")))
        .contains("'20 V' is not a pressure");
  }
}
