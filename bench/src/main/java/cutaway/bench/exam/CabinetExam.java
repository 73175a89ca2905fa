package cutaway.bench.exam;

import cutaway.acoustics.air.Air;
import cutaway.acoustics.cabinet.Cavity;
import cutaway.acoustics.cabinet.CavityResponse;
import cutaway.acoustics.cabinet.Fluid;
import cutaway.acoustics.cabinet.Hole;
import cutaway.acoustics.cabinet.ImpossibleShapeException;
import cutaway.bench.finding.Finding;
import cutaway.bench.finding.Notice;
import cutaway.bench.result.Results;
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
  private final CabinetCheck check;
  private final Results results;

  private CabinetExam(Sheet sheet, CabinetCheck check, Results results) {
    this.sheet = sheet;
    this.box = sheet.box().orElseThrow();
    this.check = check;
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
    CabinetCheck check = new CabinetCheck(sheet, results);
    Optional<CabinetGeometry> geometry = check.geometry(CabinetGeometry.USUAL);
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
      check.sizes();
      check.walls(box);
      new CabinetExam(sheet, check, results)
          .examine(box, foreseen, heard, movingMass, pistonArea, sensitivity);
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
        board.flatMap(b -> check.geometry(b.board().thickness().median())).orElse(geometry);
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
}
