package cutaway.benchmarks.population;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;

class AccelerometerTest {
  private static final int STEPS = 40000;

  private static double level(Emission.Place place, double scale, long seed) {
    double[] sound = new double[STEPS];
    for (int i = 0; i < STEPS; i++) {
      sound[i] = Math.sin(2 * Math.PI * 800 * i / Motion.RATE);
    }
    double[] to = new double[STEPS / 4];
    new Accelerometer(new Random(seed)).add(new Emission(place, sound, true), scale, to);
    double most = 0;
    for (int i = 500; i < to.length - 500; i++) {
      most = Math.max(most, Math.abs(to[i]));
    }
    return most;
  }

  /**
   * A patch S that radiates p at 1 m from a baffle shakes by 2π p / ρS; 50 to 500 cm² are drawn.
   */
  @Test
  void aDefectOfTheWallShakesItAsMuchAsItRadiates() {
    for (long seed = 1; seed <= 20; seed++) {
      double one = 2 * Math.PI / Loudspeaker.DENSITY;
      assertThat(level(Emission.Place.WALL, 1, seed)).isBetween(one / 0.0501, one / 0.00499);
      assertThat(level(Emission.Place.WALL, 3, seed))
          .isCloseTo(3 * level(Emission.Place.WALL, 1, seed), within(1e-6));
    }
  }

  @Test
  void oneElsewhereShakesItLess() {
    for (Emission.Place place : Emission.Place.values()) {
      if (place != Emission.Place.WALL) {
        for (long seed = 1; seed <= 20; seed++) {
          double less =
              20 * Math.log10(level(place, 1, seed) / level(Emission.Place.WALL, 1, seed));
          assertThat(less).as(place + " " + seed).isBetween(-60.1, -19.9);
        }
      }
    }
  }
}
