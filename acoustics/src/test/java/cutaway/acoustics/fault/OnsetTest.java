package cutaway.acoustics.fault;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.stimulus.SteadyTone;
import cutaway.acoustics.stimulus.TestSignal;
import cutaway.acoustics.stimulus.Tone;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class OnsetTest {
  private static TakeClues heard(NoiseTake take) {
    return TakeClues.of(take, new UnitFacts(Optional.empty(), Optional.empty()), Optional.empty());
  }

  /** Displacement of the high-pass that the take goes through, 45 Hz and Q 0.8. */
  private static double displacement(double frequency) {
    double x = frequency / 45;
    return 1 / Math.hypot(1 - x * x, x / 0.8);
  }

  /** Strikes up to 60 Hz: what the cone does there against the most it does. */
  @Test
  void byDisplacementInASweep() {
    TakeClues read =
        heard(ResidueTest.take(ResidueTest.SWEEP, t -> ResidueTest.strike(t, 15, 60, 0.03, 0.2)));
    double most =
        IntStream.rangeClosed(15, 60).mapToDouble(OnsetTest::displacement).max().orElseThrow();
    Onset onset = read.onset(Onset.Driver.DISPLACEMENT).orElseThrow();
    assertThat(onset.level().value())
        .isCloseTo(20 * Math.log10(displacement(60) / most), within(1.5));
    assertThat(onset.level().sd()).isBetween(1.0, 2.0);
    assertThat(onset.frequency()).isLessThan(45);
    // it does not go by acceleration, which is more at frequencies that are silent
    assertThat(read.onset(Onset.Driver.ACCELERATION)).isEmpty();
  }

  @Test
  void byLevelInTonesThreeDecibelsApart() {
    List<Double> levels =
        IntStream.range(0, 7).mapToObj(i -> Math.pow(10, (3 * i - 18) / 20.0)).toList();
    TestSignal tone = new SteadyTone(60, levels, 0.8, 0.2, 0.25);
    List<Tone> tones = tone.tones();
    TakeClues read =
        heard(
            ResidueTest.take(
                tone,
                t -> {
                  // from the fifth on, 6 dB under the loudest
                  Tone now =
                      tones.stream()
                          .filter(o -> o.end() + 0.02 > t)
                          .findFirst()
                          .orElse(tones.get(0));
                  double cycle = now.recorded(0.02, 0).cycles(t);
                  double since = (cycle - Math.floor(cycle)) / 60;
                  boolean on = now.amplitude() > 0.45 && t > now.start() + 0.02;
                  return on
                      ? 0.02 * Math.exp(-since / 0.0015) * Math.sin(2 * Math.PI * 1400 * since)
                      : 0;
                }));
    Onset onset = read.onset(Onset.Driver.PLAYED).orElseThrow();
    // somewhere between 9 and 6 dB under the loudest
    assertThat(onset.level().value()).isCloseTo(-7.5, within(0.2));
    assertThat(onset.level().sd()).isCloseTo(Math.hypot(1, 3 / Math.sqrt(12)), within(0.1));
    assertThat(onset.frequency()).isEqualTo(60);
  }

  @Test
  void whatSoundsThroughoutHasNone() {
    TakeClues read =
        heard(ResidueTest.take(ResidueTest.SWEEP, t -> ResidueTest.strike(t, 10, 1900, 0.05, 0.2)));
    assertThat(read.spot()).isPresent();
    assertThat(read.onset(Onset.Driver.DISPLACEMENT)).isEmpty();
    assertThat(read.onset(Onset.Driver.ACCELERATION)).isEmpty();
  }

  /** A tone at two levels, ten times what is asked for, limited to a height. */
  private static TakeClues amplified(double height) {
    TestSignal tone = new SteadyTone(100, List.of(0.1, 1.0), 1, 0.2, 0.25);
    double[] voltage = new double[(int) ((tone.duration() + 0.1) * 48000)];
    double[] asked = tone.samples(48000);
    for (int i = 0; i < asked.length; i++) {
      voltage[i + 480] = Math.max(-height, Math.min(height, 10 * asked[i]));
    }
    double[] sound = Arrays.stream(voltage).map(v -> 0.01 * v).toArray();
    // something ticks meanwhile, so that there is a noise to speak of
    for (int i = 0; i < 400; i++) {
      sound[90000 + i] += 0.05 * Math.exp(-i / 80.0) * Math.sin(0.4 * i);
    }
    return heard(
        new NoiseTake(
            Optional.of(tone),
            Intervention.NONE,
            48000,
            Map.of(Sensor.CONE, sound, Sensor.VOLTAGE, voltage)));
  }

  /** Cut off at seven tenths of what is asked for: 3.1 dB under it. */
  @Test
  void ofAnAmplifierThatCutsOff() {
    Onset onset = amplified(7).onset(Onset.Driver.VOLTAGE).orElseThrow();
    assertThat(onset.level().value()).isCloseTo(20 * Math.log10(0.7), within(0.05));
    assertThat(onset.played().orElseThrow()).isCloseTo(10 / Math.sqrt(2), within(0.05));
  }

  @Test
  void oneThatFollowsHasNone() {
    TakeClues read = amplified(10);
    assertThat(read.spot()).isPresent();
    assertThat(read.onset(Onset.Driver.VOLTAGE)).isEmpty();
  }
}
