package cutaway.bench.sheet;

import java.util.Collection;
import java.util.Comparator;
import java.util.Locale;
import java.util.Optional;

/** How far a misspelt word is from a known one. */
public final class Nearness {
  private Nearness() {}

  /** The known word nearest to a misspelt one, absent where none is near enough to be meant. */
  public static Optional<String> nearest(String word, Collection<String> known) {
    return known.stream()
        .min(Comparator.comparingInt(k -> distance(word.toLowerCase(Locale.ROOT), k)))
        .filter(k -> distance(word.toLowerCase(Locale.ROOT), k) <= Math.max(2, word.length() / 3));
  }

  /** Edits to turn one word into the other (V. I. Levenshtein 1966, from memory). */
  static int distance(String a, String b) {
    int[] row = new int[b.length() + 1];
    for (int j = 0; j <= b.length(); j++) {
      row[j] = j;
    }
    for (int i = 1; i <= a.length(); i++) {
      int diagonal = row[0];
      row[0] = i;
      for (int j = 1; j <= b.length(); j++) {
        int change = diagonal + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1);
        diagonal = row[j];
        row[j] = Math.min(change, 1 + Math.min(row[j], row[j - 1]));
      }
    }
    return row[b.length()];
  }
}
