package cutaway.bench.noise;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.stimulus.SteadyTone;
import cutaway.acoustics.stimulus.Tone;
import cutaway.bench.dossier.DemoDossier;
import cutaway.bench.dossier.Dossier;
import cutaway.bench.finding.Findings;
import cutaway.bench.finding.LeftOver;
import cutaway.bench.finding.NextTest;
import cutaway.bench.finding.Notice;
import cutaway.bench.finding.Suspicion;
import cutaway.bench.noise.NoiseClips.Clip;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import javax.sound.sampled.AudioFileFormat;
import javax.sound.sampled.AudioFormat;
import javax.sound.sampled.AudioInputStream;
import javax.sound.sampled.AudioSystem;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class NoiseExamTest {
  private static final String HEAD = "cutaway: 1\nunit: { name: U }\ntakes:\n";
  private static final String TONE =
      "  - id: hum\n    file: hum.wav\n    what: sound\n    sensors: [cone]\n"
          + "    signal: { shape: tone, at: 60 Hz, lasting: 2 s }\n";

  @TempDir private Path folder;

  private Findings solve(String sheet) throws IOException {
    return new SoundFolder(folder).solve(sheet);
  }

  /** The demo's sweep by itself, its channels called so. */
  private Findings demoSweep(String sensors) throws IOException {
    DemoDossier.copyTo(folder.resolve("demo"));
    return solve(
        HEAD
            + "  - id: swept\n    file: demo/takes/noise-sweep.flac\n    what: sound\n"
            + "    sensors: ["
            + sensors
            + "]\n    signal: { shape: sweep, from: 15 Hz, to: 2 kHz, lasting: 4 s }\n");
  }

  private void write(double[] x) throws IOException {
    new SoundFolder(folder).write("hum.wav", x);
  }

  private static double[] noise(double seconds, double level) {
    Random random = new Random(1);
    double[] out = new double[(int) (48000 * seconds)];
    for (int i = 0; i < out.length; i++) {
      out[i] = level * random.nextGaussian();
    }
    return out;
  }

  /** Something invented is loose on the right wall; the port was stopped, no hand laid on yet. */
  @Test
  void theDemoIsPlacedAndItsNextTestNamed() {
    DemoDossier.copyTo(folder.resolve("demo"));
    Findings found = Dossier.open(folder.resolve("demo")).solve(s -> {}).findings();
    Suspicion s = found.suspicion().orElseThrow();
    assertThat(s.suspects().get(0).id()).isEqualTo("loose-on-cabinet");
    assertThat(s.suspects().get(0).chance()).isGreaterThan(0.8);
    assertThat(s.suspects().get(0).speaksFor())
        .anySatisfy(c -> assertThat(c.words()).contains("loudest at the wall"));
    // the wall that was listened at was not knocked
    assertThat(s.suspects())
        .allSatisfy(
            l -> assertThat(l.speaksAgainst().toString()).doesNotContain("ring of a knocked"));
    assertThat(s.origins().get(0).name()).isEqualTo("the cabinet");
    assertThat(s.history()).hasSize(4);
    assertThat(s.tests())
        .extracting(NextTest::what)
        .anySatisfy(t -> assertThat(t).contains("right wall", "flat hand", "258 Hz"))
        .noneSatisfy(t -> assertThat(t).contains("Stop the port"));
    assertThat(found.finding("noise.noise-tone.left-over").orElseThrow().estimate().value())
        .isBetween(35.0, 55.0);
    double rest = found.finding("noise.noise-rest.rest").orElseThrow().estimate().value();
    double low = found.finding("noise.noise-rest.rest-low").orElseThrow().estimate().value();
    assertThat(low).isGreaterThan(rest);
    assertThat(found.finding("noise.noise-rest.rest-voltage").orElseThrow().estimate().value())
        .isBetween(1e-6, 1e-2);
    LeftOver picture = s.pictures().get(1);
    assertThat(picture.heardAt()).isEqualTo("wall");
    assertThat(picture.levels()).hasSize(picture.times().size() * picture.bands().size());
    assertThat(picture.cycle().stream().mapToDouble(c -> c).average().orElseThrow())
        .isCloseTo(1, within(0.1));
    // some 45 dB SPL at 8 cm are 17 dB at 2 m, hidden by nothing
    assertThat(found.finding("noise.noise-tone.heard").orElseThrow().estimate().value())
        .isBetween(0.2, 1.0);
    assertThat(found.finding("noise.noise-tone.reach").orElseThrow().estimate().value())
        .isBetween(0.5, 10.0);
  }

  /** The rattle alone, and the same moment with the port stopped, the tone as loud. */
  @Test
  void clipsOfTheDemo() {
    DemoDossier.copyTo(folder.resolve("demo"));
    Dossier demo = Dossier.open(folder.resolve("demo"));
    List<Clip> clips = NoiseClips.of(demo.sheet(), demo::resolve);
    assertThat(clips)
        .extracting(Clip::name)
        .containsExactly(
            "noise-sweep-recording",
            "noise-sweep-left-over",
            "noise-tone-recording",
            "noise-tone-left-over",
            "noise-port-stopped-recording",
            "noise-port-stopped-left-over",
            "noise-rest-recording");
    for (Clip clip : clips) {
      double most = Arrays.stream(clip.samples()).map(Math::abs).max().orElse(0);
      assertThat(most).as(clip.name()).isBetween(0.2, 1.0);
    }
    assertThat(clips.get(3).caption()).contains("at the wall", "raised by");
    assertThat(clips.get(5).caption())
        .contains("port blocked", "brought to the level of noise-tone");
    Findings found = demo.solve(step -> {}).findings();
    assertThat(found.suspicion().orElseThrow().sounds())
        .extracting(Suspicion.Sound::name)
        .containsExactlyElementsOf(clips.stream().map(Clip::name).toList());
  }

  @Test
  void aRecordingThatEndsTooSoonIsTold() throws IOException {
    double[] heard = noise(1.55, 0.001);
    for (int i = 12000; i < heard.length; i++) {
      heard[i] += 0.3 * Math.sin(2 * Math.PI * 60 * (i - 12000) / 48000.0);
    }
    write(heard);
    Findings found = solve(HEAD + TONE);
    assertThat(found.notices())
        .extracting(Notice::message)
        .anySatisfy(m -> assertThat(m).contains("ends 0.7 s before the signal does"))
        .noneSatisfy(m -> assertThat(m).contains("impedance"));
    assertThat(found.suspicion()).isPresent();
  }

  /** A part that strikes once a cycle, at both levels of the tone. */
  @Test
  void whatSoundsAtTheSoftestLevelTooIsToldToBePlayedSofter() throws IOException {
    SteadyTone tone = new SteadyTone(60, List.of(0.1, 0.5), 2, 0.2, 0.5);
    double[] heard = noise(tone.duration() + 0.2, 1e-5);
    double[] played = tone.samples(48000);
    for (int i = 0; i < played.length; i++) {
      heard[i] += 0.3 * played[i];
    }
    for (Tone t : tone.tones()) {
      for (double cycle = 6.2; cycle < 60 * 2 - 6; cycle++) {
        int from = (int) ((t.start() + cycle / 60) * 48000);
        for (int i = 0; i < 400; i++) {
          double since = i / 48000.0;
          heard[from + i] +=
              0.02
                  * t.amplitude()
                  * Math.exp(-since / 0.0015)
                  * Math.sin(2 * Math.PI * 1400 * since);
        }
      }
    }
    write(heard);
    Findings found =
        solve(
            HEAD + TONE.replace("at: 60 Hz", "at: 60 Hz, level: [-20 dB, -6 dB], silence: 0.5 s"));
    assertThat(found.notices())
        .extracting(Notice::message)
        .anySatisfy(m -> assertThat(m).contains("softest of these tones already, 14 dB under"));
  }

  @Test
  void aSignalThatIsNotThereIsToldAndNothingConcluded() throws IOException {
    write(noise(3, 0.01));
    Findings found = solve(HEAD + TONE);
    assertThat(SoundFolder.said(found))
        .contains("the steady tone of 60 Hz is not found in hum.wav");
    assertThat(found.suspicion()).isEmpty();
  }

  @Test
  void aSilentChannelIsTold() throws IOException {
    write(new double[48000 * 30]);
    assertThat(SoundFolder.said(solve(HEAD + TONE))).contains("the channel 'cone' is silent");
  }

  /** A divider that gives nought at rest says nothing against the microphone. */
  @Test
  void aVoltageOfNoughtAtRestIsNoFault() throws IOException {
    double[] heard = noise(3, 0.01);
    ByteBuffer pcm = ByteBuffer.allocate(4 * heard.length).order(ByteOrder.LITTLE_ENDIAN);
    for (double v : heard) {
      pcm.putShort((short) Math.round(32767 * v)).putShort((short) 0);
    }
    try (AudioInputStream in =
        new AudioInputStream(
            new ByteArrayInputStream(pcm.array()),
            new AudioFormat(48000, 16, 2, true, false),
            heard.length)) {
      AudioSystem.write(in, AudioFileFormat.Type.WAVE, folder.resolve("hum.wav").toFile());
    }
    String rest =
        TONE.substring(0, TONE.indexOf("    signal")).replace("[cone]", "[cone, voltage]");
    Findings found = solve(HEAD + rest);
    assertThat(SoundFolder.said(found)).doesNotContain("is silent");
    assertThat(found.suspicion()).isPresent();
  }

  @Test
  void ofAClippedTakeOnlyThatCounts() throws IOException {
    double[] x = new SteadyTone(60, List.of(1.0), 2, 0.2, 0.25).samples(48000);
    for (int i = 0; i < x.length; i++) {
      x[i] = Math.max(-0.99999, Math.min(0.99999, 1.5 * x[i]));
    }
    write(x);
    Findings found = solve(HEAD + TONE);
    assertThat(SoundFolder.said(found)).contains("is clipped").contains("turn its gain down");
    Suspicion s = found.suspicion().orElseThrow();
    assertThat(s.suspects().stream().filter(l -> l.id().equals("recording")).findFirst())
        .hasValueSatisfying(l -> assertThat(l.chance()).isGreaterThan(0.2));
    nothingIsToldBut(found, "Mend the recording of hum and record it again.");
  }

  /** Of a take that cannot bear a conclusion no level, picture or sound is told either. */
  private static void nothingIsToldBut(Findings found, String next) {
    assertThat(found.findings()).noneMatch(f -> f.id().startsWith("noise."));
    Suspicion s = found.suspicion().orElseThrow();
    assertThat(s.shows()).isEmpty();
    assertThat(s.pictures()).isEmpty();
    assertThat(s.sounds()).isEmpty();
    assertThat(s.tests()).first().extracting(NextTest::what).isEqualTo(next);
  }

  @Test
  void channelsThatDoNotMatchTheirNamesAreTold() throws IOException {
    write(noise(3, 0.01));
    assertThat(SoundFolder.said(solve(HEAD + TONE.replace("[cone]", "[cone, wall]"))))
        .contains("has 1 channel, 'sensors' names 2");
  }

  @Test
  void swappedChannelsAreToldAndNothingElse() throws IOException {
    Findings found = demoSweep("voltage, port, wall, cone");
    assertThat(SoundFolder.said(found))
        .contains("are two channels swapped?", "Nothing is told from it");
    nothingIsToldBut(found, "Mend the recording of swept and record it again.");
  }

  @Test
  void aRestTooShortForHumIsTold() throws IOException {
    write(noise(1, 0.01));
    String rest = TONE.substring(0, TONE.indexOf("    signal"));
    assertThat(SoundFolder.said(solve(HEAD + rest)))
        .contains("hum is told from two seconds or more");
  }

  /** A header that promises 110 s of eight channels at 192 kHz: 15 GB in an exam. */
  @Test
  void whatNeedsMoreMemoryThanThereIsIsToldSo() throws IOException {
    byte[] flac =
        Files.readAllBytes(Path.of("src/test/resources/cases/A3/A3-04/capture_calibration.flac"));
    long channels = 8;
    long bits = 16;
    ByteBuffer.wrap(flac)
        .putLong(
            18, (192000L << 44) | ((channels - 1) << 41) | ((bits - 1) << 36) | (110 * 192000L));
    Files.write(folder.resolve("hum.flac"), flac);
    String take =
        TONE.replace("hum.wav", "hum.flac")
            .replace("[cone]", "[cone, port, wall, none, none, none, none, none]");
    assertThat(SoundFolder.said(solve(HEAD + take)))
        .contains("lasts 110 s with 8 channels: that needs some 15206 MB, more than Java was given")
        .contains("JAVA_TOOL_OPTIONS=-Xmx");
  }

  /** What is written wrongly is told with its place before anything is read. */
  @Test
  void aSheetThatCannotBeIsRefused() throws IOException {
    Files.writeString(
        folder.resolve("dossier.yaml"),
        HEAD + TONE.replace("[cone]", "[voltage]").replace("at: 60 Hz, ", ""));
    assertThat(
            org.assertj.core.api.Assertions.catchThrowable(() -> Dossier.open(folder)).toString())
        .contains("no channel is a microphone")
        .contains("the tone lacks its frequency");
  }

  /**
   * A wall that swings by itself: a sweep places it and does not tell from which level it sounds.
   */
  @Test
  void howToHearFromWhichLevelItSoundsIsTold() throws IOException {
    Findings found = demoSweep("cone, port, wall, voltage");
    assertThat(found.suspicion().orElseThrow().conclusion()).contains("cabinet");
    assertThat(found.finding("noise.onset")).isEmpty();
    assertThat(found.notices())
        .filteredOn(n -> n.message().contains("from which level it sounds"))
        .singleElement()
        .satisfies(n -> assertThat(n.remedy()).contains("cutaway signal tone", "--at '25"));
  }
}
