package cutaway.acoustics.knock;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Against a simply supported plate, whose modes are products of sines. */
class ModalAssuranceTest {
  private static final int[][] MODES = {{1, 1}, {2, 1}, {1, 2}, {2, 2}, {3, 1}};
  private static final double[][] PLACES = {
    {0.21, 0.27}, {0.73, 0.31}, {0.34, 0.81}, {0.62, 0.66}, {0.45, 0.44}, {0.15, 0.6}
  };
  private static final double[] HEARD = {0.57, 0.36};

  private static double deflection(int mode, double[] at) {
    return Math.sin(MODES[mode][0] * Math.PI * at[0]) * Math.sin(MODES[mode][1] * Math.PI * at[1]);
  }

  private static double frequency(int mode) {
    return 40 * (MODES[mode][0] * MODES[mode][0] + 1.7 * MODES[mode][1] * MODES[mode][1]);
  }

  private static double[][] shapes(double[][] places) {
    double[][] out = new double[MODES.length][places.length];
    for (int mode = 0; mode < out.length; mode++) {
      for (int tap = 0; tap < places.length; tap++) {
        out[mode][tap] = deflection(mode, places[tap]);
      }
    }
    return out;
  }

  /** Taps of uneven strength, their onsets seen up to 0.3 ms off. */
  private static List<Ring> rings(long seed) {
    Random random = new Random(seed);
    double[] strength = new double[PLACES.length];
    double[] late = new double[PLACES.length];
    for (int tap = 0; tap < strength.length; tap++) {
      strength[tap] = 0.5 + random.nextDouble();
      late[tap] = 3e-4 * (2 * random.nextDouble() - 1);
    }
    List<Ring> out = new ArrayList<>();
    for (int mode = 0; mode < MODES.length; mode++) {
      double[] a = new double[2 * PLACES.length];
      double omega = 2 * Math.PI * frequency(mode);
      for (int tap = 0; tap < strength.length; tap++) {
        double size = strength[tap] * deflection(mode, PLACES[tap]) * deflection(mode, HEARD);
        a[2 * tap] = size * Math.cos(omega * late[tap] + 0.4) + 0.01 * random.nextGaussian();
        a[2 * tap + 1] = size * Math.sin(omega * late[tap] + 0.4) + 0.01 * random.nextGaussian();
      }
      out.add(new Ring(1.03 * frequency(mode), 0.1, 0.02, 0.001, -5, 40, a));
    }
    return out;
  }

  @Test
  void everyRingFindsItsModeThoughTheTapsAreUneven() {
    for (long seed = 1; seed <= 10; seed++) {
      List<ModalAssurance.Pair> pairs =
          ModalAssurance.pairs(rings(seed), shapes(PLACES), (ring, mode) -> true);
      assertThat(pairs).as("seed %d", seed).hasSize(MODES.length);
      assertThat(pairs).allMatch(p -> p.ring() == p.mode());
      assertThat(pairs).allMatch(p -> p.likeness() > 0.95 && p.uncertainty() < 0.2);
    }
  }

  @Test
  void placesInTheWrongOrderLookLessAlike() {
    List<double[]> wrong = new ArrayList<>(List.of(PLACES));
    Collections.rotate(wrong, 2);
    double[][] shapes = shapes(wrong.toArray(double[][]::new));
    List<ModalAssurance.Pair> pairs =
        ModalAssurance.pairs(rings(1), shapes, (ring, mode) -> ring == mode);
    assertThat(pairs.stream().filter(p -> p.likeness() > 0.95).count()).isLessThan(3);
  }

  /** Amplitudes that have nothing to do with the shapes are hardly ever taken for a mode. */
  @Test
  void chanceIsNotTakenForLikeness() {
    Random random = new Random(5);
    int taken = 0;
    for (int draw = 0; draw < 200; draw++) {
      List<Ring> rings = new ArrayList<>();
      for (int i = 0; i < 3; i++) {
        double[] a = new double[10];
        for (int k = 0; k < 10; k += 2) {
          a[k] = random.nextGaussian();
        }
        rings.add(new Ring(frequency(i), 0.1, 0.02, 0.001, -5, 40, a));
      }
      double[][] five = new double[MODES.length][5];
      for (int mode = 0; mode < MODES.length; mode++) {
        five[mode] = java.util.Arrays.copyOf(shapes(PLACES)[mode], 5);
      }
      taken += ModalAssurance.pairs(rings, five, (ring, mode) -> ring == mode).size();
    }
    assertThat(taken).isLessThan(30);
  }

  @Test
  void theCriterionIsOneForAShapeTimesAnyComplexFactorAndNoughtForOneAtRightAngles() {
    double[] shape = {1, -2, 0.5};
    double[] turned = {0.3, 0.4, -0.6, -0.8, 0.15, 0.2};
    assertThat(ModalAssurance.likeness(turned, shape, -1)).isCloseTo(1, within(1e-12));
    assertThat(ModalAssurance.likeness(new double[] {2, 0, 1, 0, 0, 0}, shape, -1)).isZero();
    assertThat(ModalAssurance.likeness(new double[6], shape, -1)).isZero();
  }

  private static org.assertj.core.data.Offset<Double> within(double by) {
    return org.assertj.core.data.Offset.offset(by);
  }
}
