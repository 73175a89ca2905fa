package cutaway.bench.take;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import cutaway.acoustics.meter.CalibratorTone;
import cutaway.acoustics.meter.FrequencyWeighting;
import cutaway.acoustics.meter.LevelMatch;
import cutaway.acoustics.meter.PowerSpectrum;
import cutaway.acoustics.meter.ProgrammeLoudness;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.Test;

/**
 * Meters on the recordings kept under cases/meters; see the README there for where they are from.
 */
class MeterCasesTest {
  private static final Path CASES = Path.of("src/test/resources/cases/meters");

  private static SoundFile open(JsonNode name) {
    return SoundFile.openAll(CASES.resolve(name.asText()), name.asText(), "x");
  }

  /** Cases whose recording is kept. */
  private static List<JsonNode> cases(String list, String under, String file) {
    try {
      JsonNode all = new ObjectMapper().readTree(CASES.resolve(list).toFile()).get(under);
      List<JsonNode> kept =
          StreamSupport.stream(all.spliterator(), false)
              .filter(c -> Files.exists(CASES.resolve(c.get(file).asText())))
              .toList();
      assertThat(kept).hasSizeGreaterThanOrEqualTo(2);
      return kept;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Test
  void loudnessOfProgrammeClips() {
    for (JsonNode c : cases("loudness/expected.json", "cases", "file")) {
      SoundFile sound = open(c.get("file"));
      ProgrammeLoudness meter = new ProgrammeLoudness(sound.channels(), sound.rate());
      sound.stream(meter::add);
      JsonNode want = c.get("expected");
      assertThat(meter.read().integrated())
          .isCloseTo(want.get("integrated_lufs").asDouble(), within(0.1));
      assertThat(meter.read().truePeak())
          .isCloseTo(
              want.get("true_peak_dbtp").asDouble(), within(c.get("tolerance_tp_db").asDouble()));
      JsonNode peer = c.get("ffmpeg_ebur128");
      assertThat(meter.read().momentary())
          .isCloseTo(peer.get("max_momentary_lufs").asDouble(), within(0.1));
      assertThat(meter.read().shortTerm())
          .isCloseTo(peer.get("max_short_term_lufs").asDouble(), within(0.1));
    }
  }

  @Test
  void calibratorAndUnknownNoise() {
    for (JsonNode c : cases("calibration/expected.json", "cases", "calibrator_file")) {
      SoundFile sound = open(c.get("calibrator_file"));
      CalibratorTone tone =
          CalibratorTone.of(sound.samples(0), sound.rate(), c.get("nominal_hz").asDouble())
              .orElseThrow();
      double pascals =
          FrequencyWeighting.REFERENCE
              * Math.pow(10, c.get("calibrator_db_spl").asDouble() / 20)
              / tone.amplitude();
      JsonNode want = c.get("expected");
      assertThat(20 * Math.log10(pascals / want.get("pa_per_full_scale").asDouble()))
          .isCloseTo(0, within(0.01));
      assertThat(tone.frequency()).isCloseTo(want.get("frequency_hz").asDouble(), within(0.01));
      SoundFile unknown = open(c.get("unknown_file"));
      double level =
          FrequencyWeighting.Z.level(PowerSpectrum.of(unknown.samples(0), unknown.rate()))
              + 20 * Math.log10(pascals);
      assertThat(level).isCloseTo(want.get("unknown_db_spl").asDouble(), within(0.05));
    }
  }

  @Test
  void gainDelayAndPolarityOfPairs() {
    for (JsonNode c : cases("pairs/expected.json", "cases", "a")) {
      LevelMatch match =
          LevelMatch.of(open(c.get("a")).samples(0), open(c.get("b")).samples(0)).orElseThrow();
      JsonNode want = c.get("expected");
      assertThat(20 * Math.log10(match.gain()))
          .isCloseTo(want.get("gain_db_b_re_a").asDouble(), within(0.02));
      assertThat(match.delay())
          .isCloseTo(want.get("delay_samples_b_after_a").asDouble(), within(0.05));
      assertThat(match.inverted()).isEqualTo(want.get("polarity").asInt() < 0);
    }
  }

  @Test
  void weightedLevelsOfNoise() {
    for (JsonNode c : cases("weighting/noise_levels.json", "files", "file")) {
      SoundFile sound = open(c.get("file"));
      double scale = c.get("pa_per_full_scale").asDouble();
      double[] pascals = sound.samples(0);
      IntStream.range(0, pascals.length).forEach(i -> pascals[i] *= scale);
      for (FrequencyWeighting w : FrequencyWeighting.values()) {
        double want = c.get("level_db").get(w.name()).asDouble();
        assertThat(w.level(PowerSpectrum.of(pascals, sound.rate()))).isCloseTo(want, within(0.01));
        assertThat(w.level(PowerSpectrum.averaged(pascals, 0, pascals.length, sound.rate(), 48000)))
            .isCloseTo(want, within(0.1));
      }
    }
  }
}
