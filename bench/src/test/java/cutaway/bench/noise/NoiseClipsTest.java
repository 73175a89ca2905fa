package cutaway.bench.noise;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.stimulus.SteadyTone;
import cutaway.bench.dossier.Dossier;
import cutaway.bench.finding.Findings;
import cutaway.bench.finding.NextTest;
import cutaway.bench.noise.NoiseClips.Clip;
import cutaway.bench.take.SignalFile;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A tone with blows at the cone, and the same with the grille off, the blows gone. */
class NoiseClipsTest {
  private static final String SHEET =
      """
      cutaway: 1
      unit: { name: U }
      takes:
        - id: before
          file: before.wav
          what: sound
          sensors: [cone]
          signal: { shape: tone, at: 80 Hz, lasting: 2 s }
        - id: after
          file: after.wav
          what: sound
          sensors: [cone]
          done: trim off
          signal: { shape: tone, at: 80 Hz, lasting: 2 s }
      """;

  @TempDir private Path folder;

  /** Blows louder than the tone, each cycle, where there are any. */
  private void write(String name, int rate, double level, double blows) throws IOException {
    double[] played = new SteadyTone(80, List.of(0.5), 2, 0.2, 0.25).samples(rate);
    double[] x = new double[played.length + rate / 2];
    Random random = new Random(4);
    for (int i = 0; i < x.length; i++) {
      double t = (i - 0.1 * rate) / rate;
      double tone = t < 0 || t * rate >= played.length ? 0 : played[(int) (t * rate)];
      double since = 80 * t - Math.floor(80 * t);
      double on = t > 0.3 && t < 2.2 ? 1 : 0;
      double blow = on * blows * Math.exp(-since * 12) * Math.sin(2 * Math.PI * 3500 * t);
      x[i] = level * (0.2 * tone + blow) + 1e-4 * random.nextGaussian();
    }
    SignalFile.write(folder.resolve(name), x, rate);
  }

  private Clip after() throws IOException {
    Files.writeString(folder.resolve("dossier.yaml"), SHEET);
    Dossier dossier = Dossier.open(folder);
    List<Clip> clips = NoiseClips.of(dossier.sheet(), dossier::resolve);
    assertThat(clips)
        .extracting(Clip::name)
        .containsExactly(
            "before-recording", "before-left-over", "after-recording", "after-left-over");
    return clips.get(2);
  }

  private static double gain(Clip clip) {
    String words = clip.caption();
    String by = words.substring(words.indexOf(" by ") + 4, words.indexOf(" dB"));
    return Double.parseDouble(by);
  }

  /** Blows as strong as the tone itself are no part of its level. */
  @Test
  void takesAreBroughtToOneLevelByWhatWasPlayed() throws IOException {
    write("before.wav", 48000, 1, 0.3);
    write("after.wav", 48000, 0.8, 0);
    assertThat(gain(after())).isCloseTo(-20 * Math.log10(0.8), within(0.2));
  }

  @Test
  void recordersThatRunDifferentlyAreMatchedToo() throws IOException {
    write("before.wav", 48000, 1, 0.3);
    write("after.wav", 44100, 0.8, 0);
    assertThat(gain(after())).isCloseTo(-20 * Math.log10(0.8), within(0.3));
  }

  /** What was played 20 dB softer tells nothing of the grille: it is to be taken off once more. */
  @Test
  void whatWasPlayedSofterIsToBeMadeAgain() throws IOException {
    write("before.wav", 48000, 1, 0.3);
    write("after.wav", 48000, 0.1, 0);
    Findings found = new SoundFolder(folder).solve(SHEET);
    assertThat(SoundFolder.said(found)).contains("was played 20 dB softer", "at the same level");
    assertThat(found.suspicion().orElseThrow().tests())
        .extracting(NextTest::what)
        .anySatisfy(t -> assertThat(t).startsWith("Take grille and trim rings off"));
    write("again.wav", 48000, 1, 0);
    Files.move(
        folder.resolve("again.wav"),
        folder.resolve("after.wav"),
        StandardCopyOption.REPLACE_EXISTING);
    assertThat(new SoundFolder(folder).solve(SHEET).suspicion().orElseThrow().tests())
        .extracting(NextTest::what)
        .noneSatisfy(t -> assertThat(t).startsWith("Take grille and trim rings off"));
  }
}
