package cutaway.bench.exam;

import cutaway.acoustics.air.Air;
import cutaway.acoustics.cabinet.Board;
import cutaway.acoustics.cabinet.Cavity;
import cutaway.acoustics.cabinet.CavityResponse;
import cutaway.acoustics.cabinet.Fluid;
import cutaway.acoustics.cabinet.Hole;
import cutaway.acoustics.cabinet.ImpossibleShapeException;
import cutaway.bench.finding.Finding;
import cutaway.bench.finding.Notice;
import cutaway.bench.measure.Reading;
import cutaway.bench.sheet.CabinetReadings;
import cutaway.bench.sheet.CabinetReadings.WallReadings;
import cutaway.bench.sheet.Sheet;
import cutaway.bench.sheet.Sheet.BoxReadings;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.IntStream;

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
      Optional<Finding> sensitivity,
      Runnable beside,
      Results results,
      Map<String, String> understood) {
    CabinetExam exam = new CabinetExam(sheet, results);
    Optional<CabinetGeometry> geometry = exam.geometry(CabinetGeometry.USUAL);
    if (geometry.isEmpty()) {
      KnockExam.run(sheet, List.of(), resolve, results, understood);
      return;
    }
    CabinetGeometry box = geometry.get();
    try (BoardExam.Foreseen foreseen = BoardExam.foreseen(sheet, box)) {
      Map<String, KnockExam.Heard> heard =
          KnockExam.run(sheet, box.names(), resolve, results, understood);
      foreseen.tones().await();
      beside.run();
      exam.sizes();
      exam.unknownNames(box);
      exam.examine(box, foreseen, heard, movingMass, pistonArea, sensitivity);
    } catch (ImpossibleShapeException e) {
      results.notice(
          Notice.fault(
              "box.walls",
              "what the walls do is not told: " + e.getMessage(),
              "check the places and sizes of cut-outs and braces"));
    }
  }

  private void examine(
      CabinetGeometry geometry,
      BoardExam.Foreseen foreseen,
      Map<String, KnockExam.Heard> heard,
      Optional<Finding> movingMass,
      Optional<Finding> pistonArea,
      Optional<Finding> sensitivity) {
    Optional<BoardExam.Found> board = BoardExam.run(sheet, geometry, foreseen, heard, results);
    CabinetGeometry found =
        board.flatMap(b -> geometry(b.board().thickness().median())).orElse(geometry);
    walls(found, heard, board, movingMass, pistonArea, sensitivity);
  }

  private void walls(
      CabinetGeometry geometry,
      Map<String, KnockExam.Heard> heard,
      Optional<BoardExam.Found> board,
      Optional<Finding> movingMass,
      Optional<Finding> pistonArea,
      Optional<Finding> sensitivity) {
    Air air = Bench.air(sheet);
    Openings openings = Openings.of(sheet, geometry);
    List<String> place = Openings.restOn(sheet);
    Optional<Cavity> cavity = CavityExam.run(geometry, air, openings.cone(), place, results);
    heardWithout(heard, geometry).ifPresent(results::notice);
    crossing(box.cabinet()).forEach(results::notice);
    if (box.cabinet().walls().isEmpty() && board.isEmpty()) {
      return;
    }
    Set<String> restsOn = new LinkedHashSet<>(place);
    heard.values().forEach(h -> restsOn.add("takes." + h.take()));
    box.cabinet().feet().ifPresent(f -> restsOn.add("box.feet"));
    movingMass.ifPresent(f -> restsOn.addAll(f.restsOn()));
    pistonArea.ifPresent(f -> restsOn.addAll(f.restsOn()));
    Optional<Double> massOverArea =
        movingMass.flatMap(m -> pistonArea.map(s -> m.estimate().value() / s.estimate().value()));
    Optional<Hole> flange = openings.cutOut().map(c -> BoxWalls.hole(geometry, openings.wall(), c));
    WallExam.run(
        new WallExam.Seen(
            geometry,
            new WallSound.Drive(
                cavity.map(c -> new SurfacePressures(geometry, c)),
                openings.cone(),
                openings.wall(),
                flange,
                waveLosses(geometry, cavity, air),
                massOverArea),
            heard,
            board,
            sensitivity.map(s -> s.estimate().value())),
        air,
        List.copyOf(restsOn),
        results);
  }

  /**
   * Loss of each standing wave: as bare air has it, or with a lining its own of the lowest and the
   * mean of those for the others.
   */
  static double[] waveLosses(CabinetGeometry geometry, Optional<Cavity> cavity, Air air) {
    double[] out = new double[cavity.map(Cavity::size).orElse(0)];
    Arrays.fill(out, WavesModel.LOSS);
    RoomLining lining = RoomLining.of(geometry);
    if (lining.none() || cavity.isEmpty()) {
      return out;
    }
    double c = air.soundSpeed().value();
    CavityResponse room =
        CavityResponse.ofWaves(cavity.get(), geometry.inner(), lining.thickness(), new double[0][]);
    Fluid fluid = Fluid.air(air.density().value(), c, WavesModel.LOSS);
    double[] rigid =
        IntStream.range(0, WavesModel.TOLD)
            .mapToDouble(wave -> cavity.get().wavenumber(wave) * c / (2 * Math.PI))
            .toArray();
    double[] lowest =
        room.resonances(rigid, fluid, lining.fluid(air, 1)).stream()
            .mapToDouble(omega -> 1 / WavesModel.q(omega))
            .toArray();
    return spread(lowest, out.length);
  }

  /** The lowest as they are, their mean for the others. */
  static double[] spread(double[] lowest, int count) {
    double[] out = new double[count];
    Arrays.fill(out, Arrays.stream(lowest).average().orElse(WavesModel.LOSS));
    System.arraycopy(lowest, 0, out, 0, Math.min(count, lowest.length));
    return out;
  }

  /** Of each wall whose braces cross. */
  private static List<Notice> crossing(CabinetReadings cabinet) {
    return cabinet.walls().stream()
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

  /** Sizes that exclude or replace one another. */
  private void sizes() {
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
  }

  private static double value(Reading reading) {
    return reading.estimate().value();
  }

  /** What is odd about the shape, without solving anything. */
  static void check(Sheet sheet, Results results) {
    if (sheet.box().isPresent()) {
      CabinetExam exam = new CabinetExam(sheet, results);
      exam.sizes();
      exam.geometry(CabinetGeometry.USUAL)
          .ifPresent(
              geometry -> {
                exam.unknownNames(geometry);
                exam.misfits(geometry);
              });
    }
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
  private void unknownNames(CabinetGeometry geometry) {
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
}
