package cutaway.acoustics.fault;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.hearing.CriticalBands;
import cutaway.acoustics.stimulus.Recorded;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class AudibleTest {
  private static TakeClues heard(NoiseTake take) {
    return TakeClues.of(take, new UnitFacts(Optional.empty(), Optional.empty()), Optional.empty());
  }

  private static NoiseTake struck(double size) {
    return ResidueTest.take(ResidueTest.SWEEP, t -> ResidueTest.strike(t, 50, 120, size, 0.3));
  }

  private static double level(CriticalBands bands) {
    return 10 * Math.log10(bands.power() / 4e-10);
  }

  /** Powers against means over the formulas that the take was made from. */
  @Test
  void whatIsLeftAndWhatIsPlayedHaveTheirOwnPower() {
    TakeClues read = heard(struck(0.02));
    Audible audible = read.places().get(0).audible().orElseThrow();
    Spot spot = read.spot().orElseThrow();
    double middle = ResidueTest.SWEEP.tones().get(0).start() + 0.02 + spot.since();
    double own = 0;
    int n = 0;
    for (double t = middle - 0.1; t < middle + 0.1; t += 1 / Recorded.RATE) {
      own += Math.pow(ResidueTest.strike(t, 50, 120, 0.02, 0.3), 2);
      n++;
    }
    assertThat(audible.noiseAt()).isEqualTo(Sensor.WALL);
    assertThat(audible.playedAt()).isEqualTo(Sensor.CONE);
    assertThat(level(audible.noise())).isCloseTo(10 * Math.log10(own / n / 4e-10), within(1.0));
    // one half amplitude squared through the high-pass at 45 Hz, harmonics 5 and 3 %, an echo of a
    // tenth
    double[] through = through(spot.frequency());
    assertThat(level(audible.played()))
        .isCloseTo(
            10 * Math.log10((through[0] * through[0] + through[1] * through[1]) / 2 / 4e-10),
            within(1.0));
    // white noise of 17 dB up to 24 kHz, of which critical bands reach to 15.5
    assertThat(level(audible.room())).isCloseTo(17 + 10 * Math.log10(15.5 / 24), within(1.0));
  }

  private static double[] through(double frequency) {
    double x = frequency / 45;
    double size = x * x / Math.hypot(1 - x * x, x / 0.8);
    return new double[] {size, 0};
  }

  @Test
  void louderIsHeardFartherAndSoFarThatHalfHearIt() {
    Audible soft = heard(struck(0.005)).places().get(0).audible().orElseThrow();
    Audible loud = heard(struck(0.05)).places().get(0).audible().orElseThrow();
    double reach = loud.reach(Sensor::usualDistance, 0);
    assertThat(reach).isGreaterThan(2 * soft.reach(Sensor::usualDistance, 0));
    assertThat(loud.at(reach, Sensor::usualDistance).likelihood()).isCloseTo(0.5, within(0.02));
    assertThat(loud.reach(Sensor::usualDistance, 6)).isGreaterThan(reach);
    assertThat(loud.at(0.5, Sensor::usualDistance).over())
        .isGreaterThan(loud.at(2, Sensor::usualDistance).over());
  }

  @Test
  void withoutSilenceTheRoomIsNotKnownAndNothingIsSaid() {
    NoiseTake whole = struck(0.05);
    Map<Sensor, double[]> cut = new EnumMap<>(Sensor.class);
    int first = (int) (0.26 * Recorded.RATE);
    whole.channels().forEach((s, x) -> cut.put(s, Arrays.copyOfRange(x, first, x.length)));
    NoiseTake take =
        new NoiseTake(whole.signal(), Intervention.NONE, Recorded.RATE, Map.copyOf(cut));
    TakeClues read = heard(take);
    assertThat(read.spot()).isPresent();
    assertThat(read.places().get(0).audible()).isEmpty();
  }
}
