package cutaway.bench.noise;

import static org.assertj.core.api.Assertions.assertThat;

import cutaway.acoustics.fault.Clue;
import cutaway.acoustics.fault.Evidence;
import cutaway.acoustics.fault.Family;
import cutaway.acoustics.fault.Intervention;
import cutaway.acoustics.suspect.Belief;
import cutaway.acoustics.suspect.Odds;
import cutaway.acoustics.suspect.Suspect;
import cutaway.acoustics.suspect.SuspectNetwork;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** What the counted likelihoods say of clues that a tester would understand at once. */
class CountedCluesTest {
  private static Odds odds(Evidence... evidence) {
    Belief belief =
        new SuspectNetwork(CountedClues.likelihoods(), SuspectNetwork.WEIGHT, true).prior();
    return belief.and(List.of(evidence)).odds();
  }

  private static Evidence evidence(Family family, Object... clues) {
    Map<Clue, Double> values = new EnumMap<>(Clue.class);
    for (int i = 0; i < clues.length; i += 2) {
      values.put((Clue) clues[i], ((Number) clues[i + 1]).doubleValue());
    }
    return new Evidence(family, Intervention.NONE, values);
  }

  @Test
  void evenMultiplesAtTheConeAreARectifier() {
    Odds odds =
        odds(
            evidence(
                Family.MAINS,
                Clue.MAINS_FIRST,
                0,
                Clue.MAINS_ODD,
                0,
                Clue.MAINS_EVEN,
                56,
                Clue.MAINS_HIGH,
                6,
                Clue.MAINS_AT_WALL,
                -18));
    assertThat(odds.ranked().get(0)).isEqualTo(Suspect.HUM_RECTIFIER);
  }

  @Test
  void breathTwiceACycleAtThePortIsPortNoise() {
    Odds odds =
        odds(
            evidence(
                Family.STANDING,
                Clue.MARGIN,
                26,
                Clue.OVER_RESONANCE,
                -0.07,
                Clue.OVER_TUNING,
                -0.05,
                Clue.AT_CONE,
                -17,
                Clue.AT_PORT,
                17,
                Clue.AT_WALL,
                -22,
                Clue.UNLIKE,
                22,
                Clue.ONCE,
                0.25,
                Clue.TWICE,
                0.75,
                Clue.GROWTH,
                25));
    assertThat(odds.ranked().get(0)).isEqualTo(Suspect.PORT_NOISE);
  }

  @Test
  void oddOrdersInTheVoltageAreAnOverloadedAmplifier() {
    Odds odds =
        odds(
            evidence(
                Family.VOLTAGE,
                Clue.COMPRESSION,
                1.7,
                Clue.WAVERING,
                0.02,
                Clue.SILENT,
                0,
                Clue.ODD,
                -18,
                Clue.EVEN,
                -30),
            evidence(Family.STANDING, Clue.MARGIN, 45, Clue.AT_CONE, 12, Clue.UNLIKE, 17));
    assertThat(odds.ranked().get(0)).isEqualTo(Suspect.OVERLOAD);
  }

  /** What all microphones hear alike, out of step with the tone, comes from outside. */
  @Test
  void whatIsAlikeEverywhereComesFromOutside() {
    Odds odds =
        odds(
            evidence(
                Family.STANDING,
                Clue.MARGIN,
                20,
                Clue.AT_CONE,
                -0.3,
                Clue.AT_PORT,
                0.3,
                Clue.AT_WALL,
                -1.6,
                Clue.UNLIKE,
                1.6,
                Clue.ONCE,
                0.07,
                Clue.TWICE,
                0.06,
                Clue.PEAKED,
                -0.05));
    assertThat(odds.ranked().get(0)).isEqualTo(Suspect.OUTSIDE_NOISE);
    assertThat(odds.named()).isEmpty();
  }
}
