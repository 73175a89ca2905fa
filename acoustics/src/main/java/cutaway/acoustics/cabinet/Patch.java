package cutaway.acoustics.cabinet;

import java.util.ArrayList;
import java.util.List;
import org.hipparchus.analysis.integration.gauss.GaussIntegrator;
import org.hipparchus.analysis.integration.gauss.GaussIntegratorFactory;

/**
 * A piece of surface, or a point, over which pressure is averaged or through which air is driven.
 *
 * @param points where it is looked at
 * @param weights shares of the points, which add up to one
 * @param corners its corners where its edges are straight, so that elements can end there
 */
public record Patch(List<Point> points, List<Double> weights, List<Point> corners) {
  private static final int ACROSS = 16;
  private static final int ROUND = 64;

  /** Copies its lists. */
  public Patch {
    points = List.copyOf(points);
    weights = List.copyOf(weights);
    corners = List.copyOf(corners);
  }

  /** A single point. */
  public static Patch point(Point p) {
    return new Patch(List.of(p), List.of(1.0), List.of());
  }

  /**
   * A flat disc.
   *
   * @param centre its middle
   * @param normal a vector across it, of any length
   * @param radius m
   */
  public static Patch disc(Point centre, Point normal, double radius) {
    Point n = normal.unit();
    Point other = Math.abs(n.x()) < 0.8 ? new Point(1, 0, 0) : new Point(0, 1, 0);
    Point u = n.cross(other).unit();
    Point v = n.cross(u);
    GaussIntegrator gauss = new GaussIntegratorFactory().legendre(ACROSS, 0, 1);
    List<Point> points = new ArrayList<>();
    List<Double> weights = new ArrayList<>();
    for (int i = 0; i < ACROSS; i++) {
      // even in area: r² runs evenly
      double r = radius * Math.sqrt(gauss.getPoint(i));
      for (int k = 0; k < ROUND; k++) {
        double angle = 2 * Math.PI * (k + 0.5 * (i % 2)) / ROUND;
        points.add(centre.plus(u.times(r * Math.cos(angle))).plus(v.times(r * Math.sin(angle))));
        weights.add(gauss.getWeight(i) / ROUND);
      }
    }
    return new Patch(points, weights, List.of());
  }

  /**
   * A flat parallelogram.
   *
   * @param centre its middle
   * @param side one of its sides, m
   * @param other the other, m
   */
  public static Patch parallelogram(Point centre, Point side, Point other) {
    GaussIntegrator gauss = new GaussIntegratorFactory().legendre(ACROSS, -0.5, 0.5);
    List<Point> points = new ArrayList<>();
    List<Double> weights = new ArrayList<>();
    for (int i = 0; i < ACROSS; i++) {
      for (int k = 0; k < ACROSS; k++) {
        points.add(centre.plus(side.times(gauss.getPoint(i))).plus(other.times(gauss.getPoint(k))));
        weights.add(gauss.getWeight(i) * gauss.getWeight(k));
      }
    }
    List<Point> corners = new ArrayList<>();
    for (double i : new double[] {-0.5, 0.5}) {
      for (double k : new double[] {-0.5, 0.5}) {
        corners.add(centre.plus(side.times(i)).plus(other.times(k)));
      }
    }
    return new Patch(points, weights, corners);
  }
}
