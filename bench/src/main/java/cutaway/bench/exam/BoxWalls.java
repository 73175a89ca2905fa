package cutaway.bench.exam;

import cutaway.acoustics.board.Material;
import cutaway.acoustics.cabinet.Board;
import cutaway.acoustics.cabinet.Brace;
import cutaway.acoustics.cabinet.CutOut;
import cutaway.acoustics.cabinet.Enclosure;
import cutaway.acoustics.cabinet.Enclosure.Facet;
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
import cutaway.bench.sheet.CabinetReadings.DampingReadings;
import cutaway.bench.sheet.CabinetReadings.WallReadings;
import cutaway.bench.sheet.CabinetReadings.WindowBraceReadings;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;

/** The walls of a box as plates, with their cut-outs and braces. */
final class BoxWalls {
  private static final double FLANGE = 1.1;
  private static final double LEAST_FLANGE = 1.02;

  /** Where a damping sheet's loss and stiffness are taken, Hz: amid what walls ring at. */
  static final double DAMPED_AT = 300;

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
   * @param misfit told of each cut-out or brace that does not fit and is left out
   * @return the walls in their order, then the window braces
   */
  static List<Wall> of(CabinetGeometry geometry, List<Board> boards, Consumer<String> misfit) {
    BoxWalls box = new BoxWalls(geometry, misfit);
    List<Wall> out = new ArrayList<>();
    for (int i = 0; i < boards.size(); i++) {
      out.add(box.wall(i, boards.get(i)));
    }
    for (WindowBraceReadings brace : geometry.box().cabinet().windowBraces()) {
      box.windowBrace(brace).ifPresent(out::add);
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
    Optional<DampingReadings> damping = read.flatMap(WallReadings::damping);
    Board dressed = damping.map(d -> dressed(d, board)).orElse(board);
    Panel panel =
        new Panel(
            new Outline(flat),
            dressed,
            Collections.nCopies(flat.size(), new Support.Free()),
            List.of(),
            List.of(),
            List.of());
    for (CutOutReadings c : read.map(WallReadings::cutOuts).orElse(List.of())) {
      panel = with(panel, hole(geometry, which, c), name, c.what());
    }
    for (BraceReadings b : read.map(WallReadings::braces).orElse(List.of())) {
      panel = with(panel, brace(which, b, board), name);
    }
    return new Wall(name, plane, panel);
  }

  private static Board dressed(DampingReadings damping, Board board) {
    return damping.kind().sheet().on(board, metres(damping.thickness()), DAMPED_AT);
  }

  /** Loss factor of a wall's board with what is glued on it. */
  static double loss(WallReadings wall, Board bare, double own) {
    return wall.damping()
        .map(d -> d.kind().sheet().loss(bare, own, metres(d.thickness()), DAMPED_AT))
        .orElse(own);
  }

  private Optional<Wall> windowBrace(WindowBraceReadings brace) {
    try {
      return Optional.of(WindowBrace.of(geometry, brace));
    } catch (ImpossibleShapeException e) {
      misfit.accept("a window brace: " + e.getMessage());
      return Optional.empty();
    }
  }

  private static double metres(Reading reading) {
    return reading.estimate().value();
  }

  private Panel with(Panel panel, Hole hole, String wall, String what) {
    List<CutOut> cutOuts = new ArrayList<>(panel.cutOuts());
    cutOuts.add(hole);
    try {
      return new Panel(
              panel.outline(), panel.board(), panel.supports(), List.of(), cutOuts, List.of())
          .checked();
    } catch (ImpossibleShapeException e) {
      misfit.accept("the cut-out '" + what + "' on the " + wall + ": " + e.getMessage());
      return panel;
    }
  }

  private Panel with(Panel panel, Brace brace, String wall) {
    double deepest = geometry.depth(wall);
    boolean inside =
        panel.outline().holds(brace.from())
            && panel.outline().holds(brace.to())
            && brace.depth() < deepest;
    if (!inside) {
      misfit.accept(
          brace.depth() < deepest
              ? "a brace on the " + wall + " reaches over its edge"
              : "a brace on the " + wall + " is deeper than the box");
      return panel;
    }
    List<Brace> braces = new ArrayList<>(panel.braces());
    braces.add(brace);
    try {
      return new Panel(
              panel.outline(), panel.board(), panel.supports(), List.of(), panel.cutOuts(), braces)
          .checked();
    } catch (ImpossibleShapeException e) {
      misfit.accept("a brace on the " + wall + ": " + e.getMessage());
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
