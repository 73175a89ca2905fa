package cutaway.acoustics.suspect;

import cutaway.acoustics.fault.Evidence;
import cutaway.acoustics.fault.Family;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * The network: nothing, one cause or two disturb families of clues; a family that both disturb is
 * either's. Chances of all such sets follow from the clues by Bayes' rule. Method:
 * docs/methods/suspects.md.
 */
public final class SuspectNetwork {
  /** Weight of clues at which the odds are right as often as they say; docs/methods/accuracy.md. */
  public static final double WEIGHT = 0.7;

  /** Chances before any take that no fault is there, that one is, that two are; judgement. */
  private static final double SOUND = 0.25;

  private static final double ONE = 0.66;
  private static final double TWO = 0.09;

  /** Of hum, hiss and tones, the share that comes in through the input; judgement. */
  private static final double AT_INPUT = 0.2;

  /** Of ground loops: the cable's screen is a part of the loop (common practice, no source). */
  private static final double LOOP_AT_INPUT = 0.9;

  /** A trim against another fault: testers take it off before they measure; judgement. */
  private static final double TRIM = 0.5;

  /** Chance that the room or the recording takes part without a fault, and beside one. */
  private static final double OUTSIDE_ALONE = 0.6;

  private static final double OUTSIDE_BESIDE = 0.15;

  private final Likelihoods likelihoods;
  private final double weight;
  private final List<List<Cause>> hypotheses = new ArrayList<>();
  private final double[] prior;

  /**
   * Makes it ready.
   *
   * @param weight of the clues, 1 where none says again what another said
   * @param vented whether the box has a port
   */
  public SuspectNetwork(Likelihoods likelihoods, double weight, boolean vented) {
    this.likelihoods = likelihoods;
    this.weight = weight;
    List<Cause> causes =
        Arrays.stream(Cause.values()).filter(c -> vented || c != Cause.PORT_NOISE).toList();
    hypotheses.add(List.of());
    for (int i = 0; i < causes.size(); i++) {
      hypotheses.add(List.of(causes.get(i)));
      for (Cause second : causes.subList(i + 1, causes.size())) {
        if (causes.get(i).soundsLike() != second.soundsLike()) {
          hypotheses.add(List.of(causes.get(i), second));
        }
      }
    }
    Map<Kind, Double> all = new HashMap<>();
    hypotheses.forEach(h -> all.merge(Kind.of(h), share(h), Double::sum));
    this.prior =
        hypotheses.stream()
            .mapToDouble(h -> Kind.of(h).chance() * share(h) / all.getOrDefault(Kind.of(h), 1.0))
            .toArray();
  }

  /** How many faults a hypothesis has, and how many other causes. */
  private record Kind(int faults, int others) {
    static Kind of(List<Cause> hypothesis) {
      int faults = (int) hypothesis.stream().filter(c -> c.origin().isFault()).count();
      return new Kind(faults, hypothesis.size() - faults);
    }

    /** Before any take, of all of that kind together. */
    double chance() {
      if (faults == 2) {
        return TWO;
      }
      double disturbed = faults == 0 ? OUTSIDE_ALONE : OUTSIDE_BESIDE;
      // of two causes outside, each comes as if alone; beside a fault no second is thought of
      double twice = faults == 0 ? disturbed * disturbed / 2 : 0;
      double share = others == 0 ? 1 - disturbed : others == 1 ? disturbed - twice : twice;
      return (faults == 0 ? SOUND : ONE) * share;
    }
  }

  /** Of a hypothesis among those of its kind, in any unit. */
  private static double share(List<Cause> hypothesis) {
    double p = 1;
    for (Cause c : hypothesis) {
      p *= c == Cause.LOOSE_TRIM ? TRIM : 1;
      double input = c.soundsLike() == Cause.HUM_GROUND_LOOP ? LOOP_AT_INPUT : AT_INPUT;
      p *= c.atInput() ? input : c.orAtInput().isPresent() ? 1 - input : 1;
    }
    return p;
  }

  /** What is believed before any take. */
  public Belief prior() {
    return new Belief(this, Arrays.stream(prior).map(Math::log).toArray());
  }

  List<List<Cause>> hypotheses() {
    return hypotheses;
  }

  Likelihoods likelihoods() {
    return likelihoods;
  }

  /** Adds what clues of one family say of each hypothesis to the logarithms of their chances. */
  void add(Evidence e, double[] log) {
    // what an intervention leaves was said by no other clue
    double weighs = e.family().isLeft() ? 1 : weight;
    double nothing = likelihoods.log(Optional.empty(), e);
    Map<Cause, Double> alone = likelihoods(e);
    Map<Cause, Double> beside = beside(e, alone);
    for (int i = 0; i < log.length; i++) {
      log[i] += weighs * log(hypotheses.get(i), alone, beside, nothing);
    }
  }

  /** Of a hypothesis: of the one cause of it that disturbs the family, or the mean of both. */
  private static double log(
      List<Cause> hypothesis, Map<Cause, Double> alone, Map<Cause, Double> beside, double nothing) {
    Double first = null;
    Cause by = null;
    for (Cause c : hypothesis) {
      Double own = alone.get(c);
      if (own != null && by != null) {
        return Likelihoods.logMean(
            beside.getOrDefault(by, nothing), beside.getOrDefault(c, nothing));
      }
      if (own != null) {
        first = own;
        by = c;
      }
    }
    return first == null ? nothing : first;
  }

  /** Of each cause that disturbs a family. */
  private Map<Cause, Double> likelihoods(Evidence e) {
    Map<Cause, Double> out = new EnumMap<>(Cause.class);
    for (Cause c : Cause.values()) {
      if (c.disturbs(e.family())) {
        out.put(c, likelihoods.log(Optional.of(c), e));
      }
    }
    return out;
  }

  /**
   * The same with another at work as well: what a sweep shows elsewhere may then be what the softer
   * of both would show first.
   */
  private Map<Cause, Double> beside(Evidence e, Map<Cause, Double> alone) {
    if (e.family() != Family.ELSEWHERE && e.family() != Family.BESIDE) {
      return alone;
    }
    Map<Cause, Double> out = likelihoods(new Evidence(Family.SWEPT, e.intervention(), e.values()));
    alone.forEach((c, second) -> out.merge(c, second, Likelihoods::logMean));
    return out;
  }
}
