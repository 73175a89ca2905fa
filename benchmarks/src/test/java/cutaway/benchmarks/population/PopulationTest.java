package cutaway.benchmarks.population;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;

class PopulationTest {
  @Test
  void theSameSeedGivesTheSameCase() {
    SimulatedCase a = Population.draw(7);
    SimulatedCase b = Population.draw(7);
    assertThat(a.faults()).isEqualTo(b.faults());
    assertThat(a.takes()).hasSameSizeAs(b.takes());
    assertThat(a.takes().get(0).microphones()[1]).isEqualTo(b.takes().get(0).microphones()[1]);
  }

  /** A defect is as far over all else as was drawn, within its windows' own scatter. */
  @Test
  void faultsStandOutAsDrawn() {
    SimulatedCase c =
        LongStream.iterate(0, seed -> seed + 1)
            .mapToObj(Population::draw)
            .filter(x -> x.faults().stream().anyMatch(f -> f.kind() == Fault.Kind.DRIVEN))
            .findFirst()
            .orElseThrow();
    for (Fault fault : Fault.values()) {
      if (!c.faults().contains(fault)) {
        assertThat(c.margin(fault)).isEqualTo(Double.NEGATIVE_INFINITY);
      } else if (fault.kind() == Fault.Kind.DRIVEN) {
        assertThat(c.margin(fault)).isBetween(2.0, 42.0);
      }
    }
  }

  @Test
  void amplifiersDoWhatTheyAreCalled() {
    Amplifier rails = new Amplifier.Rails(10, 0.4, 5e-3, 50, 0);
    Amplifier slewing = new Amplifier.Slewing(1000);
    double highest = 0;
    double steepest = 0;
    double before = 0;
    for (int i = 0; i < 100000; i++) {
      double wanted = 20 * Math.sin(2 * Math.PI * 500 * i * Motion.STEP);
      highest = Math.max(highest, rails.step(wanted, wanted / 4));
      double out = slewing.step(wanted, 0);
      steepest = Math.max(steepest, Math.abs(out - before) * Motion.RATE);
      before = out;
    }
    assertThat(highest).isBetween(6.0, 10.0);
    assertThat(steepest).isCloseTo(1000, within(1e-6));
  }

  /** Multiples of the mains stand where they belong. */
  @Test
  void rectifiersMakeEvenMultiples() {
    double[] hum = Voltages.of(Fault.HUM_RECTIFIER, 192000, 50, 1, new Random(2));
    double[] level = new double[5];
    for (int k = 1; k <= 4; k++) {
      double re = 0;
      double im = 0;
      for (int i = 0; i < hum.length; i++) {
        double angle = 2 * Math.PI * 50 * k * i * Motion.STEP;
        re += hum[i] * Math.cos(angle);
        im += hum[i] * Math.sin(angle);
      }
      level[k] = Math.hypot(re, im);
    }
    assertThat(level[2]).isGreaterThan(5 * level[1]);
    assertThat(level[4]).isGreaterThan(5 * level[3]);
    assertThat(Arrays.stream(hum).map(v -> v * v).average().orElseThrow())
        .isCloseTo(1, within(1e-9));
  }

  @Test
  void soundsOfTheRoomHaveTheirLevel() {
    for (Nuisance what : Nuisance.values()) {
      if (what.isSound()) {
        double[] x = what.sound(96000, 50, new Random(3));
        assertThat(
                cutaway.acoustics.meter.FrequencyWeighting.A.level(
                    cutaway.acoustics.meter.PowerSpectrum.of(x, 48000)))
            .isCloseTo(50, within(1e-6));
      }
    }
  }
}
