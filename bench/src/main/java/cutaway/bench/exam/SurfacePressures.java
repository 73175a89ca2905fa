package cutaway.bench.exam;

import cutaway.acoustics.cabinet.Cavity;
import cutaway.acoustics.cabinet.Point;
import cutaway.acoustics.cabinet.Surface;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.WeakHashMap;

/**
 * Pressures of the standing waves on the walls' surfaces, kept while a surface is in use: place ×
 * wave.
 */
final class SurfacePressures {
  private final CabinetGeometry geometry;
  private final Cavity cavity;
  private final Point centre;
  private final Map<Surface, double[][]> known = Collections.synchronizedMap(new WeakHashMap<>());

  SurfacePressures(CabinetGeometry geometry, Cavity cavity) {
    this.geometry = geometry;
    this.cavity = cavity;
    this.centre = centre();
  }

  Cavity cavity() {
    return cavity;
  }

  private Point centre() {
    List<Point> corners = geometry.inner().corners();
    Point sum = new Point(0, 0, 0);
    for (Point corner : corners) {
      sum = sum.plus(corner.times(1.0 / corners.size()));
    }
    return sum;
  }

  /**
   * Pressures on a wall.
   *
   * @param surface its middle plane
   * @param inwards from its middle plane to its inner face, m
   */
  double[][] on(Surface surface, Point inwards) {
    return known.computeIfAbsent(
        surface,
        s -> {
          Point middle = new Point(0, 0, 0);
          for (Point p : s.places()) {
            middle = middle.plus(p.times(1.0 / s.places().size()));
          }
          Point face = middle;
          return s.places().stream().map(p -> inside(p, face, inwards)).toArray(double[][]::new);
        });
  }

  /** Pressures at a place of a middle plane, taken where the room begins below it. */
  private double[] inside(Point p, Point face, Point inwards) {
    for (Point towards : List.of(face.plus(inwards), centre)) {
      for (double t = 0; t < 0.6; t += 0.02) {
        Point below = p.plus(inwards.times(1.01));
        Optional<double[]> at = cavity.pressures(below.towards(towards, t));
        if (at.isPresent()) {
          return at.get();
        }
      }
    }
    return new double[cavity.size()];
  }
}
