package cutaway.acoustics.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;

class NoiseTest {

  @Test
  void findsTheScaleOfGaussianNoiseInSpiteOfOutliers() {
    Random random = new Random(1);
    double[] r = new double[4000];
    for (int i = 0; i < r.length; i++) {
      r[i] = 0.01 * random.nextGaussian();
    }
    r[100] = 5;
    r[2001] = -3;
    Noise noise = Noise.of(r, 0, 2000, 2, 0, 1e-9);
    // standard error of a standard deviation from 4000 numbers is 1.1 %
    assertThat(noise.sigma()).isCloseTo(0.01, within(0.0004));
    assertThat(noise.weight(100)).isZero();
    assertThat(noise.weight(1)).isZero();
    assertThat(noise.correlation()).isLessThan(1.2);
  }

  @Test
  void countsNeighboursThatAreAlikeOnce() {
    Random random = new Random(2);
    double[] r = new double[3000];
    for (int i = 1; i < r.length; i++) {
      r[i] = 0.8 * r[i - 1] + random.nextGaussian();
    }
    // an AR(1) process with ρ = 0.8 has (1 + ρ)/(1 − ρ) = 9
    assertThat(Noise.of(r, 0, 3000, 1, 0, 1e-9).correlation()).isBetween(6.0, 13.0);
  }
}
