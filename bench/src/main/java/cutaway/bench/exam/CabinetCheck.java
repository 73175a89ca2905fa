package cutaway.bench.exam;

import cutaway.acoustics.cabinet.Board;
import cutaway.acoustics.cabinet.ImpossibleShapeException;
import cutaway.bench.finding.Notice;
import cutaway.bench.measure.Reading;
import cutaway.bench.result.Results;
import cutaway.bench.sheet.CabinetReadings.Back;
import cutaway.bench.sheet.CabinetReadings.CutOutReadings;
import cutaway.bench.sheet.CabinetReadings.WallReadings;
import cutaway.bench.sheet.Sheet;
import cutaway.bench.sheet.Sheet.BoxReadings;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/** What is odd about the box's shape, walls and linings, without solving anything. */
final class CabinetCheck {
  private final Sheet sheet;
  private final BoxReadings box;
  private final Results results;

  CabinetCheck(Sheet sheet, Results results) {
    this.sheet = sheet;
    this.box = sheet.box().orElseThrow();
    this.results = results;
  }

  /** All of it, where the sheet has a box. */
  static void run(Sheet sheet, Results results) {
    if (sheet.box().isPresent()) {
      CabinetCheck check = new CabinetCheck(sheet, results);
      check.sizes();
      check
          .geometry(CabinetGeometry.USUAL)
          .ifPresent(
              geometry -> {
                check.walls(geometry);
                check.misfits(geometry);
              });
    }
  }

  /**
   * The box's shape; absent, with a fault, where no box has it.
   *
   * @param unknown thickness of walls of which it is not known, m
   */
  Optional<CabinetGeometry> geometry(double unknown) {
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

  /** Sizes that exclude or replace one another. */
  void sizes() {
    if (box.inner().isPresent() && box.outer().isPresent()) {
      Sheet.Size inner = box.inner().get();
      Sheet.Size outer = box.outer().get();
      boolean larger =
          value(outer.width()) > value(inner.width())
              && value(outer.height()) > value(inner.height())
              && value(outer.depth()) > value(inner.depth());
      if (!larger) {
        results.notice(
            Notice.fault(
                "box.outer",
                "the box is no larger outside than inside; the inner size is used",
                "measure both again"));
      }
    }
    boolean shape = !box.cabinet().corners().isEmpty() || box.cabinet().outline().isPresent();
    if (shape && (box.inner().isPresent() || box.outer().isPresent())) {
      results.notice(
          Notice.caution(
              "box",
              "both a size and corners or an outline are written; the corners or outline are used",
              "keep one of them"));
    }
    Optional<Sheet.Size> size = box.inner().or(box::outer).filter(s -> !shape);
    if (size.isPresent()
        && box.cabinet().back().filter(back -> isBeside(size.get(), back)).isPresent()) {
      results.notice(
          Notice.caution(
              "box.back",
              "the back lies wholly beside, above or below the front, so the box leans by more than its own width"
                  + " or height",
              "check 'left' and 'bottom': they count from the front's left and lower edge"));
    }
  }

  private static boolean isBeside(Sheet.Size size, Back back) {
    return isBeside(value(size.width()), back.width(), back.left())
        || isBeside(value(size.height()), back.height(), back.bottom());
  }

  private static boolean isBeside(double front, Optional<Reading> back, Optional<Reading> from) {
    double length = back.map(CabinetCheck::value).orElse(front);
    double at = from.map(CabinetCheck::value).orElse((front - length) / 2);
    return at >= front || at + length <= 0;
  }

  private static double value(Reading reading) {
    return reading.estimate().value();
  }

  /** Walls, linings and braces. */
  void walls(CabinetGeometry geometry) {
    names(geometry);
    covered(geometry);
    crossing().forEach(results::notice);
  }

  /** Cut-outs and braces that have no place; of what the boards are makes no difference. */
  private void misfits(CabinetGeometry geometry) {
    List<Board> boards = Arrays.stream(geometry.thickness()).mapToObj(WindowBrace::usual).toList();
    BoxWalls.of(
        geometry,
        boards,
        what ->
            results.notice(
                Notice.fault("box.walls", what + "; it is left out", "check its place and size")));
  }

  /** A wall of the sheet that the box does not have, a lining it has no room for. */
  private void names(CabinetGeometry geometry) {
    for (WallReadings wall : box.cabinet().walls()) {
      if (!geometry.names().contains(wall.name())) {
        results.notice(
            Notice.fault(
                "box.walls." + wall.name(),
                "this box has no such wall",
                "its walls are " + String.join(", ", geometry.names())));
      } else if (wall.lining()
          .filter(l -> !RoomLining.fits(geometry, wall.name(), l))
          .isPresent()) {
        results.notice(
            Notice.fault(
                "box.walls." + wall.name() + ".lining",
                "the lining is as thick as the box is deep behind this wall; it is not counted",
                "check its thickness"));
      }
      wall.lining()
          .filter(l -> l.resistivity().isPresent() && !l.kind().isEmpty())
          .ifPresent(
              l ->
                  results.notice(
                      Notice.note(
                          "box.walls." + wall.name() + ".lining",
                          "both a kind of lining and its flow resistivity are written; the"
                              + " resistivity is used",
                          "keep one of them")));
    }
  }

  /** A lining right behind the cone or across the port's mouth is seldom what is meant. */
  private void covered(CabinetGeometry geometry) {
    for (WallReadings wall : box.cabinet().walls()) {
      List<String> under = openings(wall);
      boolean lined =
          geometry.names().contains(wall.name())
              && wall.lining().filter(l -> RoomLining.fits(geometry, wall.name(), l)).isPresent();
      if (lined && !under.isEmpty()) {
        results.notice(
            Notice.note(
                "box.walls." + wall.name() + ".lining",
                "the lining is counted all over this wall, behind the "
                    + String.join(" and the ", under)
                    + " too",
                "where most of the wall is bare, strike its lining from the sheet"));
      }
    }
  }

  /** What sits in a wall; the drive unit in the front where no wall lists it. */
  private List<String> openings(WallReadings wall) {
    boolean listed =
        box.cabinet().walls().stream()
            .flatMap(w -> w.cutOuts().stream())
            .anyMatch(c -> c.what().equals(Openings.DRIVE_UNIT));
    boolean guessed =
        !listed && wall.name().equals("front") && sheet.driveUnit().height().isPresent();
    return Stream.concat(
            guessed ? Stream.of(Openings.DRIVE_UNIT) : Stream.empty(),
            wall.cutOuts().stream().map(CutOutReadings::what))
        .filter(List.of(Openings.DRIVE_UNIT, Openings.PORT)::contains)
        .distinct()
        .toList();
  }

  /** Of each wall whose braces cross. */
  private List<Notice> crossing() {
    return box.cabinet().walls().stream()
        .filter(w -> w.braces().stream().anyMatch(a -> w.braces().stream().anyMatch(a::crosses)))
        .map(
            w ->
                Notice.note(
                    "box.walls",
                    "the braces on the "
                        + w.name()
                        + " cross; each is counted by itself, so where they are joined the wall is a few"
                        + " per cent stiffer than told",
                    "nothing to do"))
        .toList();
  }
}
