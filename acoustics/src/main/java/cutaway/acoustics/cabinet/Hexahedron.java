package cutaway.acoustics.cabinet;

import java.util.List;
import java.util.Optional;

/**
 * Eight corners joined by straight edges, mapped from the cube [−1, 1]³ trilinearly.
 *
 * <p>Corners 0 to 3 go round the bottom, 4 to 7 stand above them. In the cube the corners are
 * (−,−), (+,−), (+,+), (−,+) at ζ = −1, then at ζ = +1.
 */
public final class Hexahedron {
  private static final int[][] SIGNS = {
    {-1, -1, -1},
    {1, -1, -1},
    {1, 1, -1},
    {-1, 1, -1},
    {-1, -1, 1},
    {1, -1, 1},
    {1, 1, 1},
    {-1, 1, 1}
  };

  /** Corners at both ends of the edges along each axis. */
  private static final int[][][] EDGES = {
    {{0, 1}, {3, 2}, {4, 5}, {7, 6}},
    {{0, 3}, {1, 2}, {4, 7}, {5, 6}},
    {{0, 4}, {1, 5}, {2, 6}, {3, 7}}
  };

  private final List<Point> corners;

  /** Takes eight corners. */
  public Hexahedron(List<Point> corners) {
    if (corners.size() != 8) {
      throw new IllegalArgumentException(corners.size() + " corners");
    }
    this.corners = List.copyOf(corners);
  }

  /** Corners in their order. */
  public List<Point> corners() {
    return corners;
  }

  /** Where one of the four edges along an axis begins: 0 to 3, the first at the first corner. */
  Point foot(int axis, int edge) {
    return corners.get(EDGES[axis][edge][0]);
  }

  /** One of the four edges along an axis, from its foot to its end. */
  Point edge(int axis, int edge) {
    return corners.get(EDGES[axis][edge][1]).minus(foot(axis, edge));
  }

  /** Mean of the corners. */
  public Point centre() {
    return at(0, 0, 0);
  }

  /** Where a place in the cube lies. */
  public Point at(double xi, double eta, double zeta) {
    double x = 0;
    double y = 0;
    double z = 0;
    for (int i = 0; i < 8; i++) {
      double n = shape(i, xi, eta, zeta);
      Point p = corners.get(i);
      x += n * p.x();
      y += n * p.y();
      z += n * p.z();
    }
    return new Point(x, y, z);
  }

  private static double shape(int i, double xi, double eta, double zeta) {
    int[] s = SIGNS[i];
    return (1 + s[0] * xi) * (1 + s[1] * eta) * (1 + s[2] * zeta) / 8;
  }

  /** ∂(x,y,z)/∂(ξ,η,ζ): the three columns. */
  List<Point> slopes(double xi, double eta, double zeta) {
    Point a = new Point(0, 0, 0);
    Point b = a;
    Point c = a;
    for (int i = 0; i < 8; i++) {
      int[] s = SIGNS[i];
      Point p = corners.get(i);
      a = a.plus(p.times(s[0] * (1 + s[1] * eta) * (1 + s[2] * zeta) / 8));
      b = b.plus(p.times(s[1] * (1 + s[0] * xi) * (1 + s[2] * zeta) / 8));
      c = c.plus(p.times(s[2] * (1 + s[0] * xi) * (1 + s[1] * eta) / 8));
    }
    return List.of(a, b, c);
  }

  /** Volume over that of the cube at a place; above zero where the corners are in order. */
  double jacobian(double xi, double eta, double zeta) {
    List<Point> s = slopes(xi, eta, zeta);
    return s.get(0).dot(s.get(1).cross(s.get(2)));
  }

  /** Place in the cube of a point, absent where it lies outside by more than rounding. */
  Optional<Point> find(Point p) {
    if (!near(p)) {
      return Optional.empty();
    }
    double xi = 0;
    double eta = 0;
    double zeta = 0;
    for (int pass = 0; pass < 30; pass++) {
      Point off = p.minus(at(xi, eta, zeta));
      List<Point> s = slopes(xi, eta, zeta);
      Point a = s.get(0);
      Point b = s.get(1);
      Point c = s.get(2);
      double det = a.dot(b.cross(c));
      double dXi = off.dot(b.cross(c)) / det;
      double dEta = off.dot(c.cross(a)) / det;
      double dZeta = off.dot(a.cross(b)) / det;
      xi = hold(xi + dXi);
      eta = hold(eta + dEta);
      zeta = hold(zeta + dZeta);
      if (Math.abs(dXi) + Math.abs(dEta) + Math.abs(dZeta) < 1e-13) {
        break;
      }
    }
    double size = corners.get(0).minus(corners.get(6)).length();
    boolean inside =
        Math.max(Math.abs(xi), Math.max(Math.abs(eta), Math.abs(zeta))) < 1 + 1e-6
            && p.minus(at(xi, eta, zeta)).length() < 1e-6 * size;
    return inside ? Optional.of(new Point(xi, eta, zeta)) : Optional.empty();
  }

  private boolean near(Point p) {
    double size = corners.get(0).minus(corners.get(6)).length();
    Point c = centre();
    double reach = 0;
    for (Point corner : corners) {
      reach = Math.max(reach, corner.minus(c).length());
    }
    return p.minus(c).length() < reach + 1e-6 * size;
  }

  private static double hold(double x) {
    return Math.max(-3, Math.min(3, x));
  }

  /** The part between two places of the cube along each axis. */
  Hexahedron part(double[] from, double[] to) {
    return new Hexahedron(
        java.util.Arrays.stream(SIGNS)
            .map(
                s ->
                    at(
                        s[0] < 0 ? from[0] : to[0],
                        s[1] < 0 ? from[1] : to[1],
                        s[2] < 0 ? from[2] : to[2]))
            .toList());
  }

  /** Longest of the four edges along each axis, m. */
  double[] lengths() {
    double[] out = new double[3];
    for (int axis = 0; axis < 3; axis++) {
      for (int edge = 0; edge < 4; edge++) {
        out[axis] = Math.max(out[axis], edge(axis, edge).length());
      }
    }
    return out;
  }
}
