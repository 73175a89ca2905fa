package cutaway.acoustics.knock;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfEnvironmentVariable;

/**
 * A whole population of recordings that were invented, not picked: how often the modes that have to
 * be found are, and how often what is said of them holds.
 */
class InventedKnockTest {
  @Test
  void findsTheClearModesOfManyWalls() {
    holds(LongStream.range(0, 30));
  }

  @Test
  @EnabledIfEnvironmentVariable(named = "CUTAWAY_ALL_TESTS", matches = "1")
  void findsTheClearModesOfThreeHundredWalls() {
    holds(LongStream.range(0, 300));
  }

  private static void holds(LongStream seeds) {
    List<Score> scores = seeds.parallel().mapToObj(InventedKnockTest::score).toList();
    Score all = scores.stream().reduce(Score.NONE, Score::plus);
    assertThat(all.tapsRight / (double) scores.size()).as("%s", all).isGreaterThanOrEqualTo(0.96);
    assertThat(all.found / (double) all.clear).as("%s", all).isGreaterThanOrEqualTo(0.97);
    assertThat(all.lossRight / (double) all.found).as("%s", all).isGreaterThanOrEqualTo(0.97);
    assertThat(all.covered / (2.0 * all.found)).as("%s", all).isGreaterThanOrEqualTo(0.9);
    assertThat(all.invented).as("%s", all).isLessThanOrEqualTo(scores.size() / 100);
  }

  /**
   * What came out of some recordings.
   *
   * @param tapsRight recordings in which five taps were found, each used and within 2 ms
   * @param clear modes that stand clear
   * @param found of these, within 0.5 % in frequency
   * @param lossRight of those, within 15 % in loss
   * @param covered their frequencies and losses that lie within two standard uncertainties
   * @param invented modes that are not there, stronger than the weakest true one found
   */
  private record Score(
      int tapsRight, int clear, int found, int lossRight, int covered, int invented) {
    static final Score NONE = new Score(0, 0, 0, 0, 0, 0);

    Score plus(Score other) {
      return new Score(
          tapsRight + other.tapsRight,
          clear + other.clear,
          found + other.found,
          lossRight + other.lossRight,
          covered + other.covered,
          invented + other.invented);
    }
  }

  private static Score score(long seed) {
    InventedKnock wall = InventedKnock.of(seed);
    Knock knock = Knock.of(wall.samples(), InventedKnock.RATE);
    Score score = new Score(tapsRight(wall, knock) ? 1 : 0, 0, 0, 0, 0, invented(wall, knock));
    for (InventedKnock.Mode mode : wall.modes()) {
      score = mode.clear() ? score.plus(score(mode, knock)) : score;
    }
    return score;
  }

  private static boolean tapsRight(InventedKnock wall, Knock knock) {
    boolean right = knock.taps().size() == wall.onsets().size();
    for (int i = 0; right && i < wall.onsets().size(); i++) {
      Tap tap = knock.taps().get(i);
      double late = tap.onset() / InventedKnock.RATE - wall.onsets().get(i);
      right = !tap.doubled() && Math.abs(late) < 0.002;
    }
    return right;
  }

  private static Score score(InventedKnock.Mode mode, Knock knock) {
    Optional<Ring> nearest =
        knock.rings().stream()
            .min(Comparator.comparingDouble(r -> Math.abs(r.frequency() - mode.frequency())))
            .filter(r -> Math.abs(r.frequency() / mode.frequency() - 1) < 0.005);
    if (nearest.isEmpty()) {
      return new Score(0, 1, 0, 0, 0, 0);
    }
    Ring ring = nearest.get();
    double off = Math.abs(ring.frequency() - mode.frequency()) / ring.frequencyUncertainty();
    double lossOff = Math.abs(ring.loss() - mode.loss()) / ring.lossUncertainty();
    boolean lossRight = Math.abs(ring.loss() / mode.loss() - 1) < 0.15;
    int covered = (off < 2 ? 1 : 0) + (lossOff < 2 ? 1 : 0);
    return new Score(0, 1, 1, lossRight ? 1 : 0, covered, 0);
  }

  private static int invented(InventedKnock wall, Knock knock) {
    double weakest =
        knock.rings().stream()
            .filter(ring -> isThere(wall, ring))
            .mapToDouble(Ring::level)
            .min()
            .orElse(0);
    return (int)
        knock.rings().stream()
            .filter(ring -> !isThere(wall, ring) && ring.level() > weakest)
            .count();
  }

  /** Or a pair seen as one. */
  private static boolean isThere(InventedKnock wall, Ring ring) {
    return wall.modes().stream()
        .anyMatch(
            mode ->
                Math.abs(mode.frequency() / ring.frequency() - 1) < Math.max(0.005, ring.loss()));
  }
}
