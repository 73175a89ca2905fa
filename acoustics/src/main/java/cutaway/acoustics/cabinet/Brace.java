package cutaway.acoustics.cabinet;

import java.util.List;
import java.util.Optional;

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
  /**
   * Share of the width of an upright brace, of whose depth so much counts as a layer of the panel;
   * of one that lies flat twice as much. By solids: docs/methods/panel.md.
   */
  private static final double FOOT = 0.125;

  /** Width over depth up to which a brace is upright; from one more on it lies flat. */
  private static final double UPRIGHT = 1.5;

  /** What is left to stand on a foot must be deeper than this share of the width. */
  private static final double STANDS = 0.02;

  /** Depth of the part that is counted as a layer of the panel, m. */
  double footDepth(Panel panel) {
    double flat = Math.max(0, Math.min(1, width / depth - UPRIGHT));
    return PanelCells.isCutAlong(panel, this) ? Math.min(FOOT * (1 + flat) * width, depth) : 0;
  }

  /**
   * What stands on the foot, as a wall on the inner face of another; held where its end lies on a
   * clamped edge. Nothing of a flat one.
   */
  Optional<Wall> standingOn(Wall host) {
    Panel panel = host.panel();
    if (!panel.outline().covers(from, 1e-9) || !panel.outline().covers(to, 1e-9)) {
      throw new ImpossibleShapeException("the brace reaches over the panel's edge");
    }
    double foot = footDepth(panel);
    if (depth - foot < STANDS * width) {
      return Optional.empty();
    }
    Point normal = host.plane().normal();
    double off = panel.board().thickness() / 2 + foot;
    Point start = host.plane().space(from).minus(normal.times(off));
    Point end = host.plane().space(to).minus(normal.times(off));
    Point inwards = normal.times(foot - depth);
    List<Point> corners = List.of(start, end, end.plus(inwards), start.plus(inwards));
    Plane plane = Plane.through(corners);
    List<Support> supports =
        List.of(new Support.Free(), held(panel, to), new Support.Free(), held(panel, from));
    return Optional.of(
        new Wall(
            "brace on " + host.name(),
            plane,
            new Panel(
                new Outline(corners.stream().map(plane::local).toList()),
                board(width),
                supports,
                List.of(),
                List.of(),
                List.of())));
  }

  private Board board(double thickness) {
    return Board.isotropic(thickness, density, young, young / (2 * shear) - 1);
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

  /** Whether a point lies on its foot. */
  boolean covers(Point p) {
    return covers(p, 0);
  }

  /** Whether a point lies on its foot, or beside it by less than a quarter of its width. */
  boolean nearlyCovers(Point p) {
    return covers(p, width / 4);
  }

  private boolean covers(Point p, double beside) {
    Point along = to.minus(from);
    double length = along.length();
    double at = p.minus(from).dot(along.unit());
    double off = Math.abs(p.minus(from).dot(across()));
    return off < width / 2 + beside && at > -beside && at < length + beside;
  }

  /**
   * Adds the foot to a panel's stiffness, as a layer glued to its inner face: it bends, shears and
   * stretches with it, and bends where it is stretched, being off the middle plane.
   *
   * @param plate stiffness with stretch, 8 × 8, row-major; changed
   */
  void addFoot(double[] plate, Panel panel) {
    double foot = footDepth(panel);
    double[] layer = board(foot).stiffnessWithStretch();
    double z = -(panel.board().thickness() + foot) / 2;
    for (int i = 0; i < plate.length; i++) {
      plate[i] += layer[i];
    }
    for (int r = 0; r < 3; r++) {
      for (int c = 0; c < 3; c++) {
        double stretch = layer[8 * (5 + r) + 5 + c];
        plate[8 * r + c] += z * z * stretch;
        plate[8 * (5 + r) + c] += z * stretch;
        plate[8 * r + 5 + c] += z * stretch;
      }
    }
  }

  /** Mass of a square metre of foot, kg/m². */
  double footMass(Panel panel) {
    return density * footDepth(panel);
  }

  /** Its rotary inertia about the panel's middle plane, kg. */
  double footInertia(Panel panel) {
    double foot = footDepth(panel);
    double z = (panel.board().thickness() + foot) / 2;
    return density * foot * (foot * foot / 12 + z * z);
  }
}
