package cutaway.acoustics.modes;

import java.util.Arrays;
import java.util.Comparator;
import java.util.List;

/**
 * Elements halved again and again by where they lie, and with each half the unknowns that none
 * besides its elements hold (nested dissection: A. George, SIAM J. Numer. Anal. 10 (1973), from
 * memory).
 */
final class Dissection {
  private final List<int[]> elements;
  private final List<double[]> centres;

  /** How many elements hold each unknown. */
  private final int[] uses;

  /** How many of the elements looked at do; zero between looks. */
  private final int[] seen;

  private final boolean[] placed;

  private Dissection(int size, List<int[]> elements, List<double[]> centres) {
    this.elements = elements;
    this.centres = centres;
    this.uses = new int[size];
    this.seen = new int[size];
    this.placed = new boolean[size];
    elements.forEach(e -> count(e, uses, 1));
  }

  /**
   * Some elements and the two halves they consist of.
   *
   * @param pivots unknowns that these elements hold alone, and neither half does
   * @param boundary unknowns of theirs that other elements hold too
   * @param element the element, where it is one
   * @param halves none or two
   */
  @SuppressWarnings("ArrayRecordComponent") // never compared
  record Part(int[] pivots, int[] boundary, int element, List<Part> halves) {}

  /**
   * Dissects.
   *
   * @param size number of unknowns, each in at least one element
   * @param elements unknowns of each element, without repeats
   * @param centres where each element lies
   */
  static Part of(int size, List<int[]> elements, List<double[]> centres) {
    Integer[] all = new Integer[elements.size()];
    Arrays.setAll(all, i -> i);
    return new Dissection(size, elements, centres).dissect(all);
  }

  private Part dissect(Integer[] part) {
    List<Part> halves = List.of();
    if (part.length > 1) {
      int axis = widest(part);
      Integer[] sorted = part.clone();
      Arrays.sort(sorted, Comparator.comparingDouble(e -> centres.get(e)[axis]));
      int middle = sorted.length / 2;
      halves =
          List.of(
              dissect(Arrays.copyOfRange(sorted, 0, middle)),
              dissect(Arrays.copyOfRange(sorted, middle, sorted.length)));
    }
    for (int e : part) {
      count(elements.get(e), seen, 1);
    }
    int[] left =
        Arrays.stream(part)
            .flatMapToInt(e -> Arrays.stream(elements.get(e)))
            .filter(dof -> !placed[dof])
            .distinct()
            .toArray();
    int[] pivots = Arrays.stream(left).filter(dof -> seen[dof] == uses[dof]).toArray();
    int[] boundary = Arrays.stream(left).filter(dof -> seen[dof] != uses[dof]).toArray();
    for (int dof : pivots) {
      placed[dof] = true;
    }
    for (int e : part) {
      count(elements.get(e), seen, -1);
    }
    return new Part(pivots, boundary, part.length == 1 ? part[0] : -1, halves);
  }

  private static void count(int[] dofs, int[] counts, int by) {
    for (int dof : dofs) {
      counts[dof] += by;
    }
  }

  private int widest(Integer[] part) {
    int best = 0;
    double most = -1;
    for (int axis = 0; axis < centres.get(part[0]).length; axis++) {
      double low = Double.POSITIVE_INFINITY;
      double high = Double.NEGATIVE_INFINITY;
      for (int e : part) {
        low = Math.min(low, centres.get(e)[axis]);
        high = Math.max(high, centres.get(e)[axis]);
      }
      if (high - low > most) {
        most = high - low;
        best = axis;
      }
    }
    return best;
  }
}
