package cutaway.benchmarks.population;

import static org.assertj.core.api.Assertions.assertThat;

import cutaway.benchmarks.population.Defect.LoosePart;
import cutaway.benchmarks.population.Defect.LoosePart.Seat;
import java.util.Random;
import org.junit.jupiter.api.Test;

class LoosePartTest {
  private static final Loudspeaker UNIT = Loudspeaker.draw(new Random(5));

  /** A tone of so many hertz, 4 V. */
  private static Motion played(double frequency) {
    double[] volts = new double[(int) (0.6 * Motion.RATE)];
    for (int i = 0; i < volts.length; i++) {
      volts[i] = 4 * Math.sin(2 * Math.PI * frequency * i / Motion.RATE);
    }
    return Motion.of(UNIT, volts, Amplifier.clean(), true, false);
  }

  private static boolean acts(LoosePart part, Motion motion) {
    return part.of(motion, UNIT).acts();
  }

  /** It goes by the pressure, which a box has most of far below the rings of its walls. */
  @Test
  void aPlateLiftsWhereThePressureIs() {
    Motion deep = played(50);
    Motion high = played(600);
    double most = Recorder.most(LoosePart.pushed(deep));
    LoosePart plate = new LoosePart(Seat.PLATE, 0.6 * most, 3000, 1);
    assertThat(acts(plate, deep)).isTrue();
    assertThat(acts(plate, high)).isFalse();
    assertThat(acts(new LoosePart(Seat.PLATE, 1.1 * most, 3000, 1), deep)).isFalse();
    assertThat(plate.of(deep, UNIT).place()).isEqualTo(Emission.Place.WALL);
  }

  /** Three hands in four lie on it; one on a wall damps nothing else that is loose by itself. */
  @Test
  void aHandMostlyHoldsAPlate() {
    long held =
        new Random(9)
            .longs(400)
            .filter(seed -> new LoosePart(Seat.PLATE, 1, 3000, seed).held().lifts() > 1)
            .count();
    assertThat(held).isBetween(270L, 330L);
    LoosePart onCone = new LoosePart(Seat.CONE, 1, 3000, 3);
    assertThat(onCone.held()).isEqualTo(onCone);
  }
}
