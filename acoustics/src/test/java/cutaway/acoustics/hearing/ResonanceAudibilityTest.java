package cutaway.acoustics.hearing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class ResonanceAudibilityTest {
  /** 10_audibility.csv, to.slope: roughly 3 dB for a doubling of Q (from memory, low trust). */
  @Test
  void highQNeedsMore() {
    double slope = ResonanceAudibility.threshold(40) - ResonanceAudibility.threshold(20);
    assertThat(slope).isCloseTo(3, within(1e-9));
    assertThat(ResonanceAudibility.threshold(0.5)).isEqualTo(ResonanceAudibility.threshold(1));
  }

  @Test
  void isALikelihood() {
    double at = ResonanceAudibility.threshold(30);
    assertThat(ResonanceAudibility.likelihood(at, 3, 30)).isCloseTo(0.5, within(1e-9));
    assertThat(ResonanceAudibility.likelihood(at + 20, 3, 30)).isBetween(0.95, 1.0);
    assertThat(ResonanceAudibility.likelihood(at - 20, 3, 30)).isBetween(0.0, 0.05);
    // what is not known well is never sure
    assertThat(ResonanceAudibility.likelihood(at + 10, 20, 30))
        .isLessThan(ResonanceAudibility.likelihood(at + 10, 1, 30));
  }
}
