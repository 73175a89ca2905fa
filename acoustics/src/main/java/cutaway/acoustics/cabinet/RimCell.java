package cutaway.acoustics.cabinet;

import java.util.List;

/**
 * A piece of a panel between a straight side and an arc about a hole.
 *
 * @param centre of the arc
 * @param radius of the arc
 * @param from where the straight side begins, the hole on its left
 * @param to where it ends
 */
record RimCell(Point centre, double radius, Point from, Point to) implements PanelCell {
  private double angle(Point p) {
    return Math.atan2(p.y() - centre.y(), p.x() - centre.x());
  }

  private double turn() {
    double turn = angle(to) - angle(from);
    return turn < 0 ? turn + 2 * Math.PI : turn;
  }

  private Point rim(double share) {
    double angle = angle(from) + share * turn();
    return centre.plus(new Point(Math.cos(angle), Math.sin(angle), 0).times(radius));
  }

  /** Between a straight side and a hole's rim: one piece, and one of the flange if it has any. */
  static List<PanelCell> with(Hole hole, Point from, Point to) {
    RimCell cell = new RimCell(hole.centre(), hole.ring(), from, to);
    return hole.ring() > hole.radius() ? List.of(cell, cell.flange(hole)) : List.of(cell);
  }

  /** The piece of the flange inside it, down to the hole's rim. */
  private RingCell flange(Hole hole) {
    return new RingCell(hole, angle(from), turn());
  }

  @Override
  public Point at(double xi, double eta) {
    double share = (1 + xi) / 2;
    return from.towards(to, share).towards(rim(share), (1 + eta) / 2);
  }

  @Override
  public double[] slopes(double xi, double eta) {
    double share = (1 + xi) / 2;
    double inner = (1 + eta) / 2;
    Point straight = to.minus(from).times(0.5);
    Point out = rim(share).minus(centre);
    Point round = new Point(-out.y(), out.x(), 0).times(turn() / 2);
    Point along = straight.towards(round, inner);
    Point inwards = rim(share).minus(from.towards(to, share)).times(0.5);
    return new double[] {along.x(), along.y(), inwards.x(), inwards.y()};
  }

  @Override
  public List<Point> corners() {
    return List.of(from, to, rim(1), rim(0));
  }
}
