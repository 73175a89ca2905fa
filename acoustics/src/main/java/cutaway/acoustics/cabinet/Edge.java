package cutaway.acoustics.cabinet;

import java.util.ArrayList;
import java.util.List;

/**
 * A straight edge, in space or in a panel's plane.
 *
 * @param from where it begins
 * @param to where it ends
 */
record Edge(Point from, Point to) {
  /** The edges of a wall, in space. */
  static List<Edge> of(Wall wall) {
    return round(wall.corners());
  }

  /** The edges between corners in order, the last back to the first. */
  static List<Edge> round(List<Point> corners) {
    List<Edge> out = new ArrayList<>();
    for (int i = 0; i < corners.size(); i++) {
      out.add(new Edge(corners.get(i), corners.get((i + 1) % corners.size())));
    }
    return out;
  }

  /** Unit vector along it. */
  Point along() {
    return to.minus(from).unit();
  }

  /** Whether another is this one, either way round. */
  boolean same(Edge other, double grain) {
    boolean alike = near(from, other.from, grain) && near(to, other.to, grain);
    return alike || (near(from, other.to, grain) && near(to, other.from, grain));
  }

  private static boolean near(Point a, Point b, double grain) {
    return a.minus(b).length() < grain;
  }

  /** Whether a point lies on it. */
  boolean covers(Point p, double grain) {
    double at = p.minus(from).dot(along());
    return onLine(p, grain) && at > -grain && at < to.minus(from).length() + grain;
  }

  /** Distance of a point from it, seen along z, m. */
  double distance(Point p) {
    Point way = new Point(to.x() - from.x(), to.y() - from.y(), 0);
    Point off = new Point(p.x() - from.x(), p.y() - from.y(), 0);
    double at = Math.max(0, Math.min(1, off.dot(way) / way.dot(way)));
    return off.minus(way.times(at)).length();
  }

  /** Whether a point lies on the line through it. */
  boolean onLine(Point p, double grain) {
    return along().cross(p.minus(from)).length() < grain;
  }
}
