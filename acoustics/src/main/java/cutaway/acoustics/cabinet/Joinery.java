package cutaway.acoustics.cabinet;

import java.util.ArrayList;
import java.util.List;

/** Which edges of some walls meet, and which stand on another wall's face. */
final class Joinery {
  private static final double GRAIN = 1e-6;

  /** Walls whose normals are this nearly alike do not stand on each other. */
  private static final double ALIKE = 1e-3;

  /** Edges that leave less than this of a new direction add none. */
  private static final double NEW_DIRECTION = 0.05;

  private final List<Wall> walls;
  private final double grain;

  /** Looks at walls that together are so large, m. */
  Joinery(List<Wall> walls, double size) {
    this.walls = walls;
    this.grain = GRAIN * size;
  }

  /** Places nearer than this are one, m. */
  double grain() {
    return grain;
  }

  /** Edges that two walls or more have. */
  List<Edge> shared() {
    List<Edge> out = new ArrayList<>();
    for (int i = 0; i < walls.size(); i++) {
      for (int k = 0; k < i; k++) {
        for (Edge edge : Edge.of(walls.get(k))) {
          boolean both = Edge.of(walls.get(i)).stream().anyMatch(e -> e.same(edge, grain));
          if (both && out.stream().noneMatch(e -> e.same(edge, grain))) {
            out.add(edge);
          }
        }
      }
    }
    return out;
  }

  /** Unit vectors at right angles that span the directions of the edges through a point. */
  List<Point> directions(Point p, List<Edge> edges) {
    List<Point> out = new ArrayList<>();
    for (Edge edge : edges) {
      Point left = edge.along();
      for (Point axis : out) {
        left = left.minus(axis.times(axis.dot(left)));
      }
      if (edge.covers(p, grain) && left.length() > NEW_DIRECTION) {
        out.add(left.unit());
      }
    }
    return out;
  }

  /** Shares of an edge's length at which the ends of other walls' feet lie, in order. */
  List<Double> breaks(Edge edge) {
    Point along = edge.to().minus(edge.from());
    List<Double> out = new ArrayList<>();
    for (Wall wall : walls) {
      for (Edge foot : feetOn(wall)) {
        for (Point end : List.of(foot.from(), foot.to())) {
          Point p = wall.plane().space(end);
          double share = p.minus(edge.from()).dot(along) / along.dot(along);
          boolean inside = share > GRAIN && share < 1 - GRAIN;
          boolean known = out.stream().anyMatch(s -> Math.abs(s - share) < GRAIN);
          if (inside && !known && edge.onLine(p, grain)) {
            out.add(share);
          }
        }
      }
    }
    out.sort(null);
    return out;
  }

  /** Where others stand on a wall, in its plane. */
  List<Edge> feetOn(Wall host) {
    List<Edge> out = new ArrayList<>();
    for (Wall guest : walls) {
      for (Edge edge : Edge.of(guest)) {
        if (!guest.equals(host) && standsOn(edge, guest, host)) {
          Point from = host.plane().local(edge.from());
          Point to = host.plane().local(edge.to());
          out.add(new Edge(new Point(from.x(), from.y(), 0), new Point(to.x(), to.y(), 0)));
        }
      }
    }
    return out;
  }

  /** Whether a wall stands by an edge on another's face or middle, not on its rim. */
  boolean standsOn(Edge edge, Wall guest, Wall host) {
    if (guest.plane().normal().cross(host.plane().normal()).length() < ALIKE) {
      return false;
    }
    double foot =
        host.panel().braces().stream().mapToDouble(b -> b.footDepth(host.panel())).max().orElse(0);
    double reach = (host.panel().board().thickness() / 2 + foot) * (1 + GRAIN);
    Point from = host.plane().local(edge.from());
    Point to = host.plane().local(edge.to());
    for (Point p : List.of(from, to)) {
      if (Math.abs(p.z()) > reach || !host.panel().outline().covers(p, grain)) {
        return false;
      }
    }
    boolean level = Math.abs(from.z() - to.z()) < grain;
    return level && Edge.of(host).stream().noneMatch(e -> along(e, edge));
  }

  private boolean along(Edge rim, Edge edge) {
    return rim.onLine(edge.from(), grain) && rim.onLine(edge.to(), grain);
  }
}
