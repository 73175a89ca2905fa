package cutaway.acoustics.suspect;

import cutaway.acoustics.fault.Clue;
import cutaway.acoustics.fault.Evidence;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;

/** The clues that speak for and against a suspect, each for itself. */
public final class Reasons {
  /** A clue that changes the odds by less than a fifth says nothing. */
  private static final double LEAST = Math.log(1.2);

  private final Likelihoods likelihoods;
  private final Odds odds;
  private final List<Reason> all = new ArrayList<>();

  private Reasons(Likelihoods likelihoods, Odds odds) {
    this.likelihoods = likelihoods;
    this.odds = odds;
  }

  /**
   * All that speak, strongest for first, strongest against last.
   *
   * @param odds after the takes
   * @param takes clues of each take
   */
  public static List<Reason> of(
      Likelihoods likelihoods, Odds odds, Suspect suspect, List<List<Evidence>> takes) {
    Reasons out = new Reasons(likelihoods, odds);
    for (int take = 0; take < takes.size(); take++) {
      for (Evidence e : Relevant.of(takes.get(take))) {
        out.weigh(take, e, suspect);
      }
    }
    out.all.sort(Comparator.comparingDouble(Reason::weight).reversed());
    return List.copyOf(out.all);
  }

  private void weigh(int take, Evidence e, Suspect suspect) {
    Map<Cause, Double> with = weights(c -> c.suspect() == suspect);
    Map<Cause, Double> without = weights(c -> c.suspect() != suspect);
    boolean nothing = suspect == Suspect.NOTHING;
    for (Clue clue : e.values().keySet()) {
      double own =
          nothing ? Math.exp(likelihoods.log(Optional.empty(), e, clue)) : mean(with, 0, e, clue);
      double sound = nothing ? 0 : odds.of(Suspect.NOTHING);
      double weight = Math.log(own / mean(without, sound, e, clue));
      if (Math.abs(weight) > LEAST) {
        all.add(new Reason(take, e.family(), clue, e.value(clue), weight));
      }
    }
  }

  private Map<Cause, Double> weights(Predicate<Cause> which) {
    Map<Cause, Double> out = new EnumMap<>(Cause.class);
    odds.causes().forEach((c, p) -> addIf(which.test(c), out, c, p));
    return out;
  }

  private static void addIf(boolean counts, Map<Cause, Double> to, Cause cause, double chance) {
    if (counts) {
      to.put(cause, chance + 1e-12);
    }
  }

  /** Likelihood under causes by their chances, and under nothing by its own. */
  private double mean(Map<Cause, Double> causes, double nothing, Evidence e, Clue clue) {
    double sum = nothing * Math.exp(likelihoods.log(Optional.empty(), e, clue));
    double weights = nothing;
    for (Map.Entry<Cause, Double> c : causes.entrySet()) {
      sum += c.getValue() * Math.exp(likelihoods.log(Optional.of(c.getKey()), e, clue));
      weights += c.getValue();
    }
    return sum / weights;
  }
}
