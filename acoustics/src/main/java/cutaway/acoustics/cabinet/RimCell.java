package cutaway.acoustics.cabinet;

import java.util.ArrayList;
import java.util.List;

/**
 * A piece of a panel between a straight side and an arc of a round hole's rim.
 *
 * @param hole the hole
 * @param from where the straight side begins, the hole on its left
 * @param to where it ends
 */
record RimCell(Hole hole, Point from, Point to) implements PanelCell {
  /** The four pieces between a hole and a quadrilateral about it. */
  static List<PanelCell> around(Hole hole, PanelCell frame) {
    List<PanelCell> out = new ArrayList<>();
    for (int i = 0; i < 4; i++) {
      out.add(new RimCell(hole, frame.corners().get(i), frame.corners().get((i + 1) % 4)));
    }
    return out;
  }

  private double angle(Point p) {
    return Math.atan2(p.y() - hole.centre().y(), p.x() - hole.centre().x());
  }

  private double turn() {
    double turn = angle(to) - angle(from);
    return turn < 0 ? turn + 2 * Math.PI : turn;
  }

  private Point rim(double share) {
    double angle = angle(from) + share * turn();
    return hole.centre().plus(new Point(Math.cos(angle), Math.sin(angle), 0).times(hole.radius()));
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
    Point radius = rim(share).minus(hole.centre());
    Point round = new Point(-radius.y(), radius.x(), 0).times(turn() / 2);
    Point along = straight.towards(round, inner);
    Point inwards = rim(share).minus(from.towards(to, share)).times(0.5);
    return new double[] {along.x(), along.y(), inwards.x(), inwards.y()};
  }

  @Override
  public List<Point> corners() {
    return List.of(from, to, rim(1), rim(0));
  }
}
