package cutaway.acoustics.hearing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.meter.ThirdOctave;
import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ZwickerLoudnessTest {
  /** Bands that a tone fills, skirts of the filters included. */
  private static double[] tone(double frequency, double level) {
    return ThirdOctave.between(25, 12590).stream()
        .mapToDouble(b -> level + 20 * Math.log10(b.gain(frequency)))
        .toArray();
  }

  private static ZwickerLoudness free(double[] levels) {
    return ZwickerLoudness.of(levels, ZwickerLoudness.Field.FREE);
  }

  /**
   * Signals 2 to 4 of the standard's annex B, whose loudness is from memory, so low trust; and the
   * sone by definition. Tolerance as the standard's: 5 % or 0.1 sone.
   */
  @ParameterizedTest
  @CsvSource({
    "250, 80, 14.655",
    "1000, 60, 4.019",
    "4000, 40, 1.549",
    "1000, 40, 1",
    "1000, 80, 16"
  })
  void tonesAreAsLoudAsListed(double frequency, double level, double sones) {
    assertThat(free(tone(frequency, level)).sones())
        .isCloseTo(sones, within(Math.max(0.1, 0.05 * sones)));
  }

  @Test
  void loudnessIsTheAreaUnderItsParts() {
    ZwickerLoudness loudness = free(tone(315, 70));
    assertThat(Arrays.stream(loudness.specific()).sum() * 0.1)
        .isCloseTo(loudness.sones(), within(0.02 * loudness.sones()));
    assertThat(free(tone(1000, 60)).phons()).isCloseTo(60, within(0.2));
  }

  /** More of anything is never less loud; a wide sound is louder than a narrow one of its level. */
  @Test
  void growsWithLevelAndWidth() {
    double before = 0;
    for (int level = 0; level < 110; level += 5) {
      double now = free(tone(500, level)).sones();
      assertThat(now).isGreaterThanOrEqualTo(before);
      before = now;
    }
    double[] wide = new double[ZwickerLoudness.BANDS];
    Arrays.fill(wide, 60 - 10 * Math.log10(wide.length));
    assertThat(free(wide).sones()).isGreaterThan(2 * free(tone(1000, 60)).sones());
    double[] silent = new double[ZwickerLoudness.BANDS];
    Arrays.fill(silent, -80);
    assertThat(free(silent).sones()).isZero();
  }
}
