package cutaway.bench.noise;

import static org.assertj.core.api.Assertions.assertThat;

import cutaway.acoustics.fault.Intervention;
import cutaway.acoustics.fault.NoiseTake;
import cutaway.acoustics.fault.Sensor;
import cutaway.acoustics.stimulus.ExponentialSweep;
import cutaway.acoustics.stimulus.SteadyTone;
import cutaway.acoustics.stimulus.TestSignal;
import cutaway.bench.finding.Notice;
import cutaway.bench.result.Evidence;
import cutaway.bench.result.Results;
import cutaway.bench.sheet.SheetReader;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;

class SoundChecksTest {
  private static final double RATE = 48000;
  private static final TestSignal TONE = new SteadyTone(80, List.of(1.0), 2, 0.2, 0.5);

  private boolean bears;
  private List<Notice> told = List.of();

  /** Cone 1 Pa, wall so much, voltage 10 V, each with noise of its own. */
  private static NoiseTake take(double wall, double seconds) {
    return take(TONE, wall, seconds);
  }

  private static NoiseTake take(TestSignal signal, double wall, double seconds) {
    Map<Sensor, double[]> channels = new EnumMap<>(Sensor.class);
    double[] played = signal.samples(RATE);
    Random random = new Random(5);
    Map.of(Sensor.CONE, 1.0, Sensor.WALL, wall, Sensor.VOLTAGE, 10.0)
        .forEach(
            (sensor, level) -> {
              double[] x = new double[(int) (seconds * RATE)];
              for (int i = 0; i < x.length; i++) {
                double p = i < 9600 || i - 9600 >= played.length ? 0 : played[i - 9600];
                x[i] = level * p + 1e-3 * random.nextGaussian();
              }
              channels.put(sensor, x);
            });
    return new NoiseTake(Optional.of(signal), Intervention.NONE, RATE, channels);
  }

  private String check(NoiseTake take) {
    Results results =
        new Results(
            Evidence.of(
                SheetReader.read("cutaway: 1\nunit: { name: U }\ntakes: []\n", "f"), Map.of()));
    PlayedSignal played =
        PlayedSignal.of(List.of(take.signal().orElseThrow()), take.channels(), RATE).orElseThrow();
    bears = new SoundChecks("takes.t", results).bears(take, played);
    told = results.done().notices();
    return told.toString();
  }

  @Test
  void ofASoundRecordingNothingIsSaid() {
    assertThat(check(take(0.1, 4))).isEqualTo("[]");
    assertThat(bears).isTrue();
  }

  @Test
  void samplesThatWereLostAreAGap() {
    NoiseTake take = take(0.1, 4);
    take.channels().values().forEach(x -> Arrays.fill(x, 60000, 62400, 0));
    assertThat(check(take)).contains("stand still at once for 50 ms", "record again");
    assertThat(bears).isFalse();
  }

  /** The voltage alone falls silent: the microphones still hear the room. */
  @Test
  void aUnitThatFallsSilentIsNoGap() {
    NoiseTake take = take(0.1, 4);
    Arrays.fill(take.channel(Sensor.VOLTAGE), 60000, 62400, 0);
    assertThat(check(take)).isEqualTo("[]");
    assertThat(bears).isTrue();
  }

  @Test
  void aWallLouderThanTheConeIsSwapped() {
    assertThat(check(take(2.5, 4))).contains("8 dB louder than the cone's");
    assertThat(bears).isTrue();
    assertThat(check(take(20, 4))).contains("26 dB louder", "Nothing is told from it");
    assertThat(bears).isFalse();
  }

  /** Silence came first, so the sweep ends later than in its file. */
  @Test
  void anEndThatComesTooSoonIsToldByWhereTheSignalLies() {
    TestSignal sweep = ExponentialSweep.of(15, 2000, 4, 0.25);
    double whole = sweep.duration() + 0.2;
    assertThat(check(take(sweep, 0.1, whole - 0.75))).contains("ends 0.5 s before the signal does");
    assertThat(bears).isTrue();
    assertThat(check(take(sweep, 0.1, whole))).isEqualTo("[]");
  }

  @Test
  void aFullScaleThatCannotBeIsTold() {
    NoiseTake take = take(0.1, 4);
    double[] cone = take.channel(Sensor.CONE);
    for (int i = 0; i < cone.length; i++) {
      cone[i] *= 2000;
    }
    assertThat(check(take)).contains("'cone' would reach 160 dB SPL", "correct 'full-scale'");
  }
}
