package cutaway.bench.noise;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowable;

import cutaway.bench.dossier.Dossier;
import cutaway.bench.finding.Findings;
import cutaway.bench.finding.LeftOver;
import cutaway.bench.finding.Suspicion;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Invented music that one microphone heard. */
class MusicExamTest {
  private static final int RATE = 48000;
  private static final double NOTE = 0.5;
  private static final double LATE = 0.3;
  private static final String SHEET =
      "cutaway: 1\nunit: { name: U }\ntakes:\n"
          + "  - id: song\n    file: heard.wav\n    what: sound\n    sensors: [cone]\n"
          + "    signal: { shape: music, file: tune.wav }\n";

  @TempDir private Path folder;

  private Findings solve(String sheet) throws IOException {
    return new SoundFolder(folder).solve(sheet);
  }

  private double[] tune(double seconds, long seed) throws IOException {
    Random r = new Random(seed);
    double[] out = new double[(int) (seconds * RATE)];
    for (double at = 0.4; at + NOTE < seconds; at += NOTE) {
      double f = 45 * Math.pow(2, r.nextInt(12) / 12.0);
      for (int i = 0; i < NOTE * RATE; i++) {
        double t = (double) i / RATE;
        double x = 0.02 * r.nextGaussian() * Math.exp(-20 * t);
        for (int k = 1; k <= 8; k++) {
          x += 0.4 / k * Math.exp(-2 * t) * Math.sin(2 * Math.PI * k * f * t);
        }
        out[(int) (at * RATE) + i] += 0.6 * x * Math.min(1, (NOTE - t) / 0.02);
      }
    }
    new SoundFolder(folder).write("tune.wav", out);
    return out;
  }

  /** With something that strikes 0.06 s into each note. */
  private void heard(double[] tune, double strikes) throws IOException {
    Random r = new Random(7);
    double[] out = new double[tune.length + (int) (2 * LATE * RATE)];
    double smooth = 0;
    for (int i = 0; i < out.length; i++) {
      int from = i - (int) (LATE * RATE);
      double x = from >= 0 && from < tune.length ? tune[from] : 0;
      double echo = from >= 700 && from - 700 < tune.length ? -0.3 * tune[from - 700] : 0;
      smooth += 0.3 * (x + echo - smooth);
      out[i] = 0.5 * smooth + 3e-5 * r.nextGaussian();
    }
    for (double at = 0.46 + LATE; at + NOTE < (double) out.length / RATE; at += NOTE) {
      for (int i = 0; i < 0.06 * RATE; i++) {
        double t = (double) i / RATE;
        out[(int) (at * RATE) + i] +=
            strikes * Math.exp(-t / 0.01) * Math.sin(2 * Math.PI * 3000 * t);
      }
    }
    new SoundFolder(folder).write("heard.wav", out);
  }

  @Test
  void whatMusicSetsOffIsToldAndShown() throws IOException {
    heard(tune(7, 1), 0.003);
    Findings found = solve(SHEET);
    Suspicion s = found.suspicion().orElseThrow();
    assertThat(s.history().get(0).what()).isEqualTo("the music");
    assertThat(s.shows().get(0)).contains("s into the music, at the cone");
    assertThat(found.finding("noise.song.left-over").orElseThrow().method())
        .contains("linear path from the music", "dB over silence");
    assertThat(found.finding("noise.song.heard")).isPresent();
    LeftOver picture = s.pictures().get(0);
    assertThat(picture.cycle()).isEmpty();
    assertThat(picture.tones()).containsOnly(0.0);
    assertThat(s.sounds())
        .extracting(Suspicion.Sound::name)
        .containsExactly("song-recording", "song-left-over");
    assertThat(s.tests()).anySatisfy(t -> assertThat(t.what()).contains("repeat the music"));
  }

  @Test
  void cleanMusicLeavesNothing() throws IOException {
    heard(tune(7, 1), 0);
    Findings found = solve(SHEET);
    assertThat(found.suspicion().orElseThrow().shows()).isEmpty();
    assertThat(found.finding("noise.song.left-over")).isEmpty();
  }

  @Test
  void otherMusicIsNotFound() throws IOException {
    heard(tune(7, 1), 0);
    tune(7, 2);
    assertThat(SoundFolder.said(solve(SHEET))).contains("the music is not found in heard.wav");
  }

  @Test
  void musicTooShortOrNotThereIsTold() throws IOException {
    heard(tune(2, 1), 0);
    assertThat(SoundFolder.said(solve(SHEET))).contains("the music in tune.wav lasts 2.0 s");
    Files.delete(folder.resolve("tune.wav"));
    assertThat(catchThrowable(() -> solve(SHEET)).toString()).contains("tune.wav: is missing");
  }

  @Test
  void aListenersMicrophoneAloneIsTooFarOff() throws IOException {
    heard(tune(7, 1), 0);
    assertThat(SoundFolder.said(solve(SHEET.replace("[cone]", "[listener]"))))
        .contains("further off the room rings on", "near cone, port or wall");
  }

  @Test
  void musicWithoutItsFileIsRefused() throws IOException {
    Files.writeString(folder.resolve("dossier.yaml"), SHEET.replace(", file: tune.wav", ""));
    assertThat(catchThrowable(() -> Dossier.open(folder)).toString())
        .contains("the music that was played is not named");
  }
}
