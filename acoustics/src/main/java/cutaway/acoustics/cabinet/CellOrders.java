package cutaway.acoustics.cabinet;

import cutaway.acoustics.modes.Lobatto;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * How high the polynomials of each cell of a panel are along each of its sides. A side that is
 * short beside the wavelength needs less than a long one; sides that face each other in a cell, or
 * that two cells share, have the same, so that cells meet node on node.
 */
final class CellOrders {
  /** Numbers of the four sides of each cell. */
  private final List<int[]> sides = new ArrayList<>();

  /** Of each side another that has the same order; itself at the end of the line. */
  private final List<Integer> same = new ArrayList<>();

  private final List<Double> lengths = new ArrayList<>();

  private CellOrders(List<PanelCell> cells, double grain) {
    PlaceIndex corners = new PlaceIndex(grain);
    Map<List<Integer>, Integer> numbers = new HashMap<>();
    for (PanelCell cell : cells) {
      int[] its = new int[4];
      for (int side = 0; side < 4; side++) {
        Point from = cell.corners().get(side);
        Point to = cell.corners().get((side + 1) % 4);
        int a = corners.at(from);
        int b = corners.at(to);
        int next = numbers.size();
        its[side] = numbers.computeIfAbsent(List.of(Math.min(a, b), Math.max(a, b)), ends -> next);
        if (its[side] == next) {
          same.add(next);
          lengths.add(from.minus(to).length());
        }
      }
      sides.add(its);
      join(its[0], its[2]);
      join(its[1], its[3]);
    }
  }

  /**
   * Order along a side: shares of the order that leave the error as it is (docs/methods/panel.md).
   *
   * @param share its length over that of the longest cell
   * @param order of the longest
   */
  static int of(double share, int order) {
    int fifths = share < 0.1 ? 2 : share < 0.25 ? 3 : share < 0.4 ? 4 : 5;
    return Math.max(Math.min(2, order), (order * fifths + 4) / 5);
  }

  /**
   * An element for each cell.
   *
   * @param longest no cell is much longer, m
   * @param order along the longest
   * @param grain corners nearer than this are one, m
   */
  static List<PlateElement> elements(
      List<PanelCell> cells, double longest, int order, double grain, boolean stretches) {
    CellOrders orders = new CellOrders(cells, grain);
    Map<List<Integer>, PlateElement> made = new HashMap<>();
    List<PlateElement> out = new ArrayList<>();
    for (int[] its : orders.sides) {
      int across = of(orders.length(its[0]) / longest, order);
      int along = of(orders.length(its[1]) / longest, order);
      out.add(
          made.computeIfAbsent(
              List.of(across, along),
              both -> new PlateElement(Lobatto.of(across), Lobatto.of(along), stretches)));
    }
    return out;
  }

  /** Of the longest side that has the same order. */
  private double length(int side) {
    return lengths.get(last(side));
  }

  private int last(int side) {
    int at = side;
    while (same.get(at) != at) {
      at = same.get(at);
    }
    return at;
  }

  private void join(int a, int b) {
    int from = last(a);
    int to = last(b);
    same.set(from, to);
    lengths.set(to, Math.max(lengths.get(from), lengths.get(to)));
  }
}
