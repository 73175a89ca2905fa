package cutaway.acoustics.cabinet;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * A room of flat walls all of which are seen from one place inside.
 *
 * <p>Each triangle of a wall makes a tetrahedron with that place, and each tetrahedron four
 * hexahedra that meet at its middle; so all meet face to face.
 *
 * @param triangles of all walls, corners anticlockwise seen from outside
 * @param seenFrom the place
 */
public record Polyhedron(List<List<Point>> triangles, Point seenFrom) implements BoxShape {
  private static final int STEPS = 400;

  /** The nearest wall is at least this share of the room's size away. */
  private static final double NEAREST = 0.02;

  /** Copies its list. */
  public Polyhedron {
    triangles = List.copyOf(triangles);
  }

  /** The room of a box; absent where no place sees all its walls. */
  static Optional<Polyhedron> of(Enclosure box) {
    List<Plane> planes = box.walls().stream().map(box::plane).toList();
    double size = Math.cbrt(box.volume());
    Point place = inmost(box, planes, size);
    if (planes.stream().anyMatch(plane -> -plane.local(place).z() < NEAREST * size)) {
      return Optional.empty();
    }
    List<List<Point>> triangles = new ArrayList<>();
    for (Enclosure.Facet wall : box.walls()) {
      Plane plane = box.plane(wall);
      List<Point> flat =
          wall.corners().stream().map(i -> plane.local(box.corners().get(i))).toList();
      Outline outline = new Outline(flat);
      for (List<Point> triangle : outline.triangles()) {
        // the corners themselves, so that walls that share one meet there to the last digit
        triangles.add(
            triangle.stream()
                .map(p -> box.corners().get(wall.corners().get(outline.corners().indexOf(p))))
                .toList());
      }
    }
    return Optional.of(new Polyhedron(triangles, place));
  }

  /** Steps away from the nearest wall, ever less far. */
  private static Point inmost(Enclosure box, List<Plane> planes, double size) {
    Point place = new Point(0, 0, 0);
    for (Point corner : box.corners()) {
      place = place.plus(corner.times(1.0 / box.corners().size()));
    }
    for (int step = 0; step < STEPS; step++) {
      Plane nearest = planes.get(0);
      for (Plane plane : planes) {
        nearest = plane.local(place).z() > nearest.local(place).z() ? plane : nearest;
      }
      place = place.minus(nearest.normal().times(0.25 * size / (1 + 0.2 * step)));
    }
    return place;
  }

  @Override
  public double volume() {
    double sum = 0;
    for (List<Point> t : triangles) {
      Point a = t.get(0).minus(seenFrom);
      sum += a.dot(t.get(1).minus(seenFrom).cross(t.get(2).minus(seenFrom))) / 6;
    }
    return sum;
  }

  /** Four for each triangle. */
  List<Hexahedron> cells() {
    List<Hexahedron> out = new ArrayList<>();
    for (List<Point> t : triangles) {
      Point a = t.get(0);
      Point b = t.get(1);
      Point c = t.get(2);
      out.add(corner(seenFrom, a, b, c));
      out.add(corner(a, seenFrom, c, b));
      out.add(corner(b, c, seenFrom, a));
      out.add(corner(c, b, a, seenFrom));
    }
    return List.copyOf(out);
  }

  /** The part of a tetrahedron about its corner p; q, r and s turn anticlockwise seen from it. */
  private static Hexahedron corner(Point p, Point q, Point r, Point s) {
    return new Hexahedron(
        List.of(
            p,
            middle(p, q),
            middle(p, q, r),
            middle(p, r),
            middle(p, s),
            middle(p, q, s),
            middle(p, q, r, s),
            middle(p, r, s)));
  }

  private static Point middle(Point... points) {
    Point sum = new Point(0, 0, 0);
    for (Point p : points) {
      sum = sum.plus(p);
    }
    return sum.times(1.0 / points.length);
  }
}
