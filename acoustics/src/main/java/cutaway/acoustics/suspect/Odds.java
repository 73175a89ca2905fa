package cutaway.acoustics.suspect;

import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Chances of what may be the matter, after some takes.
 *
 * @param causes chance that each takes part, alone or beside another
 * @param suspects chance that each takes part; of {@link Suspect#NOTHING}, that nothing does
 * @param origins chance that something there does; outside, that no fault does though something is
 * @param faulty chance that the unit or its wiring has a fault
 */
public record Odds(
    Map<Cause, Double> causes,
    Map<Suspect, Double> suspects,
    Map<Origin, Double> origins,
    double faulty) {
  /** A fault beside something likelier is named from here on; judgement. */
  private static final double SURE = 0.97;

  public Odds {
    causes = Map.copyOf(causes);
    suspects = Map.copyOf(suspects);
    origins = Map.copyOf(origins);
  }

  /** From the chances of hypotheses, each a set of causes. */
  static Odds of(List<List<Cause>> hypotheses, double[] chance) {
    Map<Cause, Double> causes = new EnumMap<>(Cause.class);
    Map<Suspect, Double> suspects = new EnumMap<>(Suspect.class);
    Map<Origin, Double> origins = new EnumMap<>(Origin.class);
    double faulty = 0;
    for (int i = 0; i < chance.length; i++) {
      double p = chance[i];
      List<Cause> h = hypotheses.get(i);
      h.forEach(c -> causes.merge(c, p, Double::sum));
      if (h.isEmpty()) {
        suspects.merge(Suspect.NOTHING, p, Double::sum);
      }
      h.stream().map(Cause::suspect).distinct().forEach(s -> suspects.merge(s, p, Double::sum));
      boolean fault = h.stream().anyMatch(c -> c.origin().isFault());
      faulty += fault ? p : 0;
      if (fault) {
        h.stream()
            .map(Cause::origin)
            .filter(Origin::isFault)
            .distinct()
            .forEach(o -> origins.merge(o, p, Double::sum));
      } else if (!h.isEmpty()) {
        origins.merge(Origin.OUTSIDE, p, Double::sum);
      }
    }
    return new Odds(causes, suspects, origins, faulty);
  }

  /** The suspects that have any chance, likeliest first. */
  public List<Suspect> ranked() {
    return suspects.entrySet().stream()
        .sorted(
            Map.Entry.<Suspect, Double>comparingByValue(Comparator.reverseOrder())
                .thenComparing(Map.Entry.comparingByKey()))
        .map(Map.Entry::getKey)
        .toList();
  }

  /**
   * The fault that is named: the likeliest, if it is likelier than not. Where something that is no
   * fault is likelier still, the fault must be sure: noise of a room leads to many a false one.
   */
  public Optional<Suspect> named() {
    Suspect first = ranked().get(0);
    return ranked().stream()
        .filter(Suspect::isFault)
        .findFirst()
        .filter(s -> of(s) > (s == first ? 0.5 : SURE));
  }

  /** Where a suspect is, if it is the matter: chances that add up to one. */
  public Map<Origin, Double> origins(Suspect suspect) {
    Map<Origin, Double> out = new EnumMap<>(Origin.class);
    double[] all = new double[1];
    causes.forEach(
        (cause, p) -> {
          if (cause.suspect() == suspect) {
            out.merge(cause.origin(), p, Double::sum);
            all[0] += p;
          }
        });
    out.replaceAll((origin, p) -> p / Math.max(Double.MIN_NORMAL, all[0]));
    return out;
  }

  /** The origins likewise. */
  public List<Origin> rankedOrigins() {
    return origins.entrySet().stream()
        .sorted(
            Map.Entry.<Origin, Double>comparingByValue(Comparator.reverseOrder())
                .thenComparing(Map.Entry.comparingByKey()))
        .map(Map.Entry::getKey)
        .toList();
  }

  /** Chance of a suspect. */
  public double of(Suspect suspect) {
    return suspects.getOrDefault(suspect, 0.0);
  }
}
