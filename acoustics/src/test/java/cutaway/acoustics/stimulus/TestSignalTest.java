package cutaway.acoustics.stimulus;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.Published;
import cutaway.acoustics.meter.PowerSpectrum;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;

class TestSignalTest {
  private static final List<TestSignal> ALL =
      List.of(
          ExponentialSweep.of(15, 2000, 5, 0.25),
          new SteadyTone(47, List.of(0.316, 1.0), 1.6, 0.2, 0.25),
          new SteppedTones(List.of(20.0, 50.0, 125.0), 1, 0.25, 1),
          new ToneBurst(40, 6.5, 0.1, 0.9),
          new TestNoise(20, 10000, -3, 2, 0.1, 0.8, 1));

  /** Rows novak.*: synchronised sweeps after Novak (2015), computed. */
  @Test
  void sweepsAreSynchronizedAsPublished() {
    int seen = 0;
    for (Map<String, String> row : Published.rows("12_measurement.csv")) {
      String id = row.getOrDefault("id", "");
      if (!id.startsWith("novak.")) {
        continue;
      }
      String[] name = id.split("\\.", 3);
      double[] wish =
          Arrays.stream(name[1].split("_", 3)).mapToDouble(Double::parseDouble).toArray();
      ExponentialSweep sweep = ExponentialSweep.of(wish[0], wish[1], wish[2], 0);
      double value = Double.parseDouble(row.getOrDefault("value", ""));
      double own =
          switch (name[2]) {
            case "L" -> sweep.growth();
            case "T" -> sweep.duration();
            default -> sweep.leadOfHarmonic(Integer.parseInt(name[2].substring(2)));
          };
      assertThat(own).as(id).isCloseTo(value, within(1e-9 * value));
      seen++;
    }
    assertThat(seen).isEqualTo(9);
  }

  /** Why it is synchronized: n times the phase is the phase later on, whole cycles apart. */
  @Property(tries = 50)
  void harmonicsAreTheSweepItselfEarlier(@ForAll @DoubleRange(min = 0, max = 3) double time) {
    ExponentialSweep sweep = ExponentialSweep.of(20, 4000, 6, 0.3);
    Tone tone = sweep.tones().get(0);
    for (int n = 2; n <= 5; n++) {
      double apart =
          tone.cycles(0.3 + time + sweep.leadOfHarmonic(n)) - n * tone.cycles(0.3 + time);
      assertThat(apart - Math.rint(apart)).isCloseTo(0, within(1e-6));
    }
  }

  @Test
  void beginAndEndInSilenceAndStayWithinFullScale() {
    for (TestSignal signal : ALL) {
      for (double rate : new double[] {44100, 48000, 96000}) {
        double[] x = signal.samples(rate);
        assertThat(x).hasSize(signal.length(rate));
        assertThat(Arrays.stream(x).map(Math::abs).max().orElseThrow()).isBetween(0.7, 1.0);
        assertThat(x[0]).isZero();
        assertThat(x[x.length - 1]).isZero();
        double steepest = 0;
        for (int i = 1; i < x.length; i++) {
          steepest = Math.max(steepest, Math.abs(x[i] - x[i - 1]));
        }
        // no sine of the highest frequency rises faster
        double highest = signal instanceof TestNoise n ? n.high() : 2100;
        assertThat(steepest).isLessThan(2 * Math.PI * highest / rate);
      }
    }
  }

  @Test
  void noiseHasItsColour() {
    double[] x = new TestNoise(20, 10000, -3, 8, 0.1, 0.8, 1).samples(48000);
    PowerSpectrum spectrum = PowerSpectrum.averaged(x, 4800, x.length - 4800, 48000, 48000);
    double low = spectrum.meanSquare(100, 200);
    assertThat(10 * Math.log10(spectrum.meanSquare(1600, 3200) / low)).isCloseTo(0, within(0.7));
    assertThat(spectrum.meanSquare(0, 16)).isLessThan(1e-3 * low);
  }

  @Test
  void aClockThatRunsFastMakesTonesFlat() {
    Tone tone = new Tone(0.5, 3, 100, 0.7, 0.1, 1);
    Tone fast = tone.recorded(0.02, 2e-4);
    for (double t : new double[] {0.6, 1.9, 2.7}) {
      assertThat(fast.cycles(t * (1 + 2e-4) + 0.02)).isCloseTo(tone.cycles(t), within(1e-9));
    }
    assertThat(tone.time(tone.frequency(1.3))).isCloseTo(1.3, within(1e-12));
  }

  @Test
  void impossibleOnesAreRefused() {
    assertThatThrownBy(() -> ExponentialSweep.of(200, 20, 5, 0))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> new SteadyTone(40, List.of(), 1, 0, 0))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
