package cutaway.acoustics.fault;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.stimulus.ExponentialSweep;
import cutaway.acoustics.stimulus.Recorded;
import cutaway.acoustics.stimulus.SteadyTone;
import cutaway.acoustics.stimulus.TestSignal;
import cutaway.acoustics.stimulus.Tone;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;

class ResidueTest {
  /** 17 dB SPL. */
  private static final double NOISE = 1.4e-4;

  private static final double DELAY = 0.02;
  static final TestSignal SWEEP = ExponentialSweep.of(15, 2000, 5, 0.25);

  /** Orders of a sound drive unit that works hard. */
  private static final double[] ORDINARY = {1, 0.05, 0.03, 4e-3, 1.5e-3, 2e-5};

  /** Two microphones: what does not belong is at the wall 10 dB louder than at the cone. */
  static NoiseTake take(TestSignal signal, DoubleUnaryOperator strange) {
    List<Tone> tones = signal.tones().stream().map(t -> t.recorded(DELAY, 0)).toList();
    double seconds = signal.duration() + 0.1;
    Map<Sensor, double[]> channels = new EnumMap<>(Sensor.class);
    channels.put(
        Sensor.CONE,
        Recorded.of(tones, seconds, ORDINARY, 0.1, NOISE, t -> 0.316 * strange.applyAsDouble(t)));
    channels.put(Sensor.WALL, Recorded.of(tones, seconds, ORDINARY, 0.2, NOISE, strange));
    return new NoiseTake(Optional.of(signal), Intervention.NONE, Recorded.RATE, channels);
  }

  private static Tone sweep() {
    return SWEEP.tones().get(0).recorded(DELAY, 0);
  }

  /** A strike a cycle, ringing at 1.4 kHz, while the sweep is between two frequencies. */
  static double strike(double t, double low, double high, double size, double at) {
    Tone tone = sweep();
    if (t < tone.time(low) || t > tone.time(high)) {
      return 0;
    }
    double cycle = tone.cycles(t) - at;
    double since = (cycle - Math.floor(cycle)) / tone.frequency(t);
    return size * Math.exp(-since / 0.0015) * Math.sin(2 * Math.PI * 1400 * since);
  }

  @Test
  void ordinaryDistortionLeavesNothing() {
    Residue residue = Residue.of(take(SWEEP, t -> 0)).orElseThrow();
    assertThat(new Cells(residue).strongest().orElseThrow().margin()).isLessThan(3);
    TestSignal tone = new SteadyTone(40, List.of(0.316, 1.0), 1.6, 0.2, 0.25);
    Residue steady = Residue.of(take(tone, t -> 0)).orElseThrow();
    assertThat(new Cells(steady).strongest().orElseThrow().margin()).isLessThan(3);
  }

  @Test
  void strikesAreFoundWithFrequencyPlaceAndMomentInTheCycle() {
    Residue residue = Residue.of(take(SWEEP, t -> strike(t, 60, 90, 0.01, 0.3))).orElseThrow();
    Cell cell = new Cells(residue).strongest().orElseThrow();
    assertThat(cell.frequency()).isBetween(58.0, 93.0);
    assertThat(residue.microphones().get(cell.loudest())).isEqualTo(Sensor.WALL);
    assertThat(cell.levels()[1] - cell.levels()[0]).isCloseTo(10, within(0.5));
    assertThat(OctaveBands.centre(cell.band())).isBetween(1000.0, 2000.0);
    CycleEnvelope envelope = residue.envelope(Sensor.WALL, cell);
    assertThat(envelope.once()).isGreaterThan(0.7);
    // the ringing lasts 0.75 ms as power, 6 % of a cycle
    assertThat(envelope.oncePhase()).isCloseTo(0.35, within(0.05));
    assertThat(envelope.peakedness()).isGreaterThan(6);
  }

  /** Noise that breathes twice a cycle, as air in a port does. */
  @Test
  void airIsToldFromStrikes() {
    Random random = new Random(2);
    Residue residue =
        Residue.of(
                take(
                    SWEEP,
                    t -> {
                      double s = Math.sin(2 * Math.PI * sweep().cycles(t));
                      boolean near = t > sweep().time(35) && t < sweep().time(60);
                      return near ? 2e-3 * s * s * s * random.nextGaussian() : 0;
                    }))
            .orElseThrow();
    Cell cell = new Cells(residue).strongest().orElseThrow();
    CycleEnvelope envelope = residue.envelope(Sensor.WALL, cell);
    assertThat(envelope.twice()).isGreaterThan(0.5);
    assertThat(envelope.once()).isLessThan(0.25);
    assertThat(envelope.twicePhase()).isCloseTo(0.25, within(0.04));
  }

  /** A clock's tick falls into one moment and its neighbour, not into three that stand by it. */
  @Test
  void oneTickIsNotEnough() {
    double at = sweep().time(120);
    NoiseTake ticked =
        take(
            SWEEP,
            t -> t < at ? 0 : 0.02 * Math.exp((at - t) / 0.002) * Math.sin(19000 * (t - at)));
    Residue residue = Residue.of(ticked).orElseThrow();
    assertThat(new Cells(residue).all().stream().mapToDouble(Cell::margin).max().orElseThrow())
        .isGreaterThan(20);
    assertThat(new Cells(residue).strongest().orElseThrow().margin()).isLessThan(4);
  }

  @Test
  void nothingIsToldOfATakeWithoutItsSignal() {
    NoiseTake other =
        new NoiseTake(
            Optional.of(SWEEP),
            Intervention.NONE,
            Recorded.RATE,
            Map.of(Sensor.CONE, new Random(1).doubles(300000).map(v -> v - 0.5).toArray()));
    assertThat(Residue.of(other)).isEmpty();
    NoiseTake idle =
        new NoiseTake(
            Optional.empty(), Intervention.NONE, 48000, Map.of(Sensor.CONE, new double[96000]));
    assertThat(Residue.of(idle)).isEmpty();
  }

  /** Cut off where the sweep begins and ends, a take still claims nothing of a sound unit. */
  @Test
  void withoutSilenceNothingIsClaimed() {
    for (double from : new double[] {60, 3000}) {
      double high = from == 60 ? 90 : 4000;
      NoiseTake whole = take(SWEEP, t -> strike(t, from, high, 0.01, 0.3));
      Map<Sensor, double[]> cut = new EnumMap<>(Sensor.class);
      int first = (int) (sweep().start() * Recorded.RATE);
      int last = (int) (sweep().end() * Recorded.RATE);
      whole.channels().forEach((s, x) -> cut.put(s, Arrays.copyOfRange(x, first, last)));
      Residue residue =
          Residue.of(new NoiseTake(Optional.of(SWEEP), Intervention.NONE, Recorded.RATE, cut))
              .orElseThrow();
      double margin = new Cells(residue).strongest().orElseThrow().margin();
      if (from == 60) {
        assertThat(margin).isGreaterThan(15);
      } else {
        assertThat(margin).isLessThan(4);
      }
    }
  }
}
