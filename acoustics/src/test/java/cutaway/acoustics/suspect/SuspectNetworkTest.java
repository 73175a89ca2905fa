package cutaway.acoustics.suspect;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.fault.Clue;
import cutaway.acoustics.fault.Evidence;
import cutaway.acoustics.fault.Family;
import cutaway.acoustics.fault.Intervention;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** On counts made up here. */
class SuspectNetworkTest {
  private static final Evidence AT_WALL =
      standing(Intervention.NONE, 25, Map.of(Clue.AT_WALL, 12.0, Clue.AT_CONE, -12.0));
  private static final Evidence AT_CONE =
      standing(Intervention.NONE, 25, Map.of(Clue.AT_WALL, -12.0, Clue.AT_CONE, 12.0));
  private static final Evidence SILENT = standing(Intervention.NONE, 1, Map.of());

  private static Evidence standing(Intervention done, double margin, Map<Clue, Double> places) {
    Map<Clue, Double> values = new EnumMap<>(Clue.class);
    values.putAll(places);
    values.put(Clue.MARGIN, margin);
    return new Evidence(Family.STANDING, done, values);
  }

  private static Evidence left(Intervention done, double share) {
    return new Evidence(Family.LEFT, done, Map.of(Clue.LEFT, share));
  }

  private static Likelihoods madeUp() {
    Tally tally = new Tally();
    for (int i = 0; i < 60; i++) {
      tally.add(List.of(Cause.PANEL_BUZZ), List.of(AT_WALL));
      tally.add(List.of(Cause.WIRE_SLAP), List.of(AT_CONE));
      tally.add(List.of(), List.of(SILENT));
      tally.add(List.of(Cause.WIRE_SLAP), List.of(left(Intervention.HAND_ON_WALL, 1)));
      tally.add(List.of(Cause.PORT_NOISE), List.of(left(Intervention.PORT_BLOCKED, 0.05)));
      tally.add(List.of(Cause.PANEL_BUZZ), List.of(left(Intervention.HAND_ON_WALL, 0.1)));
    }
    return new Likelihoods(tally);
  }

  private static Belief belief() {
    return new SuspectNetwork(madeUp(), 1, true).prior();
  }

  @Test
  void chancesBeforeAnyTakeAreThoseGiven() {
    Odds odds = belief().odds();
    assertThat(odds.faulty()).isCloseTo(0.75, within(1e-9));
    // of sound units four in ten have nothing beside them
    assertThat(odds.of(Suspect.NOTHING)).isCloseTo(0.4 * 0.25, within(1e-9));
    assertThat(odds.causes().getOrDefault(Cause.LOOSE_TRIM, 0.0))
        .isCloseTo(0.5 * odds.of(Suspect.COIL_RUB), within(0.001));
    assertThat(odds.of(Suspect.PORT_NOISE)).isBetween(0.02, 0.06);
    Odds sealed = new SuspectNetwork(madeUp(), 1, false).prior().odds();
    assertThat(sealed.of(Suspect.PORT_NOISE)).isZero();
  }

  @Test
  void whatIsLoudestAtTheWallIsTheCabinet() {
    Odds odds = belief().and(List.of(AT_WALL)).odds();
    assertThat(odds.ranked().get(0)).isEqualTo(Suspect.LOOSE_ON_CABINET);
    assertThat(odds.of(Suspect.LOOSE_ON_DRIVE_UNIT)).isLessThan(0.12);
    assertThat(odds.of(Suspect.NOTHING)).isLessThan(0.02);
  }

  /**
   * Where nothing is heard the fault may still be one that these takes cannot show, if less likely
   * one: a tester who hears hiss records it.
   */
  @Test
  void silenceNamesNobody() {
    Odds odds = belief().and(List.of(SILENT)).odds();
    assertThat(odds.named()).isEmpty();
    assertThat(odds.of(Suspect.LOOSE_ON_CABINET))
        .isLessThan(belief().odds().of(Suspect.LOOSE_ON_CABINET));
    assertThat(odds.of(Suspect.HISS))
        .isBetween(0.3 * belief().odds().of(Suspect.HISS), belief().odds().of(Suspect.HISS));
  }

  /**
   * A clipped take of which only that counts looked for nothing: no fault is less likely for it.
   */
  @Test
  void flawsAloneSayNothingOfFaults() {
    Evidence flaws = new Evidence(Family.FLAWS, Intervention.NONE, Map.of(Clue.CUT_OFF, 0.5));
    Odds before = belief().odds();
    Odds after = belief().and(List.of(flaws)).odds();
    assertThat(after.of(Suspect.HISS) / after.of(Suspect.NOTHING))
        .isCloseTo(before.of(Suspect.HISS) / before.of(Suspect.NOTHING), within(1e-9));
  }

  @Test
  void anInterventionMultipliesIn() {
    Belief before = belief().and(List.of(AT_WALL));
    double open = before.odds().of(Suspect.LOOSE_ON_CABINET);
    double pressed =
        before.and(List.of(left(Intervention.HAND_ON_WALL, 1))).odds().of(Suspect.LOOSE_ON_CABINET);
    assertThat(pressed).isLessThan(open);
    // the take's own clues do not count once more beside the comparison
    Evidence again = standing(Intervention.HAND_ON_WALL, 1, Map.of());
    double both =
        before
            .and(List.of(again, left(Intervention.HAND_ON_WALL, 1)))
            .odds()
            .of(Suspect.LOOSE_ON_CABINET);
    assertThat(both).isCloseTo(pressed, within(1e-12));
  }

  /** A test to which no likely cause answers tells least. */
  @Test
  void expectedInformation() {
    Belief open = belief().and(List.of(AT_WALL));
    double hand = open.expectedBits(Intervention.HAND_ON_WALL, List.of(Family.LEFT));
    double feet = open.expectedBits(Intervention.INPUTS_SHORTED, List.of(Family.LEFT));
    assertThat(hand).isBetween(0.0, 3.0).isGreaterThan(feet + 0.02);
    assertThat(open.expectedBits(Intervention.HAND_ON_WALL, List.of(Family.LEFT))).isEqualTo(hand);
  }

  @Test
  void reasonsSpeakForAndAgainst() {
    Likelihoods likelihoods = madeUp();
    List<List<Evidence>> takes = List.of(List.of(AT_WALL));
    Odds odds = belief().and(takes.get(0)).odds();
    List<Reason> cabinet = Reasons.of(likelihoods, odds, Suspect.LOOSE_ON_CABINET, takes);
    assertThat(cabinet).anySatisfy(r -> assertThat(r.clue()).isEqualTo(Clue.AT_WALL));
    assertThat(cabinet.get(0).weight()).isPositive();
    List<Reason> wire = Reasons.of(likelihoods, odds, Suspect.LOOSE_ON_DRIVE_UNIT, takes);
    assertThat(wire.get(wire.size() - 1).weight()).isNegative();
  }

  @Test
  void countsAreReadAsTheyWereWritten() {
    Tally tally = new Tally();
    tally.add(List.of(Cause.PANEL_BUZZ), List.of(AT_WALL));
    tally.add(List.of(), List.of(SILENT));
    assertThat(Tally.read(tally.text()).text()).isEqualTo(tally.text());
    assertThat(tally.text()).contains("PANEL_BUZZ STANDING MARGIN -1 0 0 0 0 0 1 0");
  }

  @Test
  void everyClueIsSaidInWords() {
    for (Clue clue : Clue.values()) {
      for (double value : new double[] {-12, 0, 0.4, 31}) {
        assertThat(ClueWords.of(clue, value)).isNotBlank().doesNotContain("%s", "NaN");
      }
    }
    assertThat(ClueWords.of(Clue.AT_WALL, 12)).isEqualTo("loudest at the wall, by 12 dB");
    assertThat(ClueWords.of(Clue.ONCE, 0.92))
        .isEqualTo("92 % of its power comes and goes once a cycle");
    assertThat(ClueWords.of(Clue.HISS_CHANGE, -3)).isEqualTo("noise at rest is 3 dB louder");
    assertThat(ClueWords.of(Clue.MAINS_VOLTAGE, 100)).isEqualTo("hum of 100 mV in the voltage");
  }

  @Test
  void whatAnInterventionDoesToACause() {
    assertThat(Cause.HUM_GROUND_LOOP_AT_INPUT.under(Intervention.INPUTS_SHORTED))
        .isEqualTo(Effect.GONE);
    assertThat(Cause.HUM_GROUND_LOOP.under(Intervention.INPUTS_SHORTED)).isEqualTo(Effect.STAYS);
    assertThat(Cause.TRANSFORMER.under(Intervention.OTHER_AMPLIFIER)).isEqualTo(Effect.STAYS);
    assertThat(Cause.PANEL_BUZZ.under(Intervention.OUT_OF_BOX)).isEqualTo(Effect.GONE);
    assertThat(Cause.COIL_RUB.under(Intervention.OUT_OF_BOX)).isEqualTo(Effect.MOVED);
    assertThat(Cause.SPEECH.under(Intervention.HAND_ON_WALL)).isEqualTo(Effect.BY_CHANCE);
  }

  /** A fault may be sure though the room is noisy, too; unless it is, it is not named. */
  @Test
  void aFaultBesideNoiseOfTheRoomIsNamedWhenSure() {
    List<List<Cause>> hypotheses =
        List.of(
            List.of(Cause.CLOCK), List.of(Cause.HUM_MAGNETIC, Cause.CLOCK), List.of(Cause.HISS));
    assertThat(Odds.of(hypotheses, new double[] {0.3, 0.69, 0.01}).named()).isEmpty();
    assertThat(Odds.of(hypotheses, new double[] {0.005, 0.99, 0.005}).named())
        .contains(Suspect.HUM_PICKED_UP);
  }

  /** A suspect's own places, not those of others; nothing wrong comes from nowhere. */
  @Test
  void originsAreThoseOfTheSuspect() {
    List<List<Cause>> hypotheses =
        List.of(
            List.of(Cause.HISS), List.of(Cause.HISS_AT_INPUT), List.of(Cause.COIL_RUB), List.of());
    Odds odds = Odds.of(hypotheses, new double[] {0.3, 0.1, 0.4, 0.2});
    assertThat(odds.origins(Suspect.HISS))
        .containsOnlyKeys(Origin.AMPLIFIER, Origin.INPUT_WIRING)
        .hasEntrySatisfying(Origin.AMPLIFIER, p -> assertThat(p).isCloseTo(0.75, within(1e-9)));
    assertThat(odds.origins()).doesNotContainKey(Origin.OUTSIDE);
  }

  /**
   * Louder at the wall than any that was counted: it is still the wall, not what was never there.
   */
  @Test
  void whatLiesAStepBesideWhatWasCountedIsNearlyIt() {
    Tally tally = new Tally();
    for (int i = 0; i < 200; i++) {
      tally.add(List.of(Cause.PANEL_BUZZ), List.of(standing(Intervention.NONE, 25, atWall(5.5))));
      tally.add(List.of(Cause.WIRE_SLAP), List.of(standing(Intervention.NONE, 25, atWall(-12))));
    }
    Likelihoods counted = new Likelihoods(tally);
    Evidence beside = standing(Intervention.NONE, 25, atWall(8.5));
    Evidence far = standing(Intervention.NONE, 25, atWall(0));
    double near =
        counted.log(Optional.of(Cause.PANEL_BUZZ), beside, Clue.AT_WALL)
            - counted.log(Optional.of(Cause.WIRE_SLAP), beside, Clue.AT_WALL);
    double nowhere =
        counted.log(Optional.of(Cause.PANEL_BUZZ), far, Clue.AT_WALL)
            - counted.log(Optional.of(Cause.WIRE_SLAP), far, Clue.AT_WALL);
    assertThat(near).isGreaterThan(Math.log(10));
    assertThat(nowhere).isCloseTo(0, within(0.1));
  }

  private static Map<Clue, Double> atWall(double level) {
    return Map.of(Clue.AT_WALL, level, Clue.AT_CONE, 0.0);
  }
}
