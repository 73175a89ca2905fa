package cutaway.acoustics.fault;

import java.util.List;
import java.util.Optional;

/**
 * What a take with an intervention is compared with.
 *
 * @param with where something stood out before; absent where nothing did or it cannot be compared
 * @param not why it cannot be
 */
record Comparison(Optional<Spot> with, Optional<NotCompared> not) {
  static Comparison of(Optional<TakeClues> before, Remainder now, Intervention done) {
    if (done == Intervention.NONE) {
      return new Comparison(Optional.empty(), Optional.empty());
    }
    if (before.isEmpty()) {
      return not(NotCompared.NOTHING_BEFORE);
    }
    Optional<Place> place = before.get().places().stream().findFirst();
    if (place.isEmpty()) {
      return new Comparison(Optional.empty(), Optional.empty());
    }
    Spot spot = place.get().spot();
    if (!now.holds(spot)) {
      return not(NotCompared.OUT_OF_REACH);
    }
    return Louder.by(place.get().played(), now.played(spot), done)
        .map(l -> not(new NotCompared(NotCompared.Why.OTHER_LEVEL, l)))
        .orElse(new Comparison(Optional.of(spot), Optional.empty()));
  }

  /**
   * What may be told. With nothing before, it tells what it would by itself, as the network knows
   * what was done; what was played otherwise or is out of reach tells of its flaws alone.
   */
  List<Evidence> told(List<Evidence> all) {
    boolean alone = not.filter(n -> n.why() == NotCompared.Why.NOTHING_BEFORE).isPresent();
    return not.isEmpty() || alone
        ? all
        : all.stream().filter(e -> e.family() == Family.FLAWS).toList();
  }

  private static Comparison not(NotCompared why) {
    return new Comparison(Optional.empty(), Optional.of(why));
  }
}
