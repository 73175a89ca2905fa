package cutaway.bench.exam;

import cutaway.acoustics.cabinet.Enclosure;
import cutaway.acoustics.cabinet.Enclosure.Facet;
import cutaway.acoustics.cabinet.ImpossibleShapeException;
import cutaway.acoustics.cabinet.Outline;
import cutaway.acoustics.cabinet.Plane;
import cutaway.acoustics.cabinet.Point;
import cutaway.acoustics.estimate.Estimate;
import cutaway.bench.measure.Reading;
import cutaway.bench.sheet.CabinetReadings;
import cutaway.bench.sheet.CabinetReadings.Back;
import cutaway.bench.sheet.CabinetReadings.BraceReadings;
import cutaway.bench.sheet.CabinetReadings.FeetReadings;
import cutaway.bench.sheet.CabinetReadings.WallReadings;
import cutaway.bench.sheet.CabinetReadings.WindowBraceReadings;
import cutaway.bench.sheet.Sheet;
import cutaway.bench.sheet.Sheet.BoxReadings;
import cutaway.bench.sheet.Sheet.Size;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.stream.Stream;

/**
 * Shape and wall thicknesses of a box as the sheet gives them.
 *
 * @param box what was read
 * @param inner the inner faces
 * @param thickness of each wall, m, in the order of its walls
 */
@SuppressWarnings("ArrayRecordComponent")
record CabinetGeometry(BoxReadings box, Enclosure inner, double[] thickness) {
  /** What is open in the mass of battens and sheets by size and usual density; judgement. */
  private static final double FIXTURES = 0.15;

  /** In place of a thickness that nobody read, m. */
  static final double USUAL = 0.016;

  /**
   * The geometry, with a thickness for walls that have none.
   *
   * @return absent where the sheet gives no size
   * @throws ImpossibleShapeException where the sizes are those of no box
   */
  static Optional<CabinetGeometry> of(BoxReadings box, double unknown) {
    CabinetReadings cabinet = box.cabinet();
    Optional<Enclosure> inner = inner(cabinet, box.inner());
    if (inner.isPresent()) {
      return Optional.of(
          new CabinetGeometry(box, inner.get(), thickness(box, inner.get(), unknown)));
    }
    return box.outer()
        .map(
            size -> {
              Enclosure outer = sized(size, cabinet.back());
              double[] thickness = thickness(box, outer, unknown);
              double[] inwards = new double[thickness.length];
              for (int i = 0; i < inwards.length; i++) {
                inwards[i] = -thickness[i];
              }
              return new CabinetGeometry(box, outer.grown(inwards), thickness);
            });
  }

  /** Names of a sheet's walls; empty where its shape is not told or none. */
  static List<String> names(Sheet sheet) {
    try {
      return sheet.box().flatMap(b -> of(b, USUAL)).map(CabinetGeometry::names).orElse(List.of());
    } catch (ImpossibleShapeException e) {
      return List.of();
    }
  }

  private static Optional<Enclosure> inner(CabinetReadings cabinet, Optional<Size> size) {
    if (!cabinet.corners().isEmpty()) {
      return Optional.of(Enclosure.ofEight(cabinet.corners()));
    }
    if (cabinet.outline().isPresent()) {
      CabinetReadings.Pulled pulled = cabinet.outline().get();
      return Optional.of(
          Enclosure.prism(new Outline(pulled.points()), pulled.points(), value(pulled.height())));
    }
    List<WallReadings> flat = cabinet.walls().stream().filter(w -> !w.corners().isEmpty()).toList();
    if (!flat.isEmpty()) {
      return Optional.of(listed(flat));
    }
    return size.map(s -> sized(s, cabinet.back()));
  }

  private static Enclosure listed(List<WallReadings> walls) {
    List<Point> corners = new ArrayList<>();
    List<Facet> facets = new ArrayList<>();
    for (WallReadings wall : walls) {
      List<Integer> its = new ArrayList<>();
      for (Point p : wall.corners()) {
        int known = -1;
        for (int i = 0; i < corners.size(); i++) {
          known = corners.get(i).minus(p).length() < 1e-4 ? i : known;
        }
        if (known < 0) {
          known = corners.size();
          corners.add(p);
        }
        its.add(known);
      }
      facets.add(new Facet(wall.name(), its));
    }
    return new Enclosure(corners, turned(corners, facets));
  }

  /** Walls turned so that all go round the same way, anticlockwise seen from outside. */
  private static List<Facet> turned(List<Point> corners, List<Facet> facets) {
    List<Facet> out = new ArrayList<>(facets);
    List<Integer> settled = new ArrayList<>(List.of(0));
    for (int next = 0; next < settled.size(); next++) {
      Facet one = out.get(settled.get(next));
      for (int i = 0; i < out.size(); i++) {
        if (!settled.contains(i) && shared(one, out.get(i)) != 0) {
          out.set(i, shared(one, out.get(i)) > 0 ? reversed(out.get(i)) : out.get(i));
          settled.add(i);
        }
      }
    }
    double volume = 0;
    for (Facet f : out) {
      Point a = corners.get(f.corners().get(0));
      for (int i = 1; i + 1 < f.corners().size(); i++) {
        Point b = corners.get(f.corners().get(i));
        volume += a.dot(b.cross(corners.get(f.corners().get(i + 1))));
      }
    }
    return volume < 0 ? out.stream().map(CabinetGeometry::reversed).toList() : out;
  }

  /** 1 where two walls run through a shared edge the same way, −1 the other way, else 0. */
  private static int shared(Facet one, Facet other) {
    int n = one.corners().size();
    for (int i = 0; i < n; i++) {
      int at = other.corners().indexOf(one.corners().get(i));
      int m = other.corners().size();
      int next = one.corners().get((i + 1) % n);
      if (at >= 0 && other.corners().get((at + 1) % m) == next) {
        return 1;
      }
      if (at >= 0 && other.corners().get((at + m - 1) % m) == next) {
        return -1;
      }
    }
    return 0;
  }

  /** The other way round from the same corner. */
  private static Facet reversed(Facet f) {
    List<Integer> out = new ArrayList<>(f.corners());
    Collections.reverse(out.subList(1, out.size()));
    return new Facet(f.name(), out);
  }

  private static Enclosure sized(Size size, Optional<Back> back) {
    double w = value(size.width());
    double h = value(size.height());
    double d = value(size.depth());
    if (back.isEmpty()) {
      return Enclosure.rectangular(w, d, h);
    }
    double backWidth = back.get().width().map(CabinetGeometry::value).orElse(w);
    double backHeight = back.get().height().map(CabinetGeometry::value).orElse(h);
    double left = back.get().left().map(CabinetGeometry::value).orElse((w - backWidth) / 2);
    double bottom = back.get().bottom().map(CabinetGeometry::value).orElse((h - backHeight) / 2);
    return Enclosure.tapered(
        new double[] {w, h}, d, new double[] {left, left + backWidth, bottom, bottom + backHeight});
  }

  private static double value(Reading reading) {
    return reading.estimate().value();
  }

  private static double[] thickness(BoxReadings box, Enclosure shape, double unknown) {
    return shape.walls().stream()
        .mapToDouble(w -> reading(box, w.name()).map(CabinetGeometry::value).orElse(unknown))
        .toArray();
  }

  /** What the sheet gives for a wall's thickness. */
  static Optional<Reading> reading(BoxReadings box, String wall) {
    Optional<Reading> own = box.cabinet().wall(wall).flatMap(WallReadings::thickness);
    Optional<Reading> front = wall.equals("front") ? box.baffle() : Optional.empty();
    return own.or(() -> front).or(() -> box.wall());
  }

  /** Names of the walls. */
  List<String> names() {
    return inner.walls().stream().map(Facet::name).toList();
  }

  /** How far the room reaches behind a wall, m. */
  double depth(String wall) {
    Plane plane = inner.plane(inner.walls().get(names().indexOf(wall)));
    return inner.corners().stream().mapToDouble(p -> -plane.local(p).z()).max().orElse(0);
  }

  /** Whether a wall is higher than wide, so that a board's grain is taken to run up it. */
  boolean upright(int wall) {
    Enclosure middle = middle();
    Facet facet = middle.walls().get(wall);
    Plane plane = middle.plane(facet);
    double[] x =
        facet.corners().stream()
            .mapToDouble(i -> plane.local(middle.corners().get(i)).x())
            .sorted()
            .toArray();
    double[] y =
        facet.corners().stream()
            .mapToDouble(i -> plane.local(middle.corners().get(i)).y())
            .sorted()
            .toArray();
    return y[y.length - 1] - y[0] > x[x.length - 1] - x[0];
  }

  /** The middle planes of the walls. */
  Enclosure middle() {
    double[] by = new double[thickness.length];
    for (int i = 0; i < by.length; i++) {
      by[i] = thickness[i] / 2;
    }
    return inner.grown(by);
  }

  Enclosure outer() {
    return inner.grown(thickness);
  }

  /** Volume of all boards, cut-outs taken off, m³. */
  double boards() {
    double sum = outer().volume() - inner.volume();
    for (int i = 0; i < thickness.length; i++) {
      sum -= holes(i);
    }
    return sum;
  }

  /** Volume of one board, its corners shared half and half, cut-outs taken off, m³. */
  double board(int wall) {
    Enclosure middle = middle();
    return middle.area(middle.walls().get(wall)) * thickness[wall] - holes(wall) + battens(wall);
  }

  private double battens(int wall) {
    return braces(wall).filter(b -> b.material().isEmpty()).mapToDouble(BoxWalls::volume).sum();
  }

  /** Battens of a wall, those that do not fit left out. */
  Stream<BraceReadings> braces(int wall) {
    return box.cabinet().wall(names().get(wall)).stream()
        .flatMap(w -> w.braces().stream())
        .filter(b -> BoxWalls.fits(this, wall, b));
  }

  /** Mass of what is glued in and is of no wall's own board: battens, window braces, sheets; kg. */
  Estimate fixtures() {
    double sum = 0;
    for (int wall = 0; wall < thickness.length; wall++) {
      double area = middle().area(middle().walls().get(wall));
      sum +=
          braces(wall)
              .mapToDouble(
                  b ->
                      b.material()
                          .flatMap(box.cabinet()::material)
                          .map(m -> m.density().middle() * BoxWalls.volume(b))
                          .orElse(0.0))
              .sum();
      sum +=
          box.cabinet()
              .wall(names().get(wall))
              .flatMap(WallReadings::damping)
              .map(d -> d.kind().sheet().mass(value(d.thickness())) * area)
              .orElse(0.0);
    }
    for (WindowBraceReadings brace : box.cabinet().windowBraces()) {
      sum += WindowBrace.mass(this, brace);
    }
    return new Estimate(sum, FIXTURES * sum);
  }

  private double holes(int wall) {
    return box.cabinet()
        .wall(names().get(wall))
        .map(
            w ->
                w.cutOuts().stream()
                    .mapToDouble(c -> Math.PI * Math.pow(value(c.diameter()) / 2, 2))
                    .sum())
        .map(area -> area * thickness[wall])
        .orElse(0.0);
  }

  /**
   * A place on a wall given from its outer left and lower edges, seen from outside, in the axes of
   * the wall's middle plane.
   */
  Point onWall(int wall, double right, double up) {
    Facet facet = inner.walls().get(wall);
    Plane plane = middle().plane(facet);
    Point corner = outer().corners().get(facet.corners().get(0));
    Point p = corner.plus(plane.along().times(right)).plus(plane.across().times(up));
    Point local = plane.local(p);
    return new Point(local.x(), local.y(), 0);
  }

  /** Number of the wall that feet stand under. */
  OptionalInt bottom() {
    int at = names().indexOf("bottom");
    return at < 0 ? OptionalInt.empty() : OptionalInt.of(at);
  }

  /** Corners of a wall's outer face, in the axes of its middle plane. */
  Outline outerFace(int wall) {
    Plane plane = middle().plane(inner.walls().get(wall));
    Enclosure outer = outer();
    return new Outline(
        inner.walls().get(wall).corners().stream()
            .map(i -> plane.local(outer.corners().get(i)))
            .toList());
  }

  /** Middles of the feet, those that do not fit too, in the axes of the bottom's middle plane. */
  List<Point> feet() {
    Optional<FeetReadings> feet = box.cabinet().feet();
    if (feet.isEmpty() || bottom().isEmpty()) {
      return List.of();
    }
    int bottom = bottom().getAsInt();
    return feet.get()
        .inset()
        .map(inset -> corners(outerFace(bottom).corners(), value(inset)))
        .orElseGet(
            () -> feet.get().at().stream().map(p -> underneath(bottom, p.x(), p.y())).toList());
  }

  /** A place under the bottom, from the box's outermost left and back. */
  private Point underneath(int bottom, double right, double forward) {
    List<Point> corners = outer().corners();
    double left = corners.stream().mapToDouble(Point::x).min().orElseThrow();
    double back = corners.stream().mapToDouble(Point::y).max().orElseThrow();
    Plane plane = middle().plane(inner.walls().get(bottom));
    Point p = new Point(left + right, back - forward, plane.origin().z());
    Point local = plane.local(p);
    return new Point(local.x(), local.y(), 0);
  }

  /** A place in each corner that points outwards, so far from both edges. */
  private static List<Point> corners(List<Point> outline, double inset) {
    List<Point> out = new ArrayList<>();
    int n = outline.size();
    for (int i = 0; i < n; i++) {
      Point corner = outline.get(i);
      Point on = outline.get((i + 1) % n).minus(corner).unit();
      Point back = outline.get((i + n - 1) % n).minus(corner).unit();
      double sine = on.cross(back).z();
      if (sine > 0) {
        out.add(corner.plus(on.plus(back).times(inset / sine)));
      }
    }
    return out;
  }

  /** The same on the inner face, in space. */
  Point inside(int wall, double right, double up) {
    Facet facet = inner.walls().get(wall);
    Plane face = inner.plane(facet);
    Point local = onWall(wall, right, up);
    Point p = middle().plane(facet).space(local);
    Point flat = face.local(p);
    return face.space(new Point(flat.x(), flat.y(), 0));
  }
}
