package cutaway.benchmarks.suspects;

import cutaway.acoustics.suspect.Belief;
import cutaway.acoustics.suspect.Cause;
import cutaway.acoustics.suspect.Likelihoods;
import cutaway.acoustics.suspect.Odds;
import cutaway.acoustics.suspect.Origin;
import cutaway.acoustics.suspect.Suspect;
import cutaway.acoustics.suspect.SuspectNetwork;
import cutaway.bench.noise.CountedClues;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.function.Predicate;
import java.util.function.ToIntFunction;
import java.util.stream.Collectors;

/**
 * How often the odds are right on collected cases that were not counted: {@code Accuracy FILE}; or
 * with each fifth of them left out of the count in turn: {@code Accuracy FILE WEIGHT...}.
 */
public final class Accuracy {
  private static final int FOLDS = 5;
  private static final double CLEAR = 10;
  private static final double HARD = 5;

  private final List<Judged> judged = new ArrayList<>();

  /** A case and the odds it was given. */
  record Judged(CaseClues truth, Odds odds) {
    Set<Suspect> suspects() {
      return truth.causes().stream().map(Cause::suspect).collect(Collectors.toSet());
    }

    List<Cause> faults() {
      return truth.causes().stream().filter(c -> c.origin().isFault()).toList();
    }

    /** Place of a fault's suspect, from 0, among those that are not the matter. */
    int place(Cause fault) {
      List<Suspect> wrong = new ArrayList<>(odds.ranked());
      Set<Suspect> others = suspects();
      others.remove(fault.suspect());
      wrong.removeAll(others);
      int at = wrong.indexOf(fault.suspect());
      return at < 0 ? Suspect.values().length : at;
    }
  }

  private Accuracy() {}

  /** File of cases, and weights to try. */
  public static void main(String... args) throws IOException {
    List<CaseClues> cases = CaseFile.read(Path.of(args[0]));
    PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
    if (args.length == 1) {
      Accuracy all = new Accuracy();
      all.judge(CountedClues.likelihoods(), SuspectNetwork.WEIGHT, cases);
      all.print(out);
    }
    for (String weight : Arrays.asList(args).subList(1, args.length)) {
      out.println("weight " + weight);
      leavingOut(cases, Double.parseDouble(weight)).print(out);
    }
  }

  static Accuracy leavingOut(List<CaseClues> cases, double weight) {
    Accuracy out = new Accuracy();
    for (int fold = 0; fold < FOLDS; fold++) {
      List<CaseClues> counted = new ArrayList<>();
      List<CaseClues> left = new ArrayList<>();
      for (CaseClues c : cases) {
        (c.seed() % FOLDS == fold ? left : counted).add(c);
      }
      out.judge(new Likelihoods(Count.of(counted)), weight, left);
    }
    return out;
  }

  private void judge(Likelihoods likelihoods, double weight, List<CaseClues> cases) {
    SuspectNetwork vented = new SuspectNetwork(likelihoods, weight, true);
    SuspectNetwork sealed = new SuspectNetwork(likelihoods, weight, false);
    judged.addAll(
        cases.parallelStream()
            .map(
                c -> {
                  Belief belief = (c.vented() ? vented : sealed).prior();
                  for (var take : c.takes()) {
                    belief = belief.and(take);
                  }
                  return new Judged(c, belief.odds());
                })
            .toList());
  }

  private void print(PrintStream out) {
    List<Judged> clear = alone(j -> best(j) >= CLEAR);
    List<Judged> hard = alone(j -> best(j) >= HARD && best(j) < CLEAR);
    List<Judged> mixed =
        judged.stream().filter(j -> j.faults().size() == 2 && leastMargin(j) >= CLEAR).toList();
    List<Judged> sound = judged.stream().filter(j -> j.faults().isEmpty()).toList();
    share(out, "clear fault first", clear, j -> j.place(j.faults().get(0)) == 0);
    share(out, "clear fault among two", clear, j -> j.place(j.faults().get(0)) <= 1);
    share(out, "its origin first", clear, Accuracy::originRight);
    share(out, "hard fault among three", hard, j -> j.place(j.faults().get(0)) <= 2);
    share(out, "both of two among three", mixed, j -> furthest(j, j::place) <= 1);
    share(out, "sound called faulty", sound, j -> j.odds().named().isPresent());
    share(out, "clear fault named", clear, j -> j.odds().named().isPresent());
    reliability(out);
    for (Suspect s : Suspect.values()) {
      List<Judged> own = clear.stream().filter(j -> j.faults().get(0).suspect() == s).toList();
      if (!own.isEmpty()) {
        share(out, "  " + s, own, j -> j.place(j.faults().get(0)) == 0);
      }
    }
  }

  private static double best(Judged j) {
    return j.truth().best().orElse(Double.NEGATIVE_INFINITY);
  }

  private static double leastMargin(Judged j) {
    double least = Double.POSITIVE_INFINITY;
    for (int i = 0; i < j.truth().causes().size(); i++) {
      boolean fault = j.truth().causes().get(i).origin().isFault();
      least = fault ? Math.min(least, j.truth().margins().get(i)) : least;
    }
    return least;
  }

  private List<Judged> alone(Predicate<Judged> which) {
    return judged.stream().filter(j -> j.faults().size() == 1).filter(which).toList();
  }

  private static int furthest(Judged j, ToIntFunction<Cause> place) {
    return j.faults().stream().mapToInt(place).max().orElse(0);
  }

  /** Among the origins of faults and whatever is not the matter. */
  private static boolean originRight(Judged j) {
    boolean outside = j.truth().causes().stream().anyMatch(c -> !c.origin().isFault());
    Origin first =
        j.odds().rankedOrigins().stream()
            .filter(o -> o.isFault() || !outside)
            .findFirst()
            .orElseThrow();
    return first == j.faults().get(0).origin();
  }

  private static void share(
      PrintStream out, String what, List<Judged> of, Predicate<Judged> right) {
    out.printf(
        Locale.ROOT,
        "%-28s %5.1f %% of %d%n",
        what,
        100.0 * of.stream().filter(right).count() / Math.max(1, of.size()),
        of.size());
  }

  /** Of all suspects of all cases: how often those of like odds were indeed the matter. */
  private void reliability(PrintStream out) {
    double[] said = new double[10];
    double[] was = new double[10];
    double[] n = new double[10];
    double brier = 0;
    double log = 0;
    for (Judged j : judged) {
      Set<Suspect> truth = j.suspects();
      double missed = 0;
      for (Suspect s : Suspect.values()) {
        double p = j.odds().of(s);
        boolean is = s == Suspect.NOTHING ? truth.isEmpty() : truth.contains(s);
        int bin = Math.min(9, (int) (10 * p));
        said[bin] += p;
        was[bin] += is ? 1 : 0;
        n[bin]++;
        missed += (p - (is ? 1 : 0)) * (p - (is ? 1 : 0));
        log -= Math.log(Math.max(1e-12, is ? p : 1 - p));
      }
      brier += missed;
    }
    out.printf(
        Locale.ROOT,
        "Brier score %.4f, log loss %.4f a case%n",
        brier / judged.size(),
        log / judged.size());
    for (int b = 0; b < 10; b++) {
      if (n[b] > 0) {
        out.printf(
            Locale.ROOT, "  said %.3f was %.3f of %.0f%n", said[b] / n[b], was[b] / n[b], n[b]);
      }
    }
  }
}
