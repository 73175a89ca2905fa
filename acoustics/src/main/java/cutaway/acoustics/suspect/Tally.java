package cutaway.acoustics.suspect;

import cutaway.acoustics.fault.Clue;
import cutaway.acoustics.fault.Evidence;
import cutaway.acoustics.fault.Family;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Scanner;
import java.util.TreeMap;

/** How often each step of each clue was met with, by what was the matter. */
public final class Tally {
  /** Stands for a clue that leans on none, or on one that the take did not tell. */
  static final int ALONE = -1;

  private final Map<String, int[]> counts = new TreeMap<>();

  /** One row: what was the matter, family, clue, step of the clue it leans on. */
  private static String row(String of, Family family, Clue clue, int parent) {
    return of + " " + family + " " + clue + " " + parent;
  }

  /**
   * Counts the clues of a unit whose causes are known. Families that two causes disturb at once
   * tell of neither and are left out.
   */
  public void add(List<Cause> causes, List<Evidence> take) {
    for (Evidence e : Relevant.of(take)) {
      List<Cause> active = causes.stream().filter(c -> c.disturbs(e.family())).toList();
      if (active.size() < 2) {
        Optional<Cause> cause = active.stream().findFirst();
        Source.of(cause, e).ifPresent(of -> add(of, e));
      }
    }
  }

  private void add(String of, Evidence e) {
    e.values().forEach((clue, value) -> counts(of, e, clue)[Scale.step(clue, value)]++);
  }

  private int[] counts(String of, Evidence e, Clue clue) {
    return counts.computeIfAbsent(
        row(of, e.family(), clue, parentStep(e, clue)), k -> new int[Scale.steps(clue)]);
  }

  /** Step of the clue that one leans on, as a take tells it. */
  static int parentStep(Evidence e, Clue clue) {
    return Scale.parent(clue)
        .filter(e.values()::containsKey)
        .map(p -> Scale.step(p, e.value(p)))
        .orElse(ALONE);
  }

  /** Counts in the steps of a clue, all zero where it was never met with. */
  double[] counts(String of, Family family, Clue clue, int parent) {
    int[] n = counts.getOrDefault(row(of, family, clue, parent), new int[Scale.steps(clue)]);
    return Arrays.stream(n).asDoubleStream().toArray();
  }

  /** What takes a row. */
  interface RowReader {
    /** Of a cause, an effect or nothing; counts by step. */
    void accept(String of, Family family, Clue clue, int[] counts);
  }

  /** Hands on all rows. */
  void forEach(RowReader reader) {
    counts.forEach(
        (row, n) -> {
          try (Scanner words = new Scanner(row)) {
            reader.accept(
                words.next(), Family.valueOf(words.next()), Clue.valueOf(words.next()), n);
          }
        });
  }

  /** Rows of text, one a line: what, family, clue, step leant on, counts. */
  public String text() {
    StringBuilder out = new StringBuilder();
    counts.forEach(
        (row, n) -> {
          out.append(row);
          for (int c : n) {
            out.append(' ').append(c);
          }
          out.append('\n');
        });
    return out.toString();
  }

  /** Reads what {@link #text} writes. */
  public static Tally read(String text) {
    Tally out = new Tally();
    try (Scanner lines = new Scanner(text)) {
      while (lines.hasNextLine()) {
        try (Scanner words = new Scanner(lines.nextLine())) {
          String of = words.next();
          Family family = Family.valueOf(words.next());
          Clue clue = Clue.valueOf(words.next());
          int[] n = new int[Scale.steps(clue)];
          String row = row(of, family, clue, words.nextInt());
          for (int i = 0; i < n.length; i++) {
            n[i] = words.nextInt();
          }
          out.counts.put(row, n);
        }
      }
    }
    return out;
  }
}
