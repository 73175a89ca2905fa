package cutaway.acoustics.suspect;

import cutaway.acoustics.fault.Clue;
import cutaway.acoustics.fault.Evidence;
import cutaway.acoustics.fault.Family;
import cutaway.acoustics.fault.Intervention;
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.ConcurrentHashMap;

/**
 * How likely clues are under a cause: counts, drawn towards what is usual where there are few.
 * Method: docs/methods/suspects.md.
 */
public final class Likelihoods {
  /** Counts added to each row: evenly, of all causes, and of the cause whatever it leans on. */
  private static final double EVEN = 2;

  private static final double USUAL = 4;
  private static final double OWN = 6;

  /** Chance that a clue is not of what was counted at all: no population holds every room. */
  private static final double UNCOUNTED = 0.02;

  /** Share of the counts of a step that goes to each side: other places, other units; judgement. */
  private static final double ELSEWHERE_HELD = 0.25;

  private static final double OTHERWISE_BUILT = 0.1;

  private final Map<Row, double[]> alone = new HashMap<>();
  private final Map<Row, double[]> usual = new HashMap<>();
  private final Map<Row, double[][]> chances = new ConcurrentHashMap<>();
  private final Tally tally;

  /** One row of counts; what is empty stands for all. */
  private record Row(String of, Family family, Clue clue) {}

  private static final String ALL = "";

  /** From counts. */
  public Likelihoods(Tally tally) {
    this.tally = tally;
    tally.forEach(
        (of, family, clue, counts) -> {
          double[] spread = spread(clue, Arrays.stream(counts).asDoubleStream().toArray());
          add(alone, new Row(of, family, clue), spread);
          add(usual, new Row(ALL, family, clue), spread);
        });
  }

  private static void add(Map<Row, double[]> to, Row row, double[] counts) {
    double[] sum = to.computeIfAbsent(row, k -> new double[counts.length]);
    for (int i = 0; i < counts.length; i++) {
      sum[i] += counts[i];
    }
  }

  /** Counts of which a share went to the steps on either side. */
  private static double[] spread(Clue clue, double[] counts) {
    double share =
        switch (clue) {
          case AT_CONE, AT_PORT, AT_WALL, WALL_OVER_PORT, UNLIKE -> ELSEWHERE_HELD;
          default -> OTHERWISE_BUILT;
        };
    double[] out = counts.clone();
    for (int i = 0; i + 1 < counts.length; i++) {
      double moved = share * (counts[i + 1] - counts[i]);
      out[i] += moved;
      out[i + 1] -= moved;
    }
    return out;
  }

  /** Logarithm of the likelihood of one clue of a family, given the one it leans on. */
  double log(Optional<Cause> cause, Evidence e, Clue clue) {
    Optional<String> of = Source.of(cause, e);
    if (of.isPresent()) {
      return Math.log(chance(of.get(), e, clue));
    }
    String found = cause.orElseThrow().soundsLike().name();
    return Math.log((chance(found, e, clue) + chance(Source.NOTHING, e, clue)) / 2);
  }

  /** Logarithm of the likelihood of a family's clues. */
  double log(Optional<Cause> cause, Evidence e) {
    Optional<String> of = Source.of(cause, e);
    if (of.isPresent()) {
      return log(of.get(), e);
    }
    String found = cause.orElseThrow().soundsLike().name();
    return logMean(log(found, e), log(Source.NOTHING, e));
  }

  private double log(String of, Evidence e) {
    double sum = 0;
    for (Clue clue : e.values().keySet()) {
      sum += Math.log(chance(of, e, clue));
    }
    return sum;
  }

  private static double open(double chance, int steps) {
    return (1 - UNCOUNTED) * chance + UNCOUNTED / steps;
  }

  /** Counts of a row and what is drawn towards, as a chance. */
  private static double drawn(double[] counts, int step, double weight, double towards) {
    double sum = 0;
    for (double c : counts) {
      sum += c;
    }
    return (counts[step] + weight * towards) / (sum + weight);
  }

  /** Chance of the step of one clue, given the clue it leans on. */
  private double chance(String of, Evidence e, Clue clue) {
    return chance(of, e, clue, Scale.step(clue, e.value(clue)));
  }

  private double chance(String of, Evidence e, Clue clue, int step) {
    return chances
        .computeIfAbsent(new Row(of, e.family(), clue), this::chances)[
        Tally.parentStep(e, clue) + 1][step];
  }

  /** Of all steps of a clue: first where it leans on none, then for each step it may lean on. */
  private double[][] chances(Row row) {
    int steps = Scale.steps(row.clue);
    double[] none = new double[steps];
    double[] all = usual.getOrDefault(new Row(ALL, row.family, row.clue), none);
    double[] own = alone.getOrDefault(row, none);
    int parents = Scale.parent(row.clue).map(Scale::steps).orElse(0);
    double[][] out = new double[parents + 1][steps];
    for (int step = 0; step < steps; step++) {
      double p = drawn(own, step, USUAL, drawn(all, step, EVEN, 1.0 / steps));
      out[0][step] = open(p, steps);
      for (int parent = 0; parent < parents; parent++) {
        double[] counts = spread(row.clue, tally.counts(row.of, row.family, row.clue, parent));
        out[parent + 1][step] = open(drawn(counts, step, OWN, p), steps);
      }
    }
    return out;
  }

  /**
   * Clues of a family as they might turn out.
   *
   * @param cause that disturbs it, absent for none
   */
  Evidence draw(Optional<Cause> cause, Family family, Intervention done, Random random) {
    Evidence out = new Evidence(family, done, Map.of());
    String of =
        Source.of(cause, out)
            .orElseGet(
                () ->
                    random.nextBoolean()
                        ? Source.NOTHING
                        : cause.orElseThrow().soundsLike().name());
    Map<Clue, Double> values = new EnumMap<>(Clue.class);
    for (Clue clue : clues(family)) {
      boolean silent =
          values.getOrDefault(Clue.MARGIN, Clue.HEARD) < Clue.HEARD
              || values.getOrDefault(Clue.EXCESS, Clue.ALONE) < Clue.ALONE;
      if (!silent) {
        values.put(clue, Scale.middle(clue, step(of, out, clue, random)));
        out = new Evidence(family, done, values);
      }
    }
    return out;
  }

  private int step(String of, Evidence so, Clue clue, Random random) {
    double left = random.nextDouble();
    int step = 0;
    while (step < Scale.steps(clue) - 1) {
      left -= chance(of, so, clue, step);
      if (left < 0) {
        break;
      }
      step++;
    }
    return step;
  }

  /** Of a family, those that lean on others after them. */
  private List<Clue> clues(Family family) {
    return usual.keySet().stream()
        .filter(r -> r.family() == family)
        .map(Row::clue)
        .sorted(Comparator.comparingInt(Likelihoods::depth).thenComparing(c -> c))
        .toList();
  }

  private static int depth(Clue clue) {
    return Scale.parent(clue).map(p -> 1 + depth(p)).orElse(0);
  }

  /** Logarithm of the mean of two numbers given by theirs. */
  static double logMean(double a, double b) {
    double most = Math.max(a, b);
    return most + Math.log((Math.exp(a - most) + Math.exp(b - most)) / 2);
  }
}
