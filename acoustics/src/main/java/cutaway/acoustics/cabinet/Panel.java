package cutaway.acoustics.cabinet;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * A flat wall in its own plane, x and y along it.
 *
 * @param outline its edges
 * @param board what it is made of
 * @param supports how each edge is held, the first from corner 0 to corner 1 of the outline
 * @param masses what is fixed to it
 * @param hole the cut-out in a panel of four corners, where there is one
 * @param braces battens glued to it, all on one face
 */
public record Panel(
    Outline outline,
    Board board,
    List<Support> supports,
    List<AddedMass> masses,
    Optional<Hole> hole,
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
    hole.ifPresent(h -> refuseOutside(outline, h));
  }

  private static void refuseOutside(Outline outline, Hole hole) {
    if (outline.corners().size() != 4) {
      throw new ImpossibleShapeException("a cut-out is computed in panels of four corners only");
    }
    if (!(gap(outline, hole) > 0)) {
      throw new ImpossibleShapeException("the cut-out reaches over the panel's edge");
    }
  }

  /** From a hole's rim to the nearest edge, m; below zero where it reaches over. */
  static double gap(Outline outline, Hole hole) {
    double least = Double.POSITIVE_INFINITY;
    List<Point> p = outline.corners();
    for (int i = 0; i < p.size(); i++) {
      Point along = p.get((i + 1) % p.size()).minus(p.get(i)).unit();
      least = Math.min(least, along.cross(hole.centre().minus(p.get(i))).z() - hole.radius());
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
      Optional<Hole> hole,
      List<Brace> braces) {
    Outline outline = new Outline(corners);
    boolean kept = outline.corners().get(0).minus(corners.get(0)).length() == 0;
    if (kept || supports.size() != corners.size()) {
      return new Panel(outline, board, supports, masses, hole, braces);
    }
    int n = corners.size();
    List<Support> turned = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      turned.add(supports.get((2 * n - 2 - i) % n));
    }
    return new Panel(outline, board, turned, masses, hole, braces);
  }
}
