package cutaway.acoustics.modes;

import java.util.Arrays;
import java.util.Comparator;
import java.util.List;

/**
 * An order of unknowns that keeps a Cholesky factor sparse: nested dissection of the elements by
 * where they lie (A. George, SIAM J. Numer. Anal. 10 (1973), from memory).
 */
final class EliminationOrder {
  private static final int UNRANKED = -1;

  private final List<int[]> elements;
  private final List<double[]> centres;
  private final int[] rank;

  /** How many elements hold each unknown. */
  private final int[] uses;

  /** How many of the elements looked at do; zero between looks. */
  private final int[] seen;

  private int next;

  private EliminationOrder(int size, List<int[]> elements, List<double[]> centres) {
    this.elements = elements;
    this.centres = centres;
    this.rank = new int[size];
    this.uses = new int[size];
    this.seen = new int[size];
    Arrays.fill(rank, UNRANKED);
    elements.forEach(e -> count(e, uses, 1));
  }

  /**
   * Ranks the unknowns.
   *
   * @param size number of unknowns, each in at least one element
   * @param elements unknowns of each element, without repeats
   * @param centres where each element lies
   * @return the rank of each unknown
   */
  static int[] of(int size, List<int[]> elements, List<double[]> centres) {
    EliminationOrder order = new EliminationOrder(size, elements, centres);
    Integer[] all = new Integer[elements.size()];
    Arrays.setAll(all, i -> i);
    order.dissect(all);
    return order.rank;
  }

  /** Ranks what the given elements hold and none besides them does. */
  private void dissect(Integer[] part) {
    if (part.length > 1) {
      int axis = widest(part);
      Integer[] sorted = part.clone();
      Arrays.sort(sorted, Comparator.comparingDouble(e -> centres.get(e)[axis]));
      dissect(Arrays.copyOfRange(sorted, 0, sorted.length / 2));
      dissect(Arrays.copyOfRange(sorted, sorted.length / 2, sorted.length));
    }
    for (int e : part) {
      count(elements.get(e), seen, 1);
    }
    for (int e : part) {
      for (int dof : elements.get(e)) {
        if (seen[dof] == uses[dof] && rank[dof] == UNRANKED) {
          rank[dof] = next++;
        }
      }
    }
    for (int e : part) {
      count(elements.get(e), seen, -1);
    }
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
