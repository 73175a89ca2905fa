package cutaway.acoustics.fault;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.fault.NotCompared.Why;
import cutaway.acoustics.stimulus.Recorded;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.function.BiFunction;
import org.junit.jupiter.api.Test;

/** What an intervention did is told of takes that can be compared, and of no others. */
class ComparisonTest {
  private static final NoiseTake LOUD =
      ResidueTest.take(ResidueTest.SWEEP, t -> ResidueTest.strike(t, 200, 280, 0.01, 0.3));
  private static final NoiseTake SILENT = ResidueTest.take(ResidueTest.SWEEP, t -> 0);
  private static final TakeClues BEFORE = TakeClues.of(LOUD, UnitFacts.NONE, Optional.empty());

  /** A take with the grille off, its channels changed. */
  private static TakeClues after(NoiseTake take, BiFunction<Sensor, double[], double[]> change) {
    return after(take, change, Optional.of(BEFORE));
  }

  private static TakeClues after(
      NoiseTake take, BiFunction<Sensor, double[], double[]> change, Optional<TakeClues> before) {
    Map<Sensor, double[]> channels = new EnumMap<>(Sensor.class);
    take.channels()
        .forEach(
            (s, x) -> {
              double[] changed = change.apply(s, x);
              if (changed.length > 0) {
                channels.put(s, changed);
              }
            });
    NoiseTake changed =
        new NoiseTake(take.signal(), Intervention.TRIM_OFF, Recorded.RATE, channels);
    return TakeClues.of(changed, UnitFacts.NONE, before);
  }

  private static double[] louder(double[] x, double factor) {
    return Arrays.stream(x).map(v -> v * factor).toArray();
  }

  private static void isNot(TakeClues clues, Why why) {
    assertThat(clues.values(Family.LEFT)).isEmpty();
    assertThat(clues.notCompared()).map(NotCompared::why).contains(why);
  }

  @Test
  void whatIsAlikeIsCompared() {
    TakeClues same = after(LOUD, (s, x) -> x);
    assertThat(same.clue(Family.LEFT, Clue.LEFT))
        .hasValueSatisfying(l -> assertThat(l).isCloseTo(1, within(0.05)));
    assertThat(same.notCompared()).isEmpty();
    TakeClues gone = after(SILENT, (s, x) -> louder(x, 1.3));
    assertThat(gone.clue(Family.LEFT, Clue.LEFT))
        .hasValueSatisfying(l -> assertThat(l).isLessThan(0.2));
  }

  @Test
  void whatWasPlayedSofterIsNot() {
    TakeClues softer = after(SILENT, (s, x) -> louder(x, 0.1));
    isNot(softer, Why.OTHER_LEVEL);
    assertThat(softer.notCompared().orElseThrow().louder()).isCloseTo(-20, within(0.1));
    assertThat(softer.evidence()).extracting(Evidence::family).containsExactly(Family.FLAWS);
  }

  /** The strikes begin 3 s after the start. */
  @Test
  void whatEndsTooSoonIsNot() {
    isNot(after(LOUD, (s, x) -> Arrays.copyOf(x, 2 * 48000)), Why.OUT_OF_REACH);
  }

  @Test
  void withoutItsMicrophoneItIsNot() {
    isNot(after(LOUD, (s, x) -> s == Sensor.WALL ? new double[0] : x), Why.OUT_OF_REACH);
  }

  @Test
  void withNothingBeforeItTellsWhatItDoesByItself() {
    TakeClues alone = after(LOUD, (s, x) -> x, Optional.empty());
    isNot(alone, Why.NOTHING_BEFORE);
    assertThat(alone.clue(Family.SWEPT, Clue.MARGIN))
        .hasValueSatisfying(m -> assertThat(m).isGreaterThan(15));
  }

  /** Where nothing was heard before there is nothing to compare, and nothing amiss. */
  @Test
  void ofASoundUnitNothingIsSaid() {
    TakeClues quiet = TakeClues.of(SILENT, UnitFacts.NONE, Optional.empty());
    TakeClues then = after(SILENT, (s, x) -> x, Optional.of(quiet));
    assertThat(then.values(Family.LEFT)).isEmpty();
    assertThat(then.notCompared()).isEmpty();
  }

  /** With the port stopped every microphone hears another sound: the voltage alone tells. */
  @Test
  void aStoppedPortIsComparedByItsVoltage() {
    Map<Sensor, Double> before = Map.of(Sensor.CONE, 80.0, Sensor.VOLTAGE, 10.0);
    assertThat(
            Louder.by(
                before, Map.of(Sensor.CONE, 95.0, Sensor.VOLTAGE, 10.5), Intervention.PORT_BLOCKED))
        .isEmpty();
    assertThat(Louder.by(before, Map.of(Sensor.CONE, 95.0), Intervention.PORT_BLOCKED)).isEmpty();
    assertThat(
            Louder.by(
                before, Map.of(Sensor.CONE, 80.0, Sensor.VOLTAGE, 14.0), Intervention.PORT_BLOCKED))
        .hasValueSatisfying(l -> assertThat(l).isCloseTo(4, within(1e-9)));
  }
}
