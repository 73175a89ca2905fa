package cutaway.bench.exam;

import cutaway.acoustics.board.Material;
import cutaway.acoustics.cabinet.Board;
import cutaway.acoustics.cabinet.Brace;
import cutaway.acoustics.cabinet.CutOut;
import cutaway.acoustics.cabinet.Enclosure;
import cutaway.acoustics.cabinet.Enclosure.Facet;
import cutaway.acoustics.cabinet.Foot;
import cutaway.acoustics.cabinet.Hole;
import cutaway.acoustics.cabinet.ImpossibleShapeException;
import cutaway.acoustics.cabinet.Outline;
import cutaway.acoustics.cabinet.Panel;
import cutaway.acoustics.cabinet.Plane;
import cutaway.acoustics.cabinet.Point;
import cutaway.acoustics.cabinet.Support;
import cutaway.acoustics.cabinet.Wall;
import cutaway.bench.measure.Reading;
import cutaway.bench.sheet.CabinetReadings.BraceReadings;
import cutaway.bench.sheet.CabinetReadings.CutOutReadings;
import cutaway.bench.sheet.CabinetReadings.FeetReadings;
import cutaway.bench.sheet.CabinetReadings.WallReadings;
import cutaway.bench.sheet.CabinetReadings.WindowBraceReadings;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.stream.Stream;

/** The walls of a box as plates, with their cut-outs and braces. */
final class BoxWalls {
  private static final double FLANGE = 1.1;
  private static final double LEAST_FLANGE = 1.02;

  /** Shorter battens are none, m. */
  private static final double SHORTEST = 0.005;

  /** Kept between a window brace and what it must not meet, m. */
  private static final double CLEAR = 0.002;

  /** Where a damping sheet's loss and stiffness are taken, Hz: amid what walls ring at. */
  static final double DAMPED_AT = 300;

  /** What a damping sheet's constants leave open in a loss: a factor of two, as a share. */
  static final double DAMPED_SPREAD = 0.5;

  private final CabinetGeometry geometry;
  private final Enclosure middle;
  private final Consumer<String> misfit;

  private BoxWalls(CabinetGeometry geometry, Consumer<String> misfit) {
    this.geometry = geometry;
    this.middle = geometry.middle();
    this.misfit = misfit;
  }

  /**
   * Builds.
   *
   * @param boards one for each wall, without damping sheets
   * @param misfit told of each cut-out, brace or foot that does not fit and is left out
   * @return the walls in their order, then the window braces
   */
  static List<Wall> of(CabinetGeometry geometry, List<Board> boards, Consumer<String> misfit) {
    BoxWalls box = new BoxWalls(geometry, misfit);
    List<Wall> out = new ArrayList<>();
    for (int i = 0; i < boards.size(); i++) {
      out.add(box.wall(i, boards.get(i)));
    }
    box.stand(out);
    for (WindowBraceReadings brace : geometry.box().cabinet().windowBraces()) {
      box.windowBrace(brace, out).ifPresent(out::add);
    }
    return out;
  }

  private Wall wall(int which, Board board) {
    String name = geometry.names().get(which);
    Facet facet = middle.walls().get(which);
    Plane plane = middle.plane(facet);
    List<Point> flat =
        facet.corners().stream().map(i -> plane.local(middle.corners().get(i))).toList();
    Optional<WallReadings> read = geometry.box().cabinet().wall(name);
    Board dressed = dressed(geometry, which, board);
    Panel panel =
        new Panel(
            new Outline(flat),
            dressed,
            Collections.nCopies(flat.size(), new Support.Free()),
            List.of(),
            List.of(),
            List.of());
    for (CutOutReadings c : read.map(WallReadings::cutOuts).orElse(List.of())) {
      panel =
          with(
              panel,
              hole(geometry, which, c),
              "the cut-out '" + c.what() + "' on the " + name + " at " + place(c.right(), c.up()));
    }
    for (BraceReadings b : read.map(WallReadings::braces).orElse(List.of())) {
      if (fits(geometry, which, b)) {
        panel = with(panel, brace(which, b, board), brace(name, b));
      } else {
        misfit.accept(
            metres(b.depth()) < geometry.depth(name)
                ? brace(name, b) + " has no length or reaches over the wall's edge"
                : brace(name, b) + " is deeper than the box");
      }
    }
    return new Wall(name, plane, panel);
  }

  /** Puts the box on its feet, those that have a place. */
  private void stand(List<Wall> walls) {
    Optional<FeetReadings> read = geometry.box().cabinet().feet();
    if (read.isPresent() && geometry.bottom().isEmpty()) {
      misfit.accept("what it says of feet is for a box that has a 'bottom', which this has not");
    }
    List<Foot> feet = new ArrayList<>();
    for (Point at : geometry.feet()) {
      Wall bottom = walls.get(geometry.bottom().getAsInt());
      Foot foot =
          read.get()
              .material()
              .foot(at, metres(read.get().diameter()), metres(read.get().height()));
      Optional<String> fault = fault(bottom, foot, feet);
      fault.ifPresent(misfit);
      if (fault.isEmpty()) {
        feet.add(foot);
      }
    }
    geometry.bottom().ifPresent(i -> walls.set(i, walls.get(i).on(feet)));
  }

  /** Why a foot has no place. */
  private Optional<String> fault(Wall bottom, Foot foot, List<Foot> others) {
    Outline face = geometry.outerFace(geometry.bottom().getAsInt());
    boolean over =
        bottom.panel().cutOuts().stream()
            .filter(Hole.class::isInstance)
            .map(Hole.class::cast)
            .anyMatch(h -> h.centre().minus(foot.at()).length() < h.radius() + foot.diameter() / 2);
    double inset =
        geometry.box().cabinet().feet().flatMap(f -> f.inset()).map(BoxWalls::metres).orElse(0.0);
    if (!face.holds(foot.at())) {
      return Optional.of("a foot lies beyond the edge of the bottom");
    }
    if (Math.PI / 4 * foot.diameter() * foot.diameter() > face.area()) {
      return Optional.of("a foot is wider than the bottom");
    }
    if (face.room(foot.at()) < inset - CLEAR) {
      return Optional.of("a foot set so far in lies beyond the middle of the bottom");
    }
    if (others.stream().anyMatch(o -> o.at().minus(foot.at()).length() < foot.diameter())) {
      return Optional.of("a foot lies over another");
    }
    return over ? Optional.of("a foot lies on a cut-out of the bottom") : Optional.empty();
  }

  /** A wall's board with the damping sheet that the sheet lists on it. */
  static Board dressed(CabinetGeometry geometry, int wall, Board bare) {
    return geometry
        .box()
        .cabinet()
        .wall(geometry.names().get(wall))
        .flatMap(WallReadings::damping)
        .map(d -> d.kind().sheet().on(bare, metres(d.thickness()), DAMPED_AT))
        .orElse(bare);
  }

  /** Loss factor of a wall's board with what is glued on it. */
  static double loss(WallReadings wall, Board bare, double own) {
    return wall.damping()
        .map(d -> d.kind().sheet().loss(bare, own, metres(d.thickness()), DAMPED_AT))
        .orElse(own);
  }

  private Optional<Wall> windowBrace(WindowBraceReadings read, List<Wall> others) {
    String which = "the window brace at " + read.height().text();
    try {
      Wall brace = WindowBrace.of(geometry, read);
      for (Wall other : others) {
        inTheWay(brace, other)
            .ifPresent(
                what -> {
                  throw new ImpossibleShapeException("it meets " + what);
                });
      }
      return Optional.of(brace);
    } catch (ImpossibleShapeException e) {
      misfit.accept(which + ": " + e.getMessage());
      return Optional.empty();
    }
  }

  /** What of a wall a level board would stand over. */
  private static Optional<String> inTheWay(Wall brace, Wall other) {
    double z = brace.plane().origin().z();
    double half = brace.panel().board().thickness() / 2 + CLEAR;
    if (Math.abs(other.plane().normal().z()) > 0.99) {
      double apart = Math.abs(other.plane().origin().z() - z);
      return apart < half + other.panel().board().thickness() / 2
          ? Optional.of(
              other.name().equals(brace.name()) ? "another" : "the " + other.name() + " wall")
          : Optional.empty();
    }
    return other.panel().cutOuts().stream()
        .filter(Hole.class::isInstance)
        .map(Hole.class::cast)
        .filter(
            hole ->
                Math.abs(other.plane().space(hole.centre()).z() - z)
                    < half + Math.max(hole.radius(), hole.ring()))
        .map(hole -> "a cut-out of the " + other.name())
        .findFirst();
  }

  private static String brace(String wall, BraceReadings b) {
    return "the brace on the " + wall + " from " + place(b.from().x(), b.from().y());
  }

  private static String place(double right, double up) {
    return String.format(Locale.ROOT, "[%.0f mm, %.0f mm]", 1000 * right, 1000 * up);
  }

  private static double metres(Reading reading) {
    return reading.estimate().value();
  }

  private Panel with(Panel panel, Hole hole, String named) {
    List<CutOut> cutOuts = new ArrayList<>(panel.cutOuts());
    cutOuts.add(hole);
    try {
      return new Panel(
              panel.outline(), panel.board(), panel.supports(), List.of(), cutOuts, List.of())
          .checked();
    } catch (ImpossibleShapeException e) {
      misfit.accept(named + ": " + e.getMessage());
      return panel;
    }
  }

  /** Whether a batten lies on its wall and within the box. */
  static boolean fits(CabinetGeometry geometry, int wall, BraceReadings b) {
    Enclosure middle = geometry.middle();
    Facet facet = middle.walls().get(wall);
    Plane plane = middle.plane(facet);
    Outline outline =
        new Outline(
            facet.corners().stream().map(i -> plane.local(middle.corners().get(i))).toList());
    Point from = geometry.onWall(wall, b.from().x(), b.from().y());
    Point to = geometry.onWall(wall, b.to().x(), b.to().y());
    Point along = to.minus(from);
    if (!(along.length() > SHORTEST) || metres(b.depth()) >= geometry.depth(name(geometry, wall))) {
      return false;
    }
    // a hair within its own foot, which may end at the very edge
    Point half = new Point(-along.y(), along.x(), 0).unit().times(0.49 * metres(b.width()));
    return Stream.of(from.plus(half), from.minus(half), to.plus(half), to.minus(half))
        .allMatch(outline::holds);
  }

  private static String name(CabinetGeometry geometry, int wall) {
    return geometry.names().get(wall);
  }

  private Panel with(Panel panel, Brace brace, String named) {
    List<Brace> braces = new ArrayList<>(panel.braces());
    braces.add(brace);
    try {
      return new Panel(
              panel.outline(), panel.board(), panel.supports(), List.of(), panel.cutOuts(), braces)
          .checked();
    } catch (ImpossibleShapeException e) {
      misfit.accept(named + ": " + e.getMessage());
      return panel;
    }
  }

  /** A cut-out as a hole; what sits in it lies on a flange of a tenth more where none is given. */
  static Hole hole(CabinetGeometry geometry, int wall, CutOutReadings cut) {
    Point centre = geometry.onWall(wall, cut.right(), cut.up());
    double radius = cut.diameter().estimate().value() / 2;
    double mass = cut.mass().map(m -> m.estimate().value()).orElse(0.0);
    if (mass == 0) {
      return Hole.open(centre, radius);
    }
    double ring = cut.flange().map(f -> f.estimate().value() / 2).orElse(FLANGE * radius);
    return new Hole(centre, radius, Math.max(ring, LEAST_FLANGE * radius), mass);
  }

  /** Volume of a batten, m³. */
  static double volume(BraceReadings b) {
    return b.to().minus(b.from()).length() * metres(b.width()) * metres(b.depth());
  }

  private Brace brace(int wall, BraceReadings b, Board board) {
    Optional<Material> own = b.material().flatMap(geometry.box().cabinet()::material);
    double young = own.map(m -> m.modulus().middle() * Math.sqrt(m.grain())).orElse(board.along());
    double density = own.map(m -> m.density().middle()).orElse(board.density());
    return new Brace(
        geometry.onWall(wall, b.from().x(), b.from().y()),
        geometry.onWall(wall, b.to().x(), b.to().y()),
        b.width().estimate().value(),
        b.depth().estimate().value(),
        young,
        young / 2.6,
        density);
  }
}
