package cutaway.acoustics.cabinet;

import java.util.ArrayList;
import java.util.List;

/**
 * A flat wall in its own plane, x and y along it.
 *
 * @param outline its edges
 * @param board what it is made of
 * @param supports how each edge is held, the first from corner 0 to corner 1 of the outline
 * @param masses what is fixed to it
 * @param cutOuts its openings
 * @param braces battens glued to it, all on one face
 */
public record Panel(
    Outline outline,
    Board board,
    List<Support> supports,
    List<AddedMass> masses,
    List<CutOut> cutOuts,
    List<Brace> braces) {
  /** Refuses edges without a support. */
  public Panel {
    if (supports.size() != outline.corners().size()) {
      throw new IllegalArgumentException(
          supports.size() + " supports for " + outline.corners().size() + " edges");
    }
    supports = List.copyOf(supports);
    masses = List.copyOf(masses);
    braces = List.copyOf(braces);
    cutOuts = List.copyOf(cutOuts);
    cutOuts.forEach(c -> refuseOutside(outline, c));
  }

  private static void refuseOutside(Outline outline, CutOut cutOut) {
    if (!cutOut.within(outline)) {
      throw new ImpossibleShapeException("a cut-out reaches over the panel's edge");
    }
  }

  /**
   * Itself, where it can be cut into cells about its openings and under its braces.
   *
   * @throws ImpossibleShapeException where openings lie too close to each other or to an edge, or a
   *     brace stands over one
   */
  public Panel checked() {
    double size = outline.corners().get(0).minus(outline.corners().get(2)).length();
    List<Edge> feet = braces.stream().map(b -> new Edge(b.from(), b.to())).toList();
    PanelCells.of(this, feet, size);
    return this;
  }

  /** Whether a window is among its openings. */
  boolean hasWindow() {
    return cutOuts.stream().anyMatch(Window.class::isInstance);
  }

  /** From a point to the nearest of the sides of a convex figure; below zero outside. */
  static double gap(List<Point> corners, Point p) {
    double least = Double.POSITIVE_INFINITY;
    for (int i = 0; i < corners.size(); i++) {
      Point from = corners.get(i);
      Point along = corners.get((i + 1) % corners.size()).minus(from).unit();
      least = Math.min(least, along.cross(p.minus(from)).z());
    }
    return least;
  }

  /**
   * Takes the corners either way round.
   *
   * @param corners in order
   * @param supports of the edges, the first from the first corner to the second
   */
  public static Panel of(
      List<Point> corners,
      Board board,
      List<Support> supports,
      List<AddedMass> masses,
      List<CutOut> cutOuts,
      List<Brace> braces) {
    Outline outline = new Outline(corners);
    boolean kept = outline.corners().get(0).minus(corners.get(0)).length() == 0;
    if (kept || supports.size() != corners.size()) {
      return new Panel(outline, board, supports, masses, cutOuts, braces);
    }
    int n = corners.size();
    List<Support> turned = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      turned.add(supports.get((2 * n - 2 - i) % n));
    }
    return new Panel(outline, board, turned, masses, cutOuts, braces);
  }
}
