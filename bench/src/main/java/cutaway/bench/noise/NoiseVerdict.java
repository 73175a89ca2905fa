package cutaway.bench.noise;

import cutaway.acoustics.suspect.Odds;
import cutaway.acoustics.suspect.Origin;
import cutaway.acoustics.suspect.Suspect;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** What may be said of a noise in public, in a sentence or two, no surer than the odds. */
final class NoiseVerdict {
  /** Likelier than this is very likely. */
  private static final double VERY = 0.8;

  /** A fault less likely than this does not show. */
  private static final double HARDLY = 0.2;

  private NoiseVerdict() {}

  static String of(Odds odds) {
    List<Suspect> ranked = odds.ranked();
    Optional<Suspect> named = odds.named();
    if (named.isPresent()) {
      return named(odds, named.get());
    }
    Suspect first = ranked.get(0);
    if (first == Suspect.RECORDING && odds.of(first) > VERY) {
      return "Nothing is told of the unit: " + first.words() + ". Mend that and record again.";
    }
    if (odds.faulty() < HARDLY && !first.isFault()) {
      return first == Suspect.NOTHING
          ? "No fault of the unit shows here."
          : "No fault of the unit shows here: " + first.words() + ".";
    }
    if (!first.isFault() && first != Suspect.NOTHING && odds.of(first) > VERY) {
      Suspect fault = ranked.stream().filter(Suspect::isFault).findFirst().orElseThrow();
      return "Not settled: "
          + first.words()
          + ", and beside it perhaps "
          + fault.words()
          + ". Make the next test before anything is said of the unit.";
    }
    return "Not settled: "
        + String.join(", ", ranked.stream().limit(3).map(Suspect::words).toList())
        + ". Make the next test before anything is said.";
  }

  private static String named(Odds odds, Suspect suspect) {
    String out =
        (odds.of(suspect) > VERY ? "Very likely: " : "Likelier than not: ")
            + suspect.words()
            + ". "
            + from(odds.origins(suspect));
    double outside = odds.of(Suspect.OUTSIDE_NOISE);
    return outside > 0.5 ? out + " Beside it there is noise from outside the unit." : out;
  }

  /** Where a suspect is: the likeliest place, and the next where that is not sure. */
  private static String from(Map<Origin, Double> origins) {
    List<Origin> ranked =
        origins.entrySet().stream()
            .sorted(Map.Entry.<Origin, Double>comparingByValue().reversed())
            .map(Map.Entry::getKey)
            .toList();
    Origin first = ranked.get(0);
    boolean sure = ranked.size() == 1 || origins.getOrDefault(first, 0.0) > VERY;
    return "It comes from "
        + first.words()
        + (sure ? "." : ", or else from " + ranked.get(1).words() + ".");
  }
}
