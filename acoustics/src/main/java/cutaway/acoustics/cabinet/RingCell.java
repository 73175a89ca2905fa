package cutaway.acoustics.cabinet;

import java.util.List;

/**
 * A piece of the flange about a hole.
 *
 * @param hole whose
 * @param angle where it begins, rad
 * @param turn how far it goes round, rad
 */
record RingCell(Hole hole, double angle, double turn) implements PanelCell {
  private double radius(double eta) {
    return hole.ring() + (hole.radius() - hole.ring()) * (1 + eta) / 2;
  }

  private Point outwards(double xi) {
    double at = angle + turn * (1 + xi) / 2;
    return new Point(Math.cos(at), Math.sin(at), 0);
  }

  @Override
  public Point at(double xi, double eta) {
    return hole.centre().plus(outwards(xi).times(radius(eta)));
  }

  @Override
  public double[] slopes(double xi, double eta) {
    Point out = outwards(xi);
    double round = radius(eta) * turn / 2;
    double inwards = (hole.radius() - hole.ring()) / 2;
    return new double[] {-out.y() * round, out.x() * round, out.x() * inwards, out.y() * inwards};
  }

  @Override
  public List<Point> corners() {
    return List.of(at(-1, -1), at(1, -1), at(1, 1), at(-1, 1));
  }
}
