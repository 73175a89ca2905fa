package cutaway.acoustics.stimulus;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;

class PhasorsTest {
  /** Against the library's own, one number at a time. */
  @Test
  void agreeWithTheLibrary() {
    Random random = new Random(2);
    double[] cycles = new double[2000];
    for (int i = 0; i < cycles.length; i++) {
      cycles[i] = i < 9 ? (i - 4) / 4.0 : 8 * random.nextDouble() - 4;
    }
    double[] cosine = new double[cycles.length];
    double[] sine = new double[cycles.length];
    Phasors.of(cycles.clone(), cosine, sine);
    double[] alone = cycles.clone();
    Phasors.cosine(alone);
    for (int i = 0; i < cycles.length; i++) {
      assertThat(cosine[i]).isCloseTo(Math.cos(2 * Math.PI * cycles[i]), within(4e-15));
      assertThat(alone[i]).isCloseTo(Math.cos(2 * Math.PI * cycles[i]), within(1e-14));
      assertThat(sine[i]).isCloseTo(Math.sin(2 * Math.PI * cycles[i]), within(4e-15));
    }
  }
}
