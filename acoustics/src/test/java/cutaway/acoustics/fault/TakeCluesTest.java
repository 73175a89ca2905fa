package cutaway.acoustics.fault;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.stimulus.Recorded;
import cutaway.acoustics.stimulus.SteadyTone;
import cutaway.acoustics.stimulus.SteppedTones;
import cutaway.acoustics.stimulus.TestSignal;
import cutaway.acoustics.stimulus.Tone;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;

class TakeCluesTest {
  private static double clue(Map<Clue, Double> clues, Clue which) {
    assertThat(clues).containsKey(which);
    return clues.getOrDefault(which, Double.NaN);
  }

  /** A take with nothing done of a drive unit that resonates at 40 Hz. */
  private static TakeClues read(NoiseTake take) {
    return TakeClues.of(take, new UnitFacts(Optional.of(40.0), Optional.empty()), Optional.empty());
  }

  private static Map<Clue, Double> swept(NoiseTake take, Optional<Double> tuning) {
    return TakeClues.of(take, new UnitFacts(Optional.of(40.0), tuning), Optional.empty())
        .values(Family.SWEPT)
        .orElseThrow();
  }

  @Test
  void aStrikeAtTheWallOnceACycle() {
    NoiseTake take =
        ResidueTest.take(ResidueTest.SWEEP, t -> ResidueTest.strike(t, 60, 90, 0.01, 0.3));
    Map<Clue, Double> clues = swept(take, Optional.of(35.0));
    assertThat(clue(clues, Clue.MARGIN)).isGreaterThan(15);
    assertThat(clue(clues, Clue.AT_WALL)).isCloseTo(10, within(0.5));
    assertThat(clue(clues, Clue.AT_CONE)).isCloseTo(-10, within(0.5));
    assertThat(clue(clues, Clue.UNLIKE)).isCloseTo(10, within(0.5));
    assertThat(clue(clues, Clue.WIDTH)).isCloseTo(0.58, within(0.2));
    assertThat(clue(clues, Clue.ONCE)).isGreaterThan(0.7);
    assertThat(clue(clues, Clue.PEAKED)).isGreaterThan(0.3);
    assertThat(clue(clues, Clue.OVER_RESONANCE)).isBetween(Math.log10(1.4), Math.log10(2.4));
    assertThat(clue(clues, Clue.OVER_TUNING) - clue(clues, Clue.OVER_RESONANCE))
        .isCloseTo(Math.log10(40 / 35.0), within(1e-9));
    assertThat(clues).doesNotContainKeys(Clue.GROWTH, Clue.COMPRESSION, Clue.MAINS_FIRST);
  }

  /** Where nothing stands out nothing is told of where and when. */
  @Test
  void aSoundUnitGivesItsMarginOnly() {
    Map<Clue, Double> clues = swept(ResidueTest.take(ResidueTest.SWEEP, t -> 0), Optional.empty());
    assertThat(clues.keySet()).containsExactly(Clue.MARGIN);
    assertThat(clue(clues, Clue.MARGIN)).isLessThan(4);
  }

  /** A tick while the sweep passes 120 Hz: seen as a moment, and in no count of what lasts. */
  @Test
  void oneTickIsAMomentAndItsPlaceIsTold() {
    double at = ResidueTest.SWEEP.tones().get(0).recorded(0.02, 0).time(120);
    NoiseTake take =
        ResidueTest.take(
            ResidueTest.SWEEP,
            t -> t < at ? 0 : 0.02 * Math.exp((at - t) / 0.002) * Math.sin(19000 * (t - at)));
    TakeClues read = read(take);
    Map<Clue, Double> moment = read.values(Family.MOMENT).orElseThrow();
    assertThat(clue(read.values(Family.SWEPT).orElseThrow(), Clue.MARGIN)).isLessThan(4);
    assertThat(clue(moment, Clue.EXCESS)).isGreaterThan(20);
    assertThat(clue(moment, Clue.AT_WALL)).isCloseTo(10, within(0.5));
    assertThat(clue(moment, Clue.REPEATS)).isLessThan(0.3);
    assertThat(read.spot().orElseThrow().frequency()).isCloseTo(120, within(8.0));
  }

  /** One tick while a tone stands comes at no time of its own: its absence later says nothing. */
  @Test
  void oneTickInAToneIsNotComparedWithALaterTake() {
    TestSignal tone = new SteadyTone(60, List.of(1.0), 2, 0.2, 0.25);
    UnitFacts unit = new UnitFacts(Optional.of(40.0), Optional.empty());
    NoiseTake ticked =
        ResidueTest.take(
            tone,
            t -> t < 1.5 ? 0 : 0.02 * Math.exp((1.5 - t) / 0.002) * Math.sin(19000 * (t - 1.5)));
    TakeClues before = TakeClues.of(ticked, unit, Optional.empty());
    assertThat(before.spot().orElseThrow().lasts()).isFalse();
    NoiseTake quiet = ResidueTest.take(tone, t -> 0);
    NoiseTake held =
        new NoiseTake(quiet.signal(), Intervention.HAND_ON_WALL, quiet.rate(), quiet.channels());
    assertThat(TakeClues.of(held, unit, Optional.of(before)).values(Family.LEFT)).isEmpty();
  }

  /** Stopped before the last tones: what is there is read, the rest tells nothing. */
  @Test
  void aTakeThatEndsTooSoon() {
    TestSignal steps = new SteppedTones(List.of(40.0, 63.0, 100.0, 160.0), 1, 0.25, 1);
    NoiseTake whole = ResidueTest.take(steps, t -> 0);
    for (double seconds : new double[] {1.1, 2.6, 3.2}) {
      Map<Sensor, double[]> cut = new EnumMap<>(Sensor.class);
      whole
          .channels()
          .forEach((s, x) -> cut.put(s, Arrays.copyOf(x, (int) (seconds * Recorded.RATE))));
      TakeClues read =
          TakeClues.of(
              new NoiseTake(whole.signal(), Intervention.NONE, Recorded.RATE, Map.copyOf(cut)),
              new UnitFacts(Optional.empty(), Optional.empty()),
              Optional.empty());
      assertThat(read.spot()).as("cut at " + seconds).isEmpty();
    }
  }

  /** What is loudest is in the voltage; the breath an octave and less beside it is not. */
  @Test
  void aSecondPlaceIsLookedForWhereTheVoltageIsClean() {
    Random random = new Random(7);
    Tone sweep = ResidueTest.SWEEP.tones().get(0).recorded(0.02, 0);
    NoiseTake heard =
        ResidueTest.take(
            ResidueTest.SWEEP,
            t ->
                ResidueTest.strike(t, 200, 260, 0.05, 0.3)
                    + (t > sweep.time(120) && t < sweep.time(180)
                        ? 2e-3 * random.nextGaussian()
                        : 0));
    Map<Sensor, double[]> channels = new EnumMap<>(heard.channels());
    channels.put(
        Sensor.VOLTAGE,
        Recorded.of(
            List.of(sweep),
            ResidueTest.SWEEP.duration() + 0.1,
            new double[] {10},
            0,
            1e-4,
            t -> ResidueTest.strike(t, 200, 260, 0.5, 0.3)));
    NoiseTake take =
        new NoiseTake(heard.signal(), Intervention.NONE, Recorded.RATE, Map.copyOf(channels));
    TakeClues read = read(take);
    Map<Clue, Double> first = read.values(Family.SWEPT).orElseThrow();
    Map<Clue, Double> second = read.values(Family.BESIDE).orElseThrow();
    assertThat(clue(first, Clue.IN_VOLTAGE)).isGreaterThan(20);
    assertThat(40 * Math.pow(10, clue(second, Clue.OVER_RESONANCE))).isBetween(115.0, 190.0);
    assertThat(clue(second, Clue.MARGIN)).isGreaterThan(8);
  }

  /**
   * An amplifier cuts off all of a sweep; a breath at the wall, 20 dB softer than that sounds
   * there, is found by what the voltage explains, and without a voltage by what the cone's
   * microphone does.
   */
  @Test
  void aBreathUnderAnOverloadedAmplifierIsFound() {
    double[] voltage = LinearPathTest.sweep(0.7);
    Tone sweep = ResidueTest.SWEEP.tones().get(0);
    double[] atCone = LinearPathTest.convolved(voltage);
    double[] atWall = LinearPathTest.convolved(atCone);
    Random random = new Random(5);
    for (int i = 0; i < voltage.length; i++) {
      double t = i / LinearPathTest.RATE;
      boolean breathes = t > sweep.time(90) && t < sweep.time(140);
      atWall[i] += 1e-5 * random.nextGaussian();
      atWall[i] += breathes ? 6e-4 * random.nextGaussian() : 0;
      atCone[i] += 1e-5 * random.nextGaussian();
      voltage[i] += 1e-6 * random.nextGaussian();
    }
    Map<Sensor, double[]> channels = new EnumMap<>(Sensor.class);
    channels.put(Sensor.CONE, atCone);
    channels.put(Sensor.WALL, atWall);
    for (boolean electrical : new boolean[] {false, true}) {
      if (electrical) {
        channels.put(Sensor.VOLTAGE, voltage);
      }
      NoiseTake take =
          new NoiseTake(
              Optional.of(ResidueTest.SWEEP),
              Intervention.NONE,
              LinearPathTest.RATE,
              Map.copyOf(channels));
      TakeClues read = read(take);
      Map<Clue, Double> first = read.values(Family.SWEPT).orElseThrow();
      Map<Clue, Double> second = read.values(Family.BESIDE).orElseThrow();
      assertThat(clue(first, Clue.THROUGH_CONE)).isGreaterThan(15);
      assertThat(40 * Math.pow(10, clue(second, Clue.OVER_RESONANCE))).isBetween(85.0, 145.0);
    }
    // a whistle at the wall hides the path about it: there nothing is pictured, the breath is
    double[] whistling = atWall.clone();
    for (int i = 0; i < whistling.length; i++) {
      whistling[i] += 0.003 * Math.sin(2 * Math.PI * 6000 * i / LinearPathTest.RATE);
    }
    TakeClues beside =
        read(
            new NoiseTake(
                Optional.of(ResidueTest.SWEEP),
                Intervention.NONE,
                LinearPathTest.RATE,
                Map.of(Sensor.CONE, atCone, Sensor.WALL, whistling)));
    Place place = beside.places().get(1);
    assertThat(place.without()).contains(Sensor.CONE);
    assertThat(place.spot().sensor()).isEqualTo(Sensor.WALL);
    assertThat(place.spot().frequency()).isBetween(85.0, 145.0);
    assertThat(place.picture().cycle()).isNotEmpty();
    double[] middle = place.picture().over()[48];
    assertThat(middle[OctaveBands.at(6000)]).isNaN();
    assertThat(middle[OctaveBands.at(2000)]).isNotNaN();
    // where the path to the port is not known, nothing is told of wall against port
    double[] atPort = LinearPathTest.noise(voltage.length, 1e-3, 9);
    Map<Sensor, double[]> unlike =
        Map.of(Sensor.CONE, atCone, Sensor.PORT, atPort, Sensor.WALL, atWall);
    TakeClues there =
        read(
            new NoiseTake(
                Optional.of(ResidueTest.SWEEP), Intervention.NONE, LinearPathTest.RATE, unlike));
    assertThat(clue(there.values(Family.BESIDE).orElseThrow(), Clue.MARGIN)).isGreaterThan(15);
    assertThat(there.values(Family.BESIDE).orElseThrow()).doesNotContainKey(Clue.WALL_OVER_PORT);
    // a room rings on for longer than a path is learned
    Map<Sensor, double[]> far = Map.of(Sensor.CONE, atCone, Sensor.LISTENER, atWall);
    NoiseTake take =
        new NoiseTake(Optional.of(ResidueTest.SWEEP), Intervention.NONE, LinearPathTest.RATE, far);
    TakeClues read = read(take);
    assertThat(read.values(Family.BESIDE)).isEmpty();
    assertThat(read.values(Family.SWEPT).orElseThrow()).doesNotContainKey(Clue.THROUGH_CONE);
  }

  @Test
  void rippleOfARectifierAndHissAtRest() {
    Random random = new Random(3);
    Map<Sensor, double[]> channels = new EnumMap<>(Sensor.class);
    for (Sensor s : new Sensor[] {Sensor.CONE, Sensor.WALL}) {
      double near = s == Sensor.CONE ? 1 : 0.1;
      double[] x = new double[5 * 48000];
      for (int i = 0; i < x.length; i++) {
        x[i] = 1e-4 * random.nextGaussian() + near * 4e-4 * random.nextGaussian();
        for (int k = 2; k <= 10; k += 2) {
          x[i] += near * 1e-2 / k * Math.sin(2 * Math.PI * k * 49.97 * i / 48000);
        }
      }
      channels.put(s, x);
    }
    NoiseTake take = new NoiseTake(Optional.empty(), Intervention.NONE, 48000, channels);
    TakeClues read = read(take);
    Map<Clue, Double> clues = new EnumMap<>(Clue.class);
    read.evidence().forEach(e -> clues.putAll(e.values()));
    double even = 0;
    for (int k = 2; k <= 10; k += 2) {
      even += 1e-4 / (2.0 * k * k);
    }
    assertThat(clue(clues, Clue.MAINS_EVEN)).isCloseTo(10 * Math.log10(even / 4e-10), within(0.5));
    assertThat(clue(clues, Clue.MAINS_ODD)).isLessThan(15);
    assertThat(clue(clues, Clue.MAINS_AT_WALL)).isCloseTo(-20, within(1.0));
    assertThat(clue(clues, Clue.HISS)).isCloseTo(10 * Math.log10(17 / 1.16), within(0.3));
    assertThat(clue(clues, Clue.STRAY)).isZero();
    assertThat(clue(clues, Clue.UNSTEADY)).isLessThan(1);
  }

  /** Too short a silence, or a take that does not hold its signal, bears no clue. */
  @Test
  void nothingIsReadOffWhatCannotBearIt() {
    NoiseTake brief =
        new NoiseTake(
            Optional.empty(), Intervention.NONE, 48000, Map.of(Sensor.CONE, new double[48000]));
    assertThat(read(brief).evidence()).isEmpty();
    NoiseTake lost =
        new NoiseTake(
            Optional.of(ResidueTest.SWEEP),
            Intervention.NONE,
            48000,
            Map.of(Sensor.CONE, new double[300000]));
    assertThat(read(lost).evidence()).isEmpty();
  }

  /** At port and behind the box is one place: the louder counts, and neither against the other. */
  @Test
  void portAndRearAreOnePlace() {
    Map<Clue, Double> clues = new EnumMap<>(Clue.class);
    List<Sensor> all = List.of(Sensor.CONE, Sensor.PORT, Sensor.WALL, Sensor.REAR);
    CellClues.places(all, new double[] {40, 60, 45, 50}, clues);
    assertThat(clue(clues, Clue.AT_PORT)).isEqualTo(15);
    assertThat(clue(clues, Clue.WALL_OVER_PORT)).isEqualTo(-15);
    CellClues.places(all, new double[] {40, 50, 45, 60}, clues);
    assertThat(clue(clues, Clue.AT_PORT)).isEqualTo(15);
    assertThat(clue(clues, Clue.AT_WALL)).isEqualTo(-15);
  }

  /** Silent at the softest, loud at all others: growth is told against the softest alone. */
  @Test
  void growthIsAgainstTheSoftest() {
    TestSignal tone = new SteadyTone(60, List.of(0.1, 0.6, 0.8, 1.0), 1, 0.2, 0.25);
    double loud = tone.tones().get(1).start();
    NoiseTake take =
        ResidueTest.take(
            tone,
            t -> {
              double cycle = 60 * t - Math.floor(60 * t);
              return t < loud ? 0 : 0.02 * Math.exp(-cycle / 0.1) * Math.sin(150 * cycle);
            });
    Map<Clue, Double> clues = read(take).values(Family.STANDING).orElseThrow();
    assertThat(clue(clues, Clue.GROWTH)).isGreaterThan(clue(clues, Clue.MARGIN) - 6);
  }

  /** A recording that ends under 11 kHz does not reach where hiss is heard. */
  @Test
  void ofSlowRecordingsNoHissIsTold() {
    double[] x = new Random(1).doubles(16000 * 4, -0.01, 0.01).toArray();
    TakeClues read =
        read(new NoiseTake(Optional.empty(), Intervention.NONE, 16000, Map.of(Sensor.CONE, x)));
    assertThat(read.values(Family.HISS)).isEmpty();
    assertThat(read.values(Family.MAINS)).isPresent();
  }

  /** A voltage of 16 bits that is nought at rest still has its steps while it plays. */
  @Test
  void stepsOfAVoltageAreNoNoiseInIt() {
    NoiseTake heard =
        ResidueTest.take(ResidueTest.SWEEP, t -> ResidueTest.strike(t, 60, 90, 0.01, 0.3));
    double[] volts =
        Recorded.of(
            List.of(ResidueTest.SWEEP.tones().get(0).recorded(0.02, 0)),
            ResidueTest.SWEEP.duration() + 0.1,
            new double[] {10},
            0,
            0,
            t -> 0);
    double step = 40 / 32768.0;
    for (int i = 0; i < volts.length; i++) {
      volts[i] = step * Math.rint(volts[i] / step);
    }
    Map<Sensor, double[]> channels = new EnumMap<>(heard.channels());
    channels.put(Sensor.VOLTAGE, volts);
    Map<Clue, Double> clues =
        swept(
            new NoiseTake(heard.signal(), Intervention.NONE, Recorded.RATE, channels),
            Optional.empty());
    assertThat(clue(clues, Clue.IN_VOLTAGE)).isLessThan(6);
  }
}
