package cutaway.bench.exam;

import cutaway.acoustics.cabinet.Board;
import cutaway.acoustics.cabinet.Enclosure;
import cutaway.acoustics.cabinet.Enclosure.Facet;
import cutaway.acoustics.cabinet.Foot;
import cutaway.acoustics.cabinet.Outline;
import cutaway.acoustics.cabinet.Plane;
import cutaway.acoustics.cabinet.Point;
import cutaway.acoustics.cabinet.Wall;
import cutaway.acoustics.cabinet.Window;
import cutaway.bench.exam.BoxSection.Opening;
import cutaway.bench.exam.BoxSection.Part;
import cutaway.bench.exam.BoxSection.Piece;
import cutaway.bench.exam.BoxSection.View;
import cutaway.bench.sheet.CabinetReadings.BraceReadings;
import cutaway.bench.sheet.CabinetReadings.CutOutReadings;
import cutaway.bench.sheet.CabinetReadings.DampingReadings;
import cutaway.bench.sheet.CabinetReadings.WallReadings;
import cutaway.bench.sheet.Lining;
import cutaway.bench.sheet.Sheet;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/** Cuts a box through by a plane. */
final class SectionCut {
  /** Thickness of a lining of which the sheet says only that it is there, m. */
  private static final double SOME_LINING = 0.015;

  /** Walls that look away from the viewer like this are seen across the room. */
  private static final double FACING = -0.3;

  /** Off the plane by this a corner is taken to lie on its near side, m. */
  private static final double JUST = 1e-6;

  private final CabinetGeometry geometry;
  private final Enclosure inner;
  private final List<Wall> walls;
  private final View view;
  private final Point normal;
  private final double at;
  private final List<Piece> pieces = new ArrayList<>();

  SectionCut(Sheet sheet, CabinetGeometry geometry, View view) {
    this.geometry = geometry;
    this.inner = geometry.inner();
    this.walls = walls(geometry);
    this.view = view;
    this.normal = view.towards();
    double[] places = inner.corners().stream().mapToDouble(p -> p.dot(normal)).sorted().toArray();
    double middle = (places[0] + places[places.length - 1]) / 2;
    Openings openings = Openings.of(sheet, geometry);
    this.at =
        openings
                .cutOut()
                .filter(c -> Math.abs(outwards(openings.wall()).dot(normal)) < 0.5)
                .map(c -> centre(openings.wall(), c).dot(normal))
                .orElse(middle)
            + JUST;
  }

  BoxSection section() {
    linings();
    edges();
    for (int wall = 0; wall < geometry.names().size(); wall++) {
      braces(wall);
      sheet(wall);
      board(wall);
    }
    walls.subList(geometry.names().size(), walls.size()).forEach(this::windowBrace);
    if (view == View.SIDE) {
      feet();
    }
    return new BoxSection(pieces, openings());
  }

  private String name(int wall) {
    return geometry.names().get(wall);
  }

  private Point outwards(int wall) {
    return inner.plane(inner.walls().get(wall)).normal();
  }

  private Optional<WallReadings> read(int wall) {
    return geometry.box().cabinet().wall(name(wall));
  }

  private void add(Part part, String wall, Stream<Point> outline) {
    pieces.add(new Piece(part, wall, outline.map(view::flat).toList()));
  }

  private double above(Point p) {
    return p.dot(normal) - at;
  }

  private Point centre(int wall, CutOutReadings cut) {
    Plane plane = geometry.middle().plane(inner.walls().get(wall));
    return plane.space(geometry.onWall(wall, cut.right(), cut.up()));
  }

  /** Direction of the cut along a wall; absent where the wall lies in the plane's direction. */
  private Optional<Point> along(int wall) {
    Point d = normal.cross(outwards(wall));
    return d.length() < 1e-6 ? Optional.empty() : Optional.of(d.unit());
  }

  /** Where a wall's face crosses the plane, in pairs along the cut. */
  private List<Point> crossed(Enclosure box, int wall) {
    List<Point> corners = box.walls().get(wall).corners().stream().map(box.corners()::get).toList();
    Optional<Point> along = along(wall);
    return along.isEmpty() ? List.of() : crossed(corners, along.get());
  }

  private List<Point> crossed(List<Point> polygon, Point along) {
    List<Point> out = new ArrayList<>();
    for (int i = 0; i < polygon.size(); i++) {
      Point a = polygon.get(i);
      Point b = polygon.get((i + 1) % polygon.size());
      if (above(a) > 0 != above(b) > 0) {
        out.add(a.towards(b, above(a) / (above(a) - above(b))));
      }
    }
    out.sort(Comparator.comparingDouble(along::dot));
    return out;
  }

  /** The strip between two faces of a wall, gaps left out. */
  private void strip(Part part, int wall, Enclosure one, Enclosure other, List<double[]> gaps) {
    List<Point> near = crossed(one, wall);
    List<Point> far = crossed(other, wall);
    for (int i = 0; i + 1 < Math.min(near.size(), far.size()); i += 2) {
      strip(part, wall, near.subList(i, i + 2), far.subList(i, i + 2), gaps);
    }
  }

  private void strip(Part part, int wall, List<Point> near, List<Point> far, List<double[]> gaps) {
    Point along = along(wall).orElseThrow();
    Point nearFrom = near.get(0);
    Point farFrom = far.get(0);
    double end = along.dot(near.get(1));
    for (double[] gap : gaps) {
      if (gap[0] > along.dot(nearFrom) && gap[1] < end) {
        Point nearTo = on(nearFrom, along, gap[0]);
        Point farTo = on(farFrom, along, gap[0]);
        add(part, name(wall), Stream.of(nearFrom, nearTo, farTo, farFrom));
        nearFrom = on(nearFrom, along, gap[1]);
        farFrom = on(farFrom, along, gap[1]);
      }
    }
    add(part, name(wall), Stream.of(nearFrom, near.get(1), far.get(1), farFrom));
  }

  private static Point on(Point line, Point along, double place) {
    return line.plus(along.times(place - along.dot(line)));
  }

  /** What the cut-outs of a wall take out of its cut, in order. */
  private List<double[]> gaps(int wall) {
    List<double[]> out = new ArrayList<>();
    Optional<Point> along = along(wall);
    if (along.isEmpty()) {
      return out;
    }
    Point wallNormal = outwards(wall);
    double slope = normal.minus(wallNormal.times(normal.dot(wallNormal))).length();
    for (CutOutReadings cut : read(wall).map(WallReadings::cutOuts).orElse(List.of())) {
      Point centre = centre(wall, cut);
      double off = above(centre) / slope;
      double radius = cut.diameter().estimate().value() / 2;
      if (Math.abs(off) < radius) {
        double half = Math.sqrt(radius * radius - off * off);
        double middle = along.get().dot(centre);
        out.add(new double[] {middle - half, middle + half});
      }
    }
    out.sort(Comparator.comparingDouble(g -> g[0]));
    return out;
  }

  private void board(int wall) {
    strip(Part.BOARD, wall, inner, geometry.outer(), gaps(wall));
  }

  private void sheet(int wall) {
    read(wall)
        .flatMap(WallReadings::damping)
        .map(DampingReadings::thickness)
        .ifPresent(
            t -> strip(Part.SHEET, wall, inner, inwards(wall, t.estimate().value()), gaps(wall)));
  }

  private Enclosure inwards(int wall, double by) {
    double[] move = new double[geometry.names().size()];
    move[wall] = -by;
    return inner.grown(move);
  }

  private void linings() {
    double[] thickness = RoomLining.of(geometry).thickness();
    if (Arrays.stream(thickness).allMatch(t -> t == 0)) {
      untold();
      return;
    }
    for (int wall = 0; wall < thickness.length; wall++) {
      if (thickness[wall] > 0) {
        lining(wall, thickness[wall]);
      }
    }
  }

  /** Lining of which only is said that it is there. */
  private void untold() {
    Lining lining = geometry.box().lining();
    if (lining == Lining.LINED_WALLS) {
      for (int wall = 0; wall < geometry.names().size(); wall++) {
        if (!name(wall).equals("front")) {
          lining(wall, SOME_LINING);
        }
      }
    } else if (lining != Lining.NONE) {
      double[] all = new double[geometry.names().size()];
      Arrays.fill(all, -SOME_LINING);
      Enclosure fill = inner.grown(all);
      for (int wall = 0; wall < all.length; wall++) {
        if (outwards(wall).dot(normal) < FACING) {
          beyond(Part.LINING_BEYOND, wall, fill);
        }
      }
    }
  }

  private void lining(int wall, double thickness) {
    if (along(wall).isPresent() && !crossed(inner, wall).isEmpty()) {
      strip(Part.LINING, wall, inner, inwards(wall, thickness), List.of());
    } else {
      beyond(Part.LINING_BEYOND, wall, inner);
    }
  }

  /** A wall's face, where it lies beyond the plane. */
  private void beyond(Part part, int wall, Enclosure box) {
    Facet facet = box.walls().get(wall);
    List<Point> corners = facet.corners().stream().map(box.corners()::get).toList();
    if (corners.stream().allMatch(p -> above(p) < 0)) {
      add(part, name(wall), corners.stream());
    }
  }

  /** Inner edges that lie beyond, up to where the plane cuts them. */
  private void edges() {
    for (Facet facet : inner.walls()) {
      int n = facet.corners().size();
      for (int i = 0; i < n; i++) {
        int from = facet.corners().get(i);
        int to = facet.corners().get((i + 1) % n);
        // each edge is met twice, once each way
        if (from < to) {
          edge(facet.name(), inner.corners().get(from), inner.corners().get(to));
        }
      }
    }
  }

  private void edge(String wall, Point a, Point b) {
    double here = above(a);
    double there = above(b);
    if (here < 0 || there < 0) {
      Point from = here < 0 ? a : b.towards(a, there / (there - here));
      Point to = there < 0 ? b : a.towards(b, here / (here - there));
      add(Part.EDGE, wall, Stream.of(from, to));
    }
  }

  private void braces(int wall) {
    for (BraceReadings b : geometry.braces(wall).toList()) {
      Point from = geometry.inside(wall, b.from().x(), b.from().y());
      Point to = geometry.inside(wall, b.to().x(), b.to().y());
      Point outwards = outwards(wall);
      Point half = outwards.cross(to.minus(from).unit()).times(b.width().estimate().value() / 2);
      Point depth = outwards.times(-b.depth().estimate().value());
      solid(
          name(wall),
          List.of(from.minus(half), to.minus(half), to.plus(half), from.plus(half)),
          depth);
    }
  }

  /** A body with parallel edges: cut where the plane cuts it, else as seen beyond. */
  private void solid(String wall, List<Point> foot, Point depth) {
    List<Point> head = foot.stream().map(p -> p.plus(depth)).toList();
    List<Point> cut = new ArrayList<>();
    for (int i = 0; i < foot.size(); i++) {
      int next = (i + 1) % foot.size();
      cross(foot.get(i), foot.get(next), cut);
      cross(head.get(i), head.get(next), cut);
      cross(foot.get(i), head.get(i), cut);
    }
    if (cut.size() > 2) {
      add(Part.BRACE, wall, round(cut).stream());
    } else if (Stream.concat(foot.stream(), head.stream()).allMatch(p -> above(p) < 0)) {
      add(Part.BRACE_BEYOND, wall, head.stream());
    }
  }

  private void cross(Point a, Point b, List<Point> out) {
    if (above(a) > 0 != above(b) > 0) {
      out.add(a.towards(b, above(a) / (above(a) - above(b))));
    }
  }

  /** Corners of a convex figure in the plane, put in order about their middle. */
  private List<Point> round(List<Point> corners) {
    Point sum = new Point(0, 0, 0);
    for (Point p : corners) {
      sum = sum.plus(p);
    }
    Point middle = view.flat(sum.times(1.0 / corners.size()));
    return corners.stream()
        .sorted(
            Comparator.comparingDouble(
                p -> {
                  Point off = view.flat(p).minus(middle);
                  return Math.atan2(off.y(), off.x());
                }))
        .toList();
  }

  /** As the walls' exam finds room for them; of what the boards are makes no difference. */
  private static List<Wall> walls(CabinetGeometry geometry) {
    List<Board> boards = Arrays.stream(geometry.thickness()).mapToObj(WindowBrace::usual).toList();
    return BoxWalls.of(geometry, boards, left -> {});
  }

  private void windowBrace(Wall wall) {
    Plane plane = wall.plane();
    Outline outline = wall.panel().outline();
    List<Point> outer = outline.corners().stream().map(plane::space).toList();
    Window window = (Window) wall.panel().cutOuts().get(0);
    List<Point> open = window.corners().stream().map(plane::space).toList();
    Point half = plane.normal().times(wall.panel().board().thickness() / 2);
    Point along = normal.cross(plane.normal());
    if (along.length() < 1e-6) {
      if (open.stream().allMatch(p -> above(p) < 0)) {
        add(Part.BRACE_BEYOND, wall.name(), open.stream());
      }
      return;
    }
    List<Point> cut = new ArrayList<>(crossed(outer, along.unit()));
    cut.addAll(crossed(open, along.unit()));
    cut.sort(Comparator.comparingDouble(along.unit()::dot));
    for (int i = 0; i + 1 < cut.size(); i += 2) {
      Point a = cut.get(i);
      Point b = cut.get(i + 1);
      add(
          Part.BRACE,
          wall.name(),
          Stream.of(a.minus(half), b.minus(half), b.plus(half), a.plus(half)));
    }
  }

  /** Feet that the plane cuts or that lie beyond it. */
  private void feet() {
    double height =
        geometry.box().cabinet().feet().map(f -> f.height().estimate().value()).orElse(0.0);
    for (Wall wall : walls) {
      Plane plane = wall.plane();
      for (Foot foot : wall.feet()) {
        Point out = plane.normal().times(wall.panel().board().thickness() / 2);
        Point face = plane.space(foot.at()).plus(out);
        double radius = foot.diameter() / 2;
        if (above(face) < radius) {
          Point across = plane.normal().cross(normal).unit().times(radius);
          Point down = plane.normal().times(height);
          add(
              Part.FOOT,
              wall.name(),
              Stream.of(
                  face.minus(across),
                  face.plus(across),
                  face.plus(across).plus(down),
                  face.minus(across).plus(down)));
        }
      }
    }
  }

  private List<Opening> openings() {
    List<Opening> out = new ArrayList<>();
    for (int wall = 0; wall < geometry.names().size(); wall++) {
      Point outwards = outwards(wall);
      Point flat = view.flat(outwards);
      // an opening that looks at the viewer is not seen from its side
      if (flat.length() > 0.5) {
        for (CutOutReadings cut : read(wall).map(WallReadings::cutOuts).orElse(List.of())) {
          Point face = centre(wall, cut).plus(outwards.times(geometry.thickness()[wall] / 2));
          out.add(
              new Opening(
                  cut.what(),
                  view.flat(face),
                  flat.unit().times(-1),
                  cut.diameter().estimate().value()));
        }
      }
    }
    return out;
  }
}
