package cutaway.acoustics.cabinet;

import java.util.List;

/**
 * A plane in space with axes of its own.
 *
 * @param origin of its axes
 * @param along unit vector of its x axis
 * @param across unit vector of its y axis, at right angles to the first
 */
public record Plane(Point origin, Point along, Point across) {
  /**
   * Through the corners of a flat figure, the first its origin and the x axis along the first side.
   *
   * @throws ImpossibleShapeException where the corners do not lie in one plane
   */
  public static Plane through(List<Point> corners) {
    Point origin = corners.get(0);
    Point normal = new Point(0, 0, 0);
    double size = 0;
    for (int i = 1; i + 1 < corners.size(); i++) {
      Point a = corners.get(i).minus(origin);
      normal = normal.plus(a.cross(corners.get(i + 1).minus(origin)));
      size = Math.max(size, a.length());
    }
    if (!(normal.length() > 1e-9 * size * size)) {
      throw new ImpossibleShapeException(
          "the corners of a wall lie on one line or go round crosswise");
    }
    Point unit = normal.unit();
    Point along = corners.get(1).minus(origin).unit();
    Plane plane = new Plane(origin, along, unit.cross(along));
    for (Point corner : corners) {
      if (Math.abs(plane.local(corner).z()) > 1e-6 * size) {
        throw new ImpossibleShapeException("the corners of a wall do not lie in one plane");
      }
    }
    return plane;
  }

  /** Unit vector on which the corners of {@link #through} turn anticlockwise. */
  public Point normal() {
    return along.cross(across);
  }

  /** A point in the plane's axes; z is the height above it. */
  public Point local(Point p) {
    Point off = p.minus(origin);
    return new Point(off.dot(along), off.dot(across), off.dot(normal()));
  }

  /** Where a point given in the plane's axes lies. */
  public Point space(Point p) {
    return origin.plus(along.times(p.x())).plus(across.times(p.y())).plus(normal().times(p.z()));
  }
}
