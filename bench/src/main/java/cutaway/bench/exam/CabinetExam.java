package cutaway.bench.exam;

import cutaway.acoustics.air.Air;
import cutaway.acoustics.cabinet.Cavity;
import cutaway.acoustics.cabinet.Enclosure.Facet;
import cutaway.acoustics.cabinet.Hole;
import cutaway.acoustics.cabinet.ImpossibleShapeException;
import cutaway.acoustics.cabinet.Patch;
import cutaway.acoustics.cabinet.Plane;
import cutaway.acoustics.cabinet.Point;
import cutaway.bench.finding.Finding;
import cutaway.bench.finding.Notice;
import cutaway.bench.sheet.CabinetReadings.CutOutReadings;
import cutaway.bench.sheet.CabinetReadings.WallReadings;
import cutaway.bench.sheet.Sheet;
import cutaway.bench.sheet.Sheet.BoxReadings;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;

/** What the box's walls and the air inside it do. */
final class CabinetExam {
  private final Sheet sheet;
  private final BoxReadings box;
  private final Results results;

  private CabinetExam(Sheet sheet, Results results) {
    this.sheet = sheet;
    this.box = sheet.box().orElseThrow();
    this.results = results;
  }

  static void run(
      Sheet sheet,
      Function<String, Path> resolve,
      Optional<Finding> movingMass,
      Optional<Finding> pistonArea,
      Results results,
      Map<String, String> understood) {
    CabinetExam exam = new CabinetExam(sheet, results);
    Optional<CabinetGeometry> geometry = exam.geometry(CabinetGeometry.USUAL);
    List<String> names = geometry.map(CabinetGeometry::names).orElse(List.of());
    Map<String, KnockExam.Heard> heard = KnockExam.run(sheet, names, resolve, results, understood);
    if (geometry.isEmpty()) {
      return;
    }
    exam.unknownNames(geometry.get());
    Optional<BoardExam.Found> board = BoardExam.run(sheet, geometry.get(), heard, results);
    CabinetGeometry found =
        board.flatMap(b -> exam.geometry(b.board().thickness().median())).orElse(geometry.get());
    exam.walls(found, heard, board, movingMass, pistonArea);
  }

  private void walls(
      CabinetGeometry geometry,
      Map<String, KnockExam.Heard> heard,
      Optional<BoardExam.Found> board,
      Optional<Finding> movingMass,
      Optional<Finding> pistonArea) {
    Air air = Bench.air(sheet);
    int wall = geometry.names().indexOf("front");
    Optional<Patch> cone = Optional.empty();
    for (int i = 0; i < geometry.names().size() && cone.isEmpty(); i++) {
      cone = cone(geometry, i);
      wall = cone.isPresent() ? i : wall;
    }
    if (cone.isEmpty() && wall >= 0) {
      cone = guessed(geometry, wall);
    }
    List<String> place = new ArrayList<>(List.of("box.size", "box.walls", "air"));
    sheet.driveUnit().height().ifPresent(h -> place.add("drive-unit.height"));
    sheet.driveUnit().pistonDiameter().ifPresent(d -> place.add("drive-unit.piston-diameter"));
    Optional<Cavity> cavity = CavityExam.run(geometry, air, cone, place, results);
    heardWithout(heard, geometry).ifPresent(results::notice);
    if (box.cabinet().walls().isEmpty() && board.isEmpty()) {
      return;
    }
    Set<String> restsOn = new LinkedHashSet<>(place);
    heard.values().forEach(h -> restsOn.add("takes." + h.take()));
    movingMass.ifPresent(f -> restsOn.addAll(f.restsOn()));
    pistonArea.ifPresent(f -> restsOn.addAll(f.restsOn()));
    Optional<Double> massOverArea =
        movingMass.flatMap(m -> pistonArea.map(s -> m.estimate().value() / s.estimate().value()));
    int coneWall = wall;
    Optional<Hole> flange =
        wall < 0
            ? Optional.empty()
            : driveUnit(geometry, wall).map(c -> BoxWalls.hole(geometry, coneWall, c));
    WallExam.run(
        new WallExam.Seen(
            geometry,
            new WallSound.Drive(cavity, cone, coneWall, flange, massOverArea),
            heard,
            board),
        air,
        List.copyOf(restsOn),
        results);
  }

  private static Optional<Notice> heardWithout(
      Map<String, KnockExam.Heard> heard, CabinetGeometry geometry) {
    return !heard.isEmpty() && geometry.box().cabinet().walls().isEmpty()
        ? Optional.of(
            Notice.note(
                "box.walls",
                "the sheet says nothing of the walls, so all of them count as one unknown board",
                "list what is known: thickness, material, cut-outs"))
        : Optional.empty();
  }

  private Optional<CabinetGeometry> geometry(double unknown) {
    try {
      Optional<CabinetGeometry> geometry = CabinetGeometry.of(box, unknown);
      geometry.ifPresent(g -> g.inner().room());
      return geometry;
    } catch (ImpossibleShapeException e) {
      results.notice(
          Notice.fault(
              "box",
              "no box has this shape: " + e.getMessage(),
              "check corners, sizes and thicknesses"));
      return Optional.empty();
    }
  }

  /** A wall of the sheet that the box does not have. */
  private void unknownNames(CabinetGeometry geometry) {
    for (WallReadings wall : box.cabinet().walls()) {
      if (!geometry.names().contains(wall.name())) {
        results.notice(
            Notice.fault(
                "box.walls." + wall.name(),
                "this box has no such wall",
                "its walls are " + String.join(", ", geometry.names())));
      }
    }
  }

  /** The drive unit's cut-out on a wall. */
  private Optional<CutOutReadings> driveUnit(CabinetGeometry geometry, int wall) {
    return box.cabinet().wall(geometry.names().get(wall)).stream()
        .flatMap(w -> w.cutOuts().stream())
        .filter(c -> c.what().equals("drive unit"))
        .findFirst();
  }

  /** The piston as a disc on the inside, where a cut-out tells where it is. */
  private Optional<Patch> cone(CabinetGeometry geometry, int wall) {
    return driveUnit(geometry, wall)
        .map(c -> disc(geometry, wall, geometry.inside(wall, c.right(), c.up())));
  }

  private Patch disc(CabinetGeometry geometry, int wall, Point centre) {
    Facet facet = geometry.inner().walls().get(wall);
    double radius =
        sheet.driveUnit().pistonDiameter().map(r -> r.estimate().value() / 2).orElse(0.05);
    return Patch.disc(centre, geometry.inner().plane(facet).normal(), radius);
  }

  /** In the middle of the front, at the height the sheet gives. */
  private Optional<Patch> guessed(CabinetGeometry geometry, int wall) {
    return sheet
        .driveUnit()
        .height()
        .map(
            h -> {
              Facet facet = geometry.inner().walls().get(wall);
              Plane plane = geometry.inner().plane(facet);
              Point a = geometry.inner().corners().get(facet.corners().get(0));
              Point b = geometry.inner().corners().get(facet.corners().get(1));
              double low = geometry.outer().corners().get(facet.corners().get(0)).z();
              Point foot = a.towards(b, 0.5);
              double up = (h.estimate().value() + low - foot.z()) / plane.across().z();
              return disc(geometry, wall, foot.plus(plane.across().times(up)));
            });
  }
}
