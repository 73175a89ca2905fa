package cutaway.acoustics.cabinet;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;

/**
 * A closed box of flat walls: corners, and the walls between them.
 *
 * @param corners in space
 * @param walls the walls
 */
public record Enclosure(List<Point> corners, List<Facet> walls) {
  /**
   * A wall by its corners.
   *
   * @param name what it is called
   * @param corners numbers of its corners, anticlockwise seen from outside
   */
  public record Facet(String name, List<Integer> corners) {
    /** Copies its list. */
    public Facet {
      corners = List.copyOf(corners);
    }
  }

  private static final List<Facet> SIX =
      List.of(
          new Facet("front", List.of(0, 1, 5, 4)),
          new Facet("right", List.of(1, 2, 6, 5)),
          new Facet("back", List.of(2, 3, 7, 6)),
          new Facet("left", List.of(3, 0, 4, 7)),
          new Facet("bottom", List.of(3, 2, 1, 0)),
          new Facet("top", List.of(4, 5, 6, 7)));

  /** Copies its lists; refuses walls that are not flat. */
  public Enclosure {
    corners = List.copyOf(corners);
    walls = List.copyOf(walls);
    for (Facet wall : walls) {
      List<Point> its = wall.corners().stream().map(corners::get).toList();
      try {
        Plane plane = Plane.through(its);
        Outline unused = new Outline(its.stream().map(plane::local).toList());
        if (!(unused.area() > 0)) {
          throw new ImpossibleShapeException("it has no area");
        }
      } catch (ImpossibleShapeException e) {
        throw new ImpossibleShapeException("the " + wall.name() + " wall: " + e.getMessage());
      }
    }
    refuseGaps(walls);
    if (!(volume(corners, walls) > 0)) {
      throw new ImpossibleShapeException(
          "the walls do not close round a room, or its corners go round the wrong way");
    }
  }

  /** Every edge of a wall is another wall's, run through the other way. */
  private static void refuseGaps(List<Facet> walls) {
    Map<List<Integer>, String> edges = new HashMap<>();
    for (Facet wall : walls) {
      int n = wall.corners().size();
      for (int i = 0; i < n; i++) {
        List<Integer> edge = List.of(wall.corners().get(i), wall.corners().get((i + 1) % n));
        if (edges.put(edge, wall.name()) != null) {
          throw new ImpossibleShapeException(
              "the walls do not close: two walls lie at the same side of an edge of the "
                  + wall.name());
        }
      }
    }
    edges.forEach(
        (edge, wall) -> {
          if (!edges.containsKey(List.of(edge.get(1), edge.get(0)))) {
            throw new ImpossibleShapeException(
                "the walls do not close: no other wall meets the " + wall + " at one of its edges");
          }
        });
  }

  /** Whether the second half of its corners stands above the first, one above the other. */
  public boolean standing() {
    return walls.equals(SIX) || isPrism();
  }

  private boolean isPrism() {
    int n = corners.size() / 2;
    return corners.size() == 2 * n
        && walls.size() == n + 2
        && walls.get(n).name().equals("bottom")
        && corners.subList(0, n).stream().allMatch(p -> p.z() == corners.get(0).z());
  }

  /**
   * Of eight corners: the four at the bottom from the left front one by right front, right back and
   * left back, then the four above them.
   */
  public static Enclosure ofEight(List<Point> corners) {
    if (corners.size() != 8) {
      throw new ImpossibleShapeException("the box has " + corners.size() + " corners, not eight");
    }
    return new Enclosure(corners, SIX);
  }

  /** A plain box with its left front bottom corner at the origin. */
  public static Enclosure rectangular(double width, double depth, double height) {
    return tapered(new double[] {width, height}, depth, new double[] {0, width, 0, height});
  }

  /**
   * A box whose back differs from its front.
   *
   * @param front width and height
   * @param depth front to back
   * @param back left, right, bottom and top of the back
   */
  public static Enclosure tapered(double[] front, double depth, double[] back) {
    return ofEight(
        List.of(
            new Point(0, 0, 0),
            new Point(front[0], 0, 0),
            new Point(back[1], depth, back[2]),
            new Point(back[0], depth, back[2]),
            new Point(0, 0, front[1]),
            new Point(front[0], 0, front[1]),
            new Point(back[1], depth, back[3]),
            new Point(back[0], depth, back[3])));
  }

  /** An outline seen from above, pulled up; its sides are named side-1 and so on. */
  public static Enclosure prism(Outline outline, List<Point> asGiven, double height) {
    List<Point> low = outline.corners();
    int n = low.size();
    List<Point> corners = new ArrayList<>(low);
    low.forEach(p -> corners.add(new Point(p.x(), p.y(), height)));
    List<Facet> walls = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      int next = (i + 1) % n;
      walls.add(
          new Facet(
              "side-" + side(asGiven, low.get(i), low.get(next)),
              List.of(i, next, n + next, n + i)));
    }
    List<Integer> bottom = new ArrayList<>();
    List<Integer> top = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      bottom.add(n - 1 - i);
      top.add(n + i);
    }
    walls.add(new Facet("bottom", bottom));
    walls.add(new Facet("top", top));
    return new Enclosure(corners, walls);
  }

  /** Number of the side between two corners in the order they were given in, either way. */
  private static int side(List<Point> given, Point a, Point b) {
    for (int i = 0; i < given.size(); i++) {
      Point from = flat(given.get(i));
      Point to = flat(given.get((i + 1) % given.size()));
      if ((from.equals(a) && to.equals(b)) || (from.equals(b) && to.equals(a))) {
        return i + 1;
      }
    }
    throw new IllegalArgumentException("no such side");
  }

  private static Point flat(Point p) {
    return new Point(p.x(), p.y(), 0);
  }

  /** Plane of a wall, its normal outwards. */
  public Plane plane(Facet wall) {
    return Plane.through(wall.corners().stream().map(corners::get).toList());
  }

  /** Volume, m³. */
  public double volume() {
    return volume(corners, walls);
  }

  private static double volume(List<Point> corners, List<Facet> walls) {
    double sum = 0;
    for (Facet wall : walls) {
      Point a = corners.get(wall.corners().get(0));
      for (int i = 1; i + 1 < wall.corners().size(); i++) {
        Point b = corners.get(wall.corners().get(i));
        Point c = corners.get(wall.corners().get(i + 1));
        sum += a.dot(b.cross(c)) / 6;
      }
    }
    return sum;
  }

  /** Area of a wall, m². */
  public double area(Facet wall) {
    Plane plane = plane(wall);
    return new Outline(wall.corners().stream().map(i -> plane.local(corners.get(i))).toList())
        .area();
  }

  /**
   * The same box with each wall moved outwards.
   *
   * @param by how far each, m, in the order of the walls
   */
  public Enclosure grown(double[] by) {
    List<Point> out = new ArrayList<>();
    for (int corner = 0; corner < corners.size(); corner++) {
      out.add(moved(corner, by));
    }
    return new Enclosure(out, walls);
  }

  /**
   * Where the moved planes of a corner's walls meet: least squares where they are more than three.
   */
  private Point moved(int corner, double[] by) {
    double[][] a = new double[3][3];
    double[] b = new double[3];
    for (int wall = 0; wall < walls.size(); wall++) {
      if (walls.get(wall).corners().contains(corner)) {
        Point normal = plane(walls.get(wall)).normal();
        double[] n = {normal.x(), normal.y(), normal.z()};
        for (int r = 0; r < 3; r++) {
          for (int c = 0; c < 3; c++) {
            a[r][c] += n[r] * n[c];
          }
          b[r] += n[r] * by[wall];
        }
      }
    }
    double det = det(a);
    if (!(det > 1e-6)) {
      String meeting =
          walls.stream()
              .filter(w -> w.corners().contains(corner))
              .map(Facet::name)
              .collect(Collectors.joining(", "));
      throw new ImpossibleShapeException(
          "two of the walls " + meeting + " go on straight into each other where they meet");
    }
    double[] x = new double[3];
    for (int c = 0; c < 3; c++) {
      double[][] with = {a[0].clone(), a[1].clone(), a[2].clone()};
      for (int r = 0; r < 3; r++) {
        with[r][c] = b[r];
      }
      x[c] = det(with) / det;
    }
    return corners.get(corner).plus(new Point(x[0], x[1], x[2]));
  }

  private static double det(double[][] m) {
    return m[0][0] * (m[1][1] * m[2][2] - m[1][2] * m[2][1])
        - m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0])
        + m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0]);
  }

  /**
   * The room inside as a shape whose standing waves can be computed; absent where no place in it
   * sees all walls of a free list.
   */
  public Optional<BoxShape> room() {
    if (walls.equals(SIX)) {
      return Optional.of(new EightCorners(new Hexahedron(corners)));
    }
    int n = corners.size() / 2;
    if (isPrism()) {
      return Optional.of(
          new Prism(new Outline(corners.subList(0, n)), corners.get(0).z(), corners.get(n).z()));
    }
    Optional<BoxShape> six = sixSided();
    return six.isPresent() ? six : Polyhedron.of(this).map(p -> p);
  }

  /** The room as one hexahedron, where its walls are six with four corners each. */
  private Optional<BoxShape> sixSided() {
    boolean four = walls.stream().allMatch(w -> w.corners().size() == 4);
    if (corners.size() != 8 || walls.size() != 6 || !four) {
      return Optional.empty();
    }
    // the first wall seen from inside as the bottom
    List<Integer> bottom = new ArrayList<>(walls.get(0).corners());
    Collections.reverse(bottom);
    List<Point> out = new ArrayList<>(bottom.stream().map(corners::get).toList());
    for (int corner : bottom) {
      List<Integer> others = neighbours(corner).stream().filter(n -> !bottom.contains(n)).toList();
      if (others.size() != 1) {
        return Optional.empty();
      }
      out.add(corners.get(others.get(0)));
    }
    return out.stream().distinct().count() == 8
        ? Optional.of(new EightCorners(new Hexahedron(out)))
        : Optional.empty();
  }

  private Set<Integer> neighbours(int corner) {
    Set<Integer> out = new TreeSet<>();
    for (Facet wall : walls) {
      int at = wall.corners().indexOf(corner);
      int n = wall.corners().size();
      if (at >= 0) {
        out.add(wall.corners().get((at + 1) % n));
        out.add(wall.corners().get((at + n - 1) % n));
      }
    }
    return out;
  }
}
