package cutaway.bench.exam;

import cutaway.acoustics.cabinet.Enclosure.Facet;
import cutaway.acoustics.cabinet.Patch;
import cutaway.acoustics.cabinet.Plane;
import cutaway.acoustics.cabinet.Point;
import cutaway.bench.sheet.CabinetReadings.CutOutReadings;
import cutaway.bench.sheet.Sheet;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Where the drive unit and the port open into the box.
 *
 * @param wall number of the wall the drive unit sits in, −1 where that is not known
 * @param cutOut its cut-out, where the sheet lists it
 * @param cone its piston as a disc on the inside, where the sheet tells its place
 * @param mouth the port's inner mouth, where the sheet tells its place
 */
record Openings(
    int wall, Optional<CutOutReadings> cutOut, Optional<Patch> cone, Optional<Patch> mouth) {
  static final String DRIVE_UNIT = "drive unit";
  static final String PORT = "port";

  /** A piston of which nothing is said, m. */
  private static final double USUAL_RADIUS = 0.05;

  static Openings of(Sheet sheet, CabinetGeometry geometry) {
    Optional<Patch> mouth = mouth(sheet, geometry);
    for (int wall = 0; wall < geometry.names().size(); wall++) {
      Optional<CutOutReadings> cut = cutOut(geometry, wall, DRIVE_UNIT);
      if (cut.isPresent()) {
        Point centre = geometry.inside(wall, cut.get().right(), cut.get().up());
        return new Openings(wall, cut, Optional.of(disc(sheet, geometry, wall, centre)), mouth);
      }
    }
    int front = geometry.names().indexOf("front");
    Optional<Patch> guessed = front < 0 ? Optional.empty() : guessed(sheet, geometry, front);
    return new Openings(front, Optional.empty(), guessed, mouth);
  }

  /** What a place inside the box rests on. */
  static List<String> restOn(Sheet sheet) {
    List<String> out = new ArrayList<>(List.of("box.size", "box.walls", "air"));
    sheet.driveUnit().height().ifPresent(h -> out.add("drive-unit.height"));
    sheet.driveUnit().pistonDiameter().ifPresent(d -> out.add("drive-unit.piston-diameter"));
    return List.copyOf(out);
  }

  private static Optional<CutOutReadings> cutOut(CabinetGeometry geometry, int wall, String what) {
    return geometry.box().cabinet().wall(geometry.names().get(wall)).stream()
        .flatMap(w -> w.cutOuts().stream())
        .filter(c -> c.what().equals(what))
        .findFirst();
  }

  private static Patch disc(Sheet sheet, CabinetGeometry geometry, int wall, Point centre) {
    Facet facet = geometry.inner().walls().get(wall);
    double radius =
        sheet.driveUnit().pistonDiameter().map(r -> r.estimate().value() / 2).orElse(USUAL_RADIUS);
    return Patch.disc(centre, geometry.inner().plane(facet).normal(), radius);
  }

  /** In the middle of the front, at the height the sheet gives. */
  private static Optional<Patch> guessed(Sheet sheet, CabinetGeometry geometry, int wall) {
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
              return disc(sheet, geometry, wall, foot.plus(plane.across().times(up)));
            });
  }

  /** Straight inwards from the port's cut-out by its length. */
  private static Optional<Patch> mouth(Sheet sheet, CabinetGeometry geometry) {
    var port = sheet.box().flatMap(Sheet.BoxReadings::port);
    if (port.isEmpty()) {
      return Optional.empty();
    }
    for (int wall = 0; wall < geometry.names().size(); wall++) {
      Optional<CutOutReadings> cut = cutOut(geometry, wall, PORT);
      if (cut.isPresent()) {
        Point normal = geometry.inner().plane(geometry.inner().walls().get(wall)).normal();
        double beyond = port.get().length().estimate().value() - geometry.thickness()[wall];
        Point centre =
            geometry
                .inside(wall, cut.get().right(), cut.get().up())
                .minus(normal.times(Math.max(0, beyond)));
        double radius = cut.get().diameter().estimate().value() / 2;
        return Optional.of(Patch.disc(centre, normal, radius));
      }
    }
    return Optional.empty();
  }
}
