package cutaway.acoustics.cabinet;

import java.util.ArrayList;
import java.util.List;

/**
 * A simple polygon in the plane z = 0, and its quadrilaterals.
 *
 * <p>Ears are cut off one after the other; triangles that make a convex quadrilateral with a
 * neighbour are joined, the best pairs first; where one is left over, every piece is parted at its
 * middle, so that all become quadrilaterals that meet edge to edge.
 */
public final class Outline {
  /** How far elements shrink from one layer to the next towards a corner that points inwards. */
  private static final double GRADING = 0.15;

  private static final int LAYERS = 2;

  private final List<Point> corners;

  /**
   * Takes the corners in order, either way round.
   *
   * @param corners at least three; z is not looked at
   * @throws ImpossibleShapeException where edges cross or corners coincide
   */
  public Outline(List<Point> corners) {
    List<Point> flat = new ArrayList<>();
    corners.forEach(p -> flat.add(new Point(p.x(), p.y(), 0)));
    if (flat.size() < 3) {
      throw new ImpossibleShapeException("an outline needs three corners");
    }
    refuseCrossings(flat);
    if (area(flat) < 0) {
      java.util.Collections.reverse(flat);
    }
    this.corners = List.copyOf(flat);
  }

  private static void refuseCrossings(List<Point> p) {
    int n = p.size();
    for (int i = 0; i < n; i++) {
      if (p.get(i).minus(p.get((i + 1) % n)).length() == 0) {
        throw new ImpossibleShapeException(
            "corners " + (i + 1) + " and " + ((i + 1) % n + 1) + " coincide");
      }
    }
    for (int i = 0; i < n; i++) {
      Point a = p.get(i);
      Point b = p.get((i + 1) % n);
      for (int k = i + 1; k < n; k++) {
        boolean neighbours = k == i + 1 || (k + 1) % n == i;
        if (!neighbours && cross(a, b, p.get(k), p.get((k + 1) % n))) {
          throw new ImpossibleShapeException(
              "the edges after corner " + (i + 1) + " and after corner " + (k + 1) + " cross");
        }
      }
    }
  }

  private static boolean cross(Point a, Point b, Point c, Point d) {
    return turn(a, b, c) * turn(a, b, d) <= 0
        && turn(c, d, a) * turn(c, d, b) <= 0
        && (turn(a, b, c) != 0 || turn(a, b, d) != 0 || overlap(a, b, c, d));
  }

  private static boolean overlap(Point a, Point b, Point c, Point d) {
    Point along = b.minus(a);
    double from = c.minus(a).dot(along) / along.dot(along);
    double to = d.minus(a).dot(along) / along.dot(along);
    return Math.max(from, to) >= 0 && Math.min(from, to) <= 1;
  }

  /** Twice the area of a triangle, above zero anticlockwise. */
  private static double turn(Point a, Point b, Point c) {
    return b.minus(a).cross(c.minus(a)).z();
  }

  private static double area(List<Point> p) {
    double sum = 0;
    for (int i = 0; i < p.size(); i++) {
      sum += p.get(i).cross(p.get((i + 1) % p.size())).z() / 2;
    }
    return sum;
  }

  /** Corners, anticlockwise. */
  public List<Point> corners() {
    return corners;
  }

  /** Area, m². */
  public double area() {
    return area(corners);
  }

  /** Whether a point lies inside. */
  public boolean holds(Point p) {
    boolean in = false;
    for (int i = 0; i < corners.size(); i++) {
      Point a = corners.get(i);
      Point b = corners.get((i + 1) % corners.size());
      boolean between = (a.y() > p.y()) != (b.y() > p.y());
      if (between && p.x() < a.x() + (p.y() - a.y()) / (b.y() - a.y()) * (b.x() - a.x())) {
        in = !in;
      }
    }
    return in;
  }

  /** Whether a point lies inside or nearly on an edge. */
  boolean covers(Point p, double grain) {
    return holds(p) || room(p) < grain;
  }

  /** From a point to the nearest edge, m. */
  public double room(Point p) {
    return nearest(p).minus(new Point(p.x(), p.y(), 0)).length();
  }

  /** The place on an edge that is nearest to a point. */
  Point nearest(Point p) {
    Point flat = new Point(p.x(), p.y(), 0);
    Point best = corners.get(0);
    for (int i = 0; i < corners.size(); i++) {
      Point from = corners.get(i);
      Point along = corners.get((i + 1) % corners.size()).minus(from);
      double share = Math.max(0, Math.min(1, flat.minus(from).dot(along) / along.dot(along)));
      Point on = from.plus(along.times(share));
      best = on.minus(flat).length() < best.minus(flat).length() ? on : best;
    }
    return best;
  }

  /**
   * Four corners, anticlockwise.
   *
   * @param corners four
   */
  record Quad(List<Point> corners) implements PanelCell {
    /** Length of a side, the first between the first two corners, m. */
    double length(int side) {
      return corners.get((side + 1) % 4).minus(corners.get(side)).length();
    }

    @Override
    public Point at(double xi, double eta) {
      Point low = corners.get(0).towards(corners.get(1), (1 + xi) / 2);
      Point high = corners.get(3).towards(corners.get(2), (1 + xi) / 2);
      return low.towards(high, (1 + eta) / 2);
    }

    @Override
    public double[] slopes(double xi, double eta) {
      Point a = corners.get(1).minus(corners.get(0)).times((1 - eta) / 4);
      Point b = corners.get(2).minus(corners.get(3)).times((1 + eta) / 4);
      Point c = corners.get(3).minus(corners.get(0)).times((1 - xi) / 4);
      Point d = corners.get(2).minus(corners.get(1)).times((1 + xi) / 4);
      return new double[] {a.x() + b.x(), a.y() + b.y(), c.x() + d.x(), c.y() + d.y()};
    }

    /** The part between places of the square. */
    Quad part(double left, double right, double front, double back) {
      return new Quad(List.of(at(left, front), at(right, front), at(right, back), at(left, back)));
    }

    /** Parts of the same share of each side, so many across and along. */
    List<Quad> even(int across, int along) {
      List<Quad> out = new ArrayList<>();
      for (int b = 0; b < along; b++) {
        for (int a = 0; a < across; a++) {
          out.add(
              part(
                  2.0 * a / across - 1,
                  2.0 * (a + 1) / across - 1,
                  2.0 * b / along - 1,
                  2.0 * (b + 1) / along - 1));
        }
      }
      return out;
    }

    /** The sine of the sharpest corner; below zero where one points inwards. */
    double quality() {
      double worst = 1;
      for (int i = 0; i < 4; i++) {
        Point a = corners.get((i + 3) % 4);
        Point b = corners.get(i);
        Point c = corners.get((i + 1) % 4);
        double sides = b.minus(a).length() * c.minus(b).length();
        worst = Math.min(worst, turn(a, b, c) / sides);
      }
      return worst;
    }
  }

  /** Quadrilaterals that fill it edge to edge, the corners of each anticlockwise. */
  public List<List<Point>> parts() {
    return corners.size() == 4 ? List.of(corners) : quads().stream().map(Quad::corners).toList();
  }

  /** Quadrilaterals that shrink towards the corners that point inwards. */
  List<Quad> graded() {
    List<Point> inward = inward();
    List<Quad> quads = quads();
    if (quads.stream().anyMatch(q -> q.corners().stream().filter(inward::contains).count() > 1)) {
      quads = quads.stream().flatMap(q -> FourSided.quarters(q).stream()).toList();
    }
    List<Quad> out = new ArrayList<>();
    for (Quad quad : quads) {
      int at = -1;
      for (int i = 0; i < 4; i++) {
        at = inward.contains(quad.corners().get(i)) ? i : at;
      }
      if (at < 0) {
        out.add(quad);
      } else {
        shrink(turned(quad, at), LAYERS, out);
      }
    }
    return List.copyOf(out);
  }

  private List<Point> inward() {
    List<Point> out = new ArrayList<>();
    int n = corners.size();
    for (int i = 0; i < n; i++) {
      Point before = corners.get((i + n - 1) % n);
      Point here = corners.get(i);
      Point after = corners.get((i + 1) % n);
      double sides = here.minus(before).length() * after.minus(here).length();
      if (turn(before, here, after) < -1e-9 * sides) {
        out.add(here);
      }
    }
    return out;
  }

  private static Quad turned(Quad quad, int first) {
    List<Point> out = new ArrayList<>();
    for (int i = 0; i < 4; i++) {
      out.add(quad.corners().get((first + i) % 4));
    }
    return new Quad(out);
  }

  /** Splits off two quadrilaterals away from corner 0 for each layer. */
  private static void shrink(Quad quad, int layers, List<Quad> out) {
    if (layers == 0) {
      out.add(quad);
      return;
    }
    List<Point> p = quad.corners();
    Point a = p.get(0).towards(p.get(1), GRADING);
    Point b = p.get(0).towards(p.get(3), GRADING);
    Point inner = quad.at(2 * GRADING - 1, 2 * GRADING - 1);
    out.add(new Quad(List.of(a, p.get(1), p.get(2), inner)));
    out.add(new Quad(List.of(inner, p.get(2), p.get(3), b)));
    shrink(new Quad(List.of(p.get(0), a, inner, b)), layers - 1, out);
  }

  /** Quadrilaterals that fill the outline. */
  List<Quad> quads() {
    if (corners.size() == 4 && new Quad(corners).quality() > 0.1) {
      return List.of(new Quad(corners));
    }
    return FourSided.of(triangles()).quads();
  }

  /** Cuts ears, those with the least sharp corner first. */
  List<List<Point>> triangles() {
    List<Point> left = new ArrayList<>(corners);
    List<List<Point>> out = new ArrayList<>();
    while (left.size() > 3) {
      int best = -1;
      double most = 0;
      for (int i = 0; i < left.size(); i++) {
        double quality = earQuality(left, i);
        if (quality > most) {
          most = quality;
          best = i;
        }
      }
      if (best < 0) {
        throw new ImpossibleShapeException("the outline cannot be cut into triangles");
      }
      int n = left.size();
      out.add(List.of(left.get((best + n - 1) % n), left.get(best), left.get((best + 1) % n)));
      left.remove(best);
    }
    out.add(List.copyOf(left));
    return out;
  }

  /** The sine of an ear's sharpest corner, zero where corner i is no ear. */
  private static double earQuality(List<Point> left, int i) {
    int n = left.size();
    Point a = left.get((i + n - 1) % n);
    Point b = left.get(i);
    Point c = left.get((i + 1) % n);
    double twice = turn(a, b, c);
    if (twice <= 0) {
      return 0;
    }
    for (Point p : left) {
      boolean inside =
          !p.equals(a)
              && !p.equals(b)
              && !p.equals(c)
              && turn(a, b, p) >= 0
              && turn(b, c, p) >= 0
              && turn(c, a, p) >= 0;
      if (inside) {
        return 0;
      }
    }
    double ab = b.minus(a).length();
    double bc = c.minus(b).length();
    double ca = a.minus(c).length();
    return twice / Math.max(ab * bc, Math.max(bc * ca, ca * ab));
  }
}
