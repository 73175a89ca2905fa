package cutaway.bench.noise;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cutaway.bench.dossier.Dossier;
import cutaway.bench.finding.Finding;
import cutaway.bench.finding.Findings;
import cutaway.bench.finding.Notice;
import cutaway.bench.finding.Suspicion;
import cutaway.bench.noise.NoiseClips.Clip;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Hum and a tone, invented: told with their frequencies and cut out to be heard. */
class NoiseAtRestTest {
  private static final double MAINS = 59.93;
  private static final double TONE = 2431;

  /** Levels, dB SPL, of mains orders 2 and 4 and of the tone, with a full scale of 1 Pa. */
  private static final double SECOND = 52;

  private static final double FOURTH = 44;
  private static final double STRAY = 36;

  @TempDir private Path folder;

  private static double[] recording(double change) {
    Random random = new Random(7);
    double[] out = new double[5 * 48000];
    for (int i = 0; i < out.length; i++) {
      double t = i / 48000.0;
      out[i] =
          1e-4 * random.nextGaussian()
              + change * sine(SECOND, 2 * MAINS, t)
              + change * sine(FOURTH, 4 * MAINS, t)
              + sine(STRAY, TONE, t);
    }
    return out;
  }

  private static double sine(double level, double frequency, double t) {
    return 2e-5
        * Math.pow(10, level / 20)
        * Math.sqrt(2)
        * Math.sin(2 * Math.PI * frequency * t + 1);
  }

  private void record(double after) throws IOException {
    SoundFolder sounds = new SoundFolder(folder);
    sounds.write("before.wav", recording(1));
    sounds.write("after.wav", recording(after));
  }

  private static final String SHEET =
      """
      cutaway: 1
      unit: { name: U }
      takes:
        - id: before
          file: before.wav
          what: sound
          sensors: [cone]
          full-scale: { cone: 1 Pa }
        - id: shorted
          file: after.wav
          what: sound
          sensors: [cone]
          full-scale: { cone: 1 Pa }
          done: inputs shorted
      """;

  @Test
  void humAndToneAreToldWithTheirFrequencies() throws IOException {
    record(0.1);
    Findings found = new SoundFolder(folder).solve(SHEET);
    is(found, "noise.before.mains", MAINS, 0.04);
    is(found, "noise.before.tone-frequency", TONE, 2);
    is(found, "noise.before.hum", 52.6, 1);
    is(found, "noise.before.tone", STRAY, 1);
    is(found, "noise.shorted.hum", 32.6, 1);
    assertThat(found.finding("noise.before.hum").map(Finding::method).orElseThrow())
        .contains("120 Hz at 52 dB SPL, 240 Hz at 44 dB SPL");
    assertThat(found.suspicion().map(Suspicion::shows).orElseThrow())
        .containsExactly(
            "before: nothing played, at the cone, hum, 120 Hz at 52 dB SPL, 240 Hz at 44 dB SPL",
            "before: nothing played, at the cone, a tone of 2431 Hz, 36 dB SPL");
  }

  private static void is(Findings found, String id, double value, double off) {
    assertThat(found.finding(id).orElseThrow().estimate().value()).isCloseTo(value, within(off));
  }

  @Test
  void silenceIsHeardBeforeAndAfterAtOneGain() throws IOException {
    record(0.1);
    Findings found = new SoundFolder(folder).solve(SHEET);
    List<Clip> clips = clips();
    assertThat(clips)
        .extracting(Clip::name)
        .containsExactly("before-recording", "shorted-recording");
    assertThat(clips.get(1).caption()).contains("inputs shorted", "at the gain of before");
    assertThat(most(clips.get(0))).isCloseTo(0.5, within(0.01));
    assertThat(most(clips.get(1))).isBetween(0.05, 0.15);
    assertThat(found.suspicion().orElseThrow().sounds())
        .extracting(Suspicion.Sound::name)
        .containsExactly("before-recording", "shorted-recording");
  }

  /** The sheet says 50 Hz, what hums is of 60 Hz: somebody errs. */
  @Test
  void anotherMainsThanTheSheetSaysIsTold() throws IOException {
    record(0.5);
    Findings found = new SoundFolder(folder).solve(SHEET.replace("takes:", "mains: 50 Hz\ntakes:"));
    assertThat(found.notices())
        .extracting(Notice::message)
        .contains("its hum is of a mains of 59.93 Hz, the sheet says 50 Hz");
    assertThat(new SoundFolder(folder).solve(SHEET).notices())
        .extracting(Notice::message)
        .noneMatch(m -> m.contains("its hum is of a mains"));
  }

  /** A hum that is louder with the inputs shorted is not cut off. */
  @Test
  void whatIsLouderAfterIsPlayedSofterAndSaidSo() throws IOException {
    record(4);
    Clip after = clips(SHEET).get(1);
    assertThat(after.caption()).contains("dB under the gain of before");
    assertThat(most(after)).isCloseTo(0.5, within(0.01));
  }

  private List<Clip> clips(String sheet) throws IOException {
    new SoundFolder(folder).solve(sheet);
    return clips();
  }

  private List<Clip> clips() {
    Dossier dossier = Dossier.open(folder);
    return NoiseClips.of(dossier.sheet(), dossier::resolve);
  }

  private static double most(Clip clip) {
    return Arrays.stream(clip.samples()).map(Math::abs).max().orElse(0);
  }
}
