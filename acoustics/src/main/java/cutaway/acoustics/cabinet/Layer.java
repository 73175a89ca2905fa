package cutaway.acoustics.cabinet;

import cutaway.acoustics.cabinet.Enclosure.Facet;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.hipparchus.analysis.integration.gauss.GaussIntegrator;
import org.hipparchus.analysis.integration.gauss.GaussIntegratorFactory;

/**
 * Lining along the walls of a room of any shape, as points to integrate over.
 *
 * @param points inside the lining
 * @param volumes what each stands for, m³
 */
record Layer(List<Point> points, List<Double> volumes) {
  private static final int ACROSS = 12;
  private static final int DEEP = 3;

  /** m. */
  private static final double NEAR_EDGE = 1e-9;

  /**
   * Samples it.
   *
   * @param room the room
   * @param thickness on each wall, m, 0 for none; where two meet it counts once
   */
  static Layer of(Enclosure room, double[] thickness) {
    List<Point> points = new ArrayList<>();
    List<Double> volumes = new ArrayList<>();
    GaussIntegrator gauss = new GaussIntegratorFactory().legendre(ACROSS, 0, 1);
    GaussIntegrator deep = new GaussIntegratorFactory().legendre(DEEP, 0, 1);
    List<Face> faces =
        IntStream.range(0, thickness.length).mapToObj(w -> Face.of(room, w)).toList();
    for (int wall = 0; wall < thickness.length; wall++) {
      if (thickness[wall] > 0) {
        Plane plane = faces.get(wall).plane();
        for (Outline.Quad quad : faces.get(wall).outline().graded()) {
          for (int i = 0; i < ACROSS * ACROSS; i++) {
            double xi = 2 * gauss.getPoint(i % ACROSS) - 1;
            double eta = 2 * gauss.getPoint(i / ACROSS) - 1;
            double[] s = quad.slopes(xi, eta);
            double area =
                4
                    * gauss.getWeight(i % ACROSS)
                    * gauss.getWeight(i / ACROSS)
                    * (s[0] * s[3] - s[1] * s[2]);
            Point foot = plane.space(quad.at(xi, eta));
            for (int d = 0; d < DEEP; d++) {
              Point p = foot.minus(plane.normal().times(thickness[wall] * deep.getPoint(d)));
              if (!counted(faces, thickness, wall, p)) {
                points.add(p);
                volumes.add(area * thickness[wall] * deep.getWeight(d));
              }
            }
          }
        }
      }
    }
    return new Layer(points, volumes);
  }

  /** Whether a point lies in the lining of an earlier wall. */
  private static boolean counted(List<Face> faces, double[] thickness, int wall, Point p) {
    for (int other = 0; other < wall; other++) {
      if (faces.get(other).depth(p) < thickness[other]) {
        return true;
      }
    }
    return false;
  }

  /** A wall's inner face. */
  record Face(Plane plane, Outline outline) {
    static Face of(Enclosure room, int wall) {
      Facet facet = room.walls().get(wall);
      Plane plane = room.plane(facet);
      return new Face(
          plane,
          new Outline(
              facet.corners().stream().map(i -> plane.local(room.corners().get(i))).toList()));
    }

    /** How deep behind it a point lies, m; endless where it lies behind none of it. */
    double depth(Point p) {
      Point local = plane.local(p);
      boolean behind =
          local.z() <= 0 && outline.covers(new Point(local.x(), local.y(), 0), NEAR_EDGE);
      return behind ? -local.z() : Double.POSITIVE_INFINITY;
    }
  }
}
