package cutaway.acoustics.cabinet;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.triangulate.polygon.ConstrainedDelaunayTriangulator;

/**
 * Cells of a panel with any cut-outs and braces in any outline: a collar about each round one,
 * strips under braces, and what lies between these, windows and edges in triangles (constrained
 * Delaunay), joined to quadrilaterals.
 */
final class FreeCells {
  /** How far a collar reaches, as a share of a hole's ring where there is room. */
  private static final double WIDE = 0.8;

  /** Sides of a collar lie so far into the room beside a hole, its corners so far; shares. */
  private static final double SIDE = 0.25;

  private static final double CORNER = 0.48;

  /** A brace is cut along that keeps so far from all else, over its width. */
  private static final double CLEAR = 0.2;

  private static final GeometryFactory GEOMETRY = new GeometryFactory();

  /** The least room for a collar, over a hole's ring. */
  private static final double COLLAR = 0.05;

  /** How far corners are moved to choose among equals, over the panel's size. */
  private static final double SHAKE = 1e-4;

  /** But no more than over so many of their sides. */
  private static final double SIDES = 10;

  private static final double GOLDEN = (Math.sqrt(5) - 1) / 2;

  private static final int[] CORNERS = {8, 12, 16, 24, 32};

  private final Panel panel;
  private final List<Brace> braces;
  private final double longest;

  private FreeCells(Panel panel, List<Brace> braces, double longest) {
    this.panel = panel;
    this.braces = braces;
    this.longest = longest;
  }

  /**
   * Cuts.
   *
   * @param braces those under whose feet strips are laid: such as are {@link #clear}
   * @param longest no cell is much longer, m
   * @throws ImpossibleShapeException where cut-outs meet or nearly do
   */
  static List<PanelCell> of(Panel panel, List<Brace> braces, double longest) {
    return new FreeCells(panel, braces, longest).cells();
  }

  /** Braces whose feet keep clear of edges, cut-outs and each other. */
  static List<Brace> clear(Panel panel) {
    return panel.braces().stream().filter(b -> clear(panel, b)).toList();
  }

  private static boolean clear(Panel panel, Brace brace) {
    double room = CLEAR * brace.width();
    Polygon foot = polygon(foot(brace));
    Polygon outline = polygon(panel.outline().corners());
    return outline.contains(foot)
        && outline.getBoundary().distance(foot) > room
        && panel.cutOuts().stream().allMatch(cut -> apart(cut, foot) > room)
        && Collections.frequency(panel.braces(), brace) == 1
        && panel.braces().stream()
            .allMatch(o -> o.equals(brace) || foot.distance(polygon(foot(o))) > room);
  }

  /** From a cut-out to a foot; a hole's collar needs some of it. */
  private static double apart(CutOut cut, Polygon foot) {
    return cut instanceof Hole hole
        ? beside(foot, hole) - COLLAR * hole.ring()
        : foot.distance(polygon(((Window) cut).corners()));
  }

  private static double beside(Polygon foot, Hole hole) {
    return foot.distance(GEOMETRY.createPoint(coordinate(hole.centre()))) - hole.ring();
  }

  private static Polygon polygon(List<Point> corners) {
    return GEOMETRY.createPolygon(ring(corners));
  }

  private List<PanelCell> cells() {
    List<List<Point>> rings = new ArrayList<>();
    for (CutOut cut : panel.cutOuts()) {
      rings.add(cut instanceof Hole hole ? collar(hole) : ((Window) cut).corners());
    }
    for (Brace brace : braces) {
      rings.add(rim(brace));
    }
    FourSided between = between(rings);
    while (between.longest() > PanelCells.LONGER * longest) {
      between = between.finer();
    }
    List<PanelCell> out = new ArrayList<>(between.quads());
    int parts = 1 << between.halvings();
    braces.forEach(brace -> strip(brace, parts, out));
    for (int i = 0; i < panel.cutOuts().size(); i++) {
      if (panel.cutOuts().get(i) instanceof Hole hole) {
        collar(hole, rings.get(i), parts, out);
      }
    }
    return out;
  }

  /** Corners of a brace's foot, round it. */
  private static List<Point> foot(Brace brace) {
    List<Point> ends = brace.foot();
    return List.of(ends.get(0), ends.get(1), ends.get(3), ends.get(2));
  }

  /** Round a brace's foot, its long sides in parts. */
  private List<Point> rim(Brace brace) {
    List<Point> foot = foot(brace);
    List<Point> out = new ArrayList<>();
    for (int side = 0; side < 4; side++) {
      Point from = foot.get(side);
      Point to = foot.get((side + 1) % 4);
      int parts = side % 2 == 0 ? 1 : parts(brace);
      for (int i = 0; i < parts; i++) {
        out.add(from.towards(to, (double) i / parts));
      }
    }
    return out;
  }

  private int parts(Brace brace) {
    double length = brace.to().minus(brace.from()).length();
    return (int) Math.max(1, Math.ceil(length / longest - (PanelCells.LONGER - 1)));
  }

  /** Cells under a brace, each of its rim's sides in so many parts. */
  private void strip(Brace brace, int halves, List<PanelCell> out) {
    Outline.Quad foot = new Outline.Quad(new Outline(foot(brace)).corners());
    Point side = foot.corners().get(1).minus(foot.corners().get(0)).unit();
    boolean longFirst = Math.abs(side.dot(brace.to().minus(brace.from()).unit())) > 0.5;
    int along = halves * parts(brace);
    out.addAll(longFirst ? foot.even(along, halves) : foot.even(halves, along));
  }

  private static void collar(Hole hole, List<Point> ring, int parts, List<PanelCell> out) {
    for (int side = 0; side < ring.size(); side++) {
      Point from = ring.get(side);
      Point to = ring.get((side + 1) % ring.size());
      for (int part = 0; part < parts; part++) {
        Point first = from.towards(to, (double) part / parts);
        Point last = from.towards(to, (part + 1.0) / parts);
        out.addAll(RimCell.with(hole, first, last));
      }
    }
  }

  /** A regular figure about a hole, within half of the room that is there. */
  private List<Point> collar(Hole hole) {
    double room = Math.min(WIDE * hole.ring(), room(hole));
    double reach = hole.ring() + CORNER * room;
    for (int n : CORNERS) {
      if (room > 0 && reach * Math.cos(Math.PI / n) >= hole.ring() + SIDE * room) {
        List<Point> out = new ArrayList<>();
        for (int i = 0; i < n; i++) {
          double angle = (2 * i + 1) * Math.PI / n;
          out.add(hole.centre().plus(new Point(Math.cos(angle), Math.sin(angle), 0).times(reach)));
        }
        return out;
      }
    }
    throw new ImpossibleShapeException("two cut-outs lie too close to each other or to an edge");
  }

  /** From a hole's flange to what is next, m. */
  private double room(Hole hole) {
    double out = panel.outline().room(hole.centre()) - hole.ring();
    for (CutOut cut : panel.cutOuts()) {
      if (cut instanceof Window window) {
        out = Math.min(out, beside(window, hole));
      } else if (cut instanceof Hole other && !other.equals(hole)) {
        double apart = other.centre().minus(hole.centre()).length();
        out = Math.min(out, apart - other.ring() - hole.ring());
      }
    }
    for (Brace brace : braces) {
      out = Math.min(out, beside(polygon(foot(brace)), hole));
    }
    return out;
  }

  private static double beside(Window window, Hole hole) {
    Outline opening = new Outline(window.corners());
    return opening.holds(hole.centre()) ? 0 : opening.room(hole.centre()) - hole.ring();
  }

  /** Triangles between the openings and the edges, joined. */
  private FourSided between(List<List<Point>> openings) {
    Map<Point, Point> own = new HashMap<>();
    LinearRing[] holes =
        openings.stream().map(o -> ring(shaken(o, own))).toArray(LinearRing[]::new);
    Polygon polygon = GEOMETRY.createPolygon(ring(shaken(edges(), own)), holes);
    if (!polygon.isValid()) {
      throw new ImpossibleShapeException("two cut-outs lie over each other");
    }
    Geometry triangles = ConstrainedDelaunayTriangulator.triangulate(polygon);
    List<List<Point>> out = new ArrayList<>();
    for (int i = 0; i < triangles.getNumGeometries(); i++) {
      Coordinate[] its = triangles.getGeometryN(i).getCoordinates();
      List<Point> corners = new ArrayList<>();
      for (int k = 0; k < 3; k++) {
        corners.add(new Point(its[k].x, its[k].y, 0));
      }
      out.add(new Outline(corners).corners());
    }
    return FourSided.of(out, p -> Objects.requireNonNull(own.get(p)));
  }

  /**
   * Corners moved a little, each its own way, so that what is alike on both sides of a panel is
   * not: else rounding would choose among equals, and a panel a hair larger be cut otherwise.
   *
   * @param own told where each really lies
   */
  private List<Point> shaken(List<Point> corners, Map<Point, Point> own) {
    int n = corners.size();
    double shortest = Double.POSITIVE_INFINITY;
    for (int i = 0; i < n; i++) {
      shortest = Math.min(shortest, corners.get((i + 1) % n).minus(corners.get(i)).length());
    }
    // about a small hole by less, lest a thin triangle there turn over
    double size = SHAKE * Math.min(Math.sqrt(panel.outline().area()), SIDES * shortest);
    List<Point> out = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      Point p = corners.get(i);
      Point along = corners.get((i + 1) % n).minus(corners.get((i + n - 1) % n)).unit();
      boolean onSide = Math.abs(along.cross(p.minus(corners.get((i + 1) % n))).z()) < 1e-3 * size;
      int number = own.size();
      double one = size * (number * GOLDEN % 1 - 0.5);
      double other = onSide ? 0 : size * (number * GOLDEN * GOLDEN % 1 - 0.5);
      Point to = p.plus(along.times(one)).plus(new Point(-along.y(), along.x(), 0).times(other));
      own.put(to, p);
      out.add(to);
    }
    return out;
  }

  /** The outline, its edges in parts. */
  private List<Point> edges() {
    List<Point> out = new ArrayList<>();
    for (Edge edge : Edge.round(panel.outline().corners())) {
      int parts = (int) Math.max(1, Math.ceil(edge.from().minus(edge.to()).length() / longest));
      for (int i = 0; i < parts; i++) {
        out.add(edge.from().towards(edge.to(), (double) i / parts));
      }
    }
    return out;
  }

  private static LinearRing ring(List<Point> corners) {
    Coordinate[] out = new Coordinate[corners.size() + 1];
    for (int i = 0; i < out.length; i++) {
      out[i] = coordinate(corners.get(i % corners.size()));
    }
    return GEOMETRY.createLinearRing(out);
  }

  private static Coordinate coordinate(Point p) {
    return new Coordinate(p.x(), p.y());
  }
}
