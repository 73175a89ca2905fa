package cutaway.acoustics.cabinet;

import java.util.List;

/**
 * A batten glued upright on a panel's inner face along a straight line.
 *
 * @param from where its middle line begins, in the panel's plane
 * @param to where it ends
 * @param width along the panel, m
 * @param depth away from the panel, m
 * @param young Young's modulus along it, Pa
 * @param shear shear modulus, Pa
 * @param density kg/m³
 */
public record Brace(
    Point from, Point to, double width, double depth, double young, double shear, double density) {
  /** Itself as a wall on the inner face of another; held where its end lies on a clamped edge. */
  Wall standingOn(Wall host) {
    Panel panel = host.panel();
    if (!panel.outline().covers(from, 1e-9) || !panel.outline().covers(to, 1e-9)) {
      throw new ImpossibleShapeException("the brace reaches over the panel's edge");
    }
    Point normal = host.plane().normal();
    double half = panel.board().thickness() / 2;
    Point start = host.plane().space(from).minus(normal.times(half));
    Point end = host.plane().space(to).minus(normal.times(half));
    Point inwards = normal.times(-depth);
    List<Point> corners = List.of(start, end, end.plus(inwards), start.plus(inwards));
    Plane plane = Plane.through(corners);
    List<Support> supports =
        List.of(new Support.Free(), held(panel, to), new Support.Free(), held(panel, from));
    return new Wall(
        "brace on " + host.name(),
        plane,
        new Panel(
            new Outline(corners.stream().map(plane::local).toList()),
            Board.isotropic(width, density, young, young / (2 * shear) - 1),
            supports,
            List.of(),
            List.of(),
            List.of()));
  }

  private static Support held(Panel panel, Point end) {
    return Hold.at(panel, end, 1e-9).clamped() ? new Support.Clamped() : new Support.Free();
  }

  /** Unit vector across it in the panel's plane. */
  private Point across() {
    Point along = to.minus(from).unit();
    return new Point(-along.y(), along.x(), 0);
  }

  /** The four corners of its foot. */
  List<Point> foot() {
    Point half = across().times(width / 2);
    return List.of(from.plus(half), from.minus(half), to.plus(half), to.minus(half));
  }

  /** Whether a point lies on its foot, or beside it by less than a quarter of its width. */
  boolean covers(Point p) {
    Point along = to.minus(from);
    double length = along.length();
    double at = p.minus(from).dot(along.unit());
    double off = Math.abs(p.minus(from).dot(across()));
    double beside = width / 4;
    return off < width / 2 + beside && at > -beside && at < length + beside;
  }

  /**
   * Stiffens a panel's bending across the brace, where its foot is glued on: stress spreads into
   * the brace at 45° from the foot's edges, so that half the brace's width counts as more panel
   * (common practice, no source).
   *
   * @param plate stiffness, row-major; its first three rows and columns are bending
   * @param size its rows
   */
  double[] stiffened(double[] plate, int size, Board board) {
    Point n = across();
    double[] pure = {n.x() * n.x(), n.y() * n.y(), 2 * n.x() * n.y()};
    double[] taken = {n.x() * n.x(), n.y() * n.y(), n.x() * n.y()};
    double here = 0;
    for (int r = 0; r < 3; r++) {
      for (int c = 0; c < 3; c++) {
        here += pure[r] * plate[size * r + c] * pure[c];
      }
    }
    double thicker = 1 + Math.min(width / 2, depth) / board.thickness();
    double more = here * (thicker * thicker * thicker - 1);
    double[] out = plate.clone();
    for (int r = 0; r < 3; r++) {
      for (int c = 0; c < 3; c++) {
        out[size * r + c] += more * taken[r] * taken[c];
      }
    }
    return out;
  }
}
