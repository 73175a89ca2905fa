package cutaway.benchmarks.population;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.stimulus.MusicClip;
import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

class InventedMusicTest {
  @Test
  void itIsLoudStartsInSilenceAndIsTheSameAgain() {
    for (long seed = 1; seed <= 5; seed++) {
      MusicClip clip = InventedMusic.draw(new Random(seed));
      double[] x = clip.recording();
      assertThat(Recorder.most(x)).isCloseTo(1, within(1e-12));
      int silence = (int) (0.39 * clip.rate());
      assertThat(Recorder.most(Arrays.copyOf(x, silence))).isZero();
      assertThat(clip.duration()).isBetween(5.0, 10.0);
      assertThat(InventedMusic.draw(new Random(seed))).isEqualTo(clip);
    }
    assertThat(InventedMusic.draw(new Random(1))).isNotEqualTo(InventedMusic.draw(new Random(2)));
  }
}
