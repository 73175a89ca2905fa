package cutaway.bench.exam;

import cutaway.acoustics.board.Material;
import cutaway.acoustics.board.Range;
import cutaway.acoustics.cabinet.ImpossibleShapeException;
import cutaway.acoustics.cabinet.Plane;
import cutaway.acoustics.cabinet.Point;
import cutaway.acoustics.estimate.Estimate;
import cutaway.bench.finding.Finding;
import cutaway.bench.finding.Findings;
import cutaway.bench.finding.Remedy;
import cutaway.bench.measure.Reading;
import cutaway.bench.sheet.CabinetReadings;
import cutaway.bench.sheet.CabinetReadings.BraceReadings;
import cutaway.bench.sheet.CabinetReadings.WallReadings;
import cutaway.bench.sheet.Sheet;
import cutaway.bench.sheet.Sheet.BoxReadings;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Consumer;

/**
 * Changes to the walls, tried on paper: battens across the wall most likely heard, at several
 * places, and a thicker board; what each would do to every wall.
 */
public final class RemedyExam {
  private static final double BATTEN_WIDTH = 0.018;
  private static final double BATTEN_DEPTH = 0.040;
  private static final double BATTEN_DENSITY = 700;
  private static final double[] PLACES = {0.35, 0.5, 0.65};
  private static final double THICKER = 0.006;

  /** What the model leaves open in a difference of two levels, dB. */
  private static final double DIFFERENCE = 2;

  private final Sheet sheet;
  private final BoxReadings box;
  private final Findings findings;
  private final Optional<Finding> movingMass;
  private final Optional<Finding> pistonArea;

  private RemedyExam(Sheet sheet, Findings findings) {
    this.sheet = sheet;
    this.box = sheet.box().orElseThrow();
    this.findings = findings;
    this.movingMass = findings.finding("drive-unit.mms");
    this.pistonArea = findings.finding("drive-unit.sd");
  }

  /**
   * Tries each change.
   *
   * @param sheet the sheet
   * @param findings what a solve of it found
   * @param progress told what is being tried
   * @return the most useful first; empty where the walls are not known
   */
  public static List<Remedy> run(Sheet sheet, Findings findings, Consumer<String> progress) {
    Optional<String> worst = worst(findings);
    return sheet.box().isEmpty() || worst.isEmpty()
        ? List.of()
        : new RemedyExam(sheet, findings).tried(worst.get(), progress);
  }

  private static Optional<String> worst(Findings findings) {
    return findings.findings().stream()
        .filter(f -> f.id().startsWith("walls.") && f.id().endsWith(".heard"))
        .max(Comparator.comparingDouble(f -> f.estimate().value()))
        .map(f -> f.id().substring("walls.".length(), f.id().length() - ".heard".length()));
  }

  private List<Remedy> tried(String wall, Consumer<String> progress) {
    double unknown =
        findings
            .finding("walls.board.thickness")
            .map(f -> f.estimate().value())
            .orElse(CabinetGeometry.USUAL);
    CabinetGeometry geometry = CabinetGeometry.of(box, unknown).orElseThrow();
    CabinetReadings known = known(geometry);
    progress.accept("as it is");
    Map<String, double[]> before = walls(known);
    List<Remedy> out = new ArrayList<>();
    for (Change change : changes(geometry, known, wall)) {
      progress.accept(change.name());
      try {
        out.add(remedy(change, wall, before, walls(change.cabinet())));
      } catch (ImpossibleShapeException e) {
        progress.accept(change.name() + " does not fit: " + e.getMessage());
      }
    }
    out.sort(Comparator.comparingDouble(Remedy::heardAfter));
    return out;
  }

  /**
   * A change.
   *
   * @param name in plain words
   * @param cabinet the walls with it
   * @param mass it adds, kg
   * @param volume it takes from the air, m³
   */
  private record Change(String name, CabinetReadings cabinet, double mass, double volume) {}

  /** All walls as what is known or was found of them, so that no knock is needed. */
  private CabinetReadings known(CabinetGeometry geometry) {
    List<Material> materials = new ArrayList<>(box.cabinet().materials());
    List<WallReadings> walls = new ArrayList<>();
    for (int i = 0; i < geometry.names().size(); i++) {
      String name = geometry.names().get(i);
      Optional<WallReadings> read = box.cabinet().wall(name);
      Material material = BoardExam.material(box, name).orElseGet(() -> found(name));
      double loss =
          findings
              .finding("walls." + name + ".loss")
              .map(f -> f.estimate().value())
              .orElse(material.loss().middle());
      String own = "as-found-" + name;
      materials.add(
          new Material(
              own,
              material.density(),
              material.modulus(),
              material.grain(),
              material.poisson(),
              new Range(loss, loss),
              false,
              material.source()));
      walls.add(
          new WallReadings(
              name,
              read.map(WallReadings::corners).orElse(List.of()),
              Optional.of(millimetres(geometry.thickness()[i])),
              List.of(own),
              read.map(WallReadings::cutOuts).orElse(List.of()),
              read.map(WallReadings::braces).orElse(List.of()),
              read.flatMap(WallReadings::lining)));
    }
    return with(walls, materials);
  }

  private Material found(String wall) {
    double density = value("walls.board.density", 700);
    double modulus = value("walls.board.modulus", 3e9);
    return new Material(
        "as found",
        new Range(density, density),
        new Range(modulus, modulus),
        1,
        0.3,
        new Range(0.02, 0.02),
        false,
        "found by knock and scale, " + wall);
  }

  private double value(String id, double otherwise) {
    return findings.finding(id).map(f -> f.estimate().value()).orElse(otherwise);
  }

  private static Reading millimetres(double metres) {
    return new Reading(
        String.format(Locale.ROOT, "%.1f mm", 1000 * metres), Estimate.exact(metres), true);
  }

  private CabinetReadings with(List<WallReadings> walls, List<Material> materials) {
    CabinetReadings c = box.cabinet();
    return new CabinetReadings(
        c.back(),
        c.corners(),
        c.outline(),
        walls,
        materials,
        c.amplifierMass(),
        c.hardwareMass(),
        c.boardDensity());
  }

  private List<Change> changes(CabinetGeometry geometry, CabinetReadings known, String wall) {
    int which = geometry.names().indexOf(wall);
    Plane plane = geometry.middle().plane(geometry.middle().walls().get(which));
    double[] size = size(geometry, which, plane);
    double edge = 0.02;
    List<Change> out = new ArrayList<>();
    for (boolean upright : new boolean[] {true, false}) {
      for (double place : PLACES) {
        Point from =
            upright ? new Point(place * size[0], edge, 0) : new Point(edge, place * size[1], 0);
        Point to =
            upright
                ? new Point(place * size[0], size[1] - edge, 0)
                : new Point(size[0] - edge, place * size[1], 0);
        double length = to.minus(from).length();
        double volume = length * BATTEN_WIDTH * BATTEN_DEPTH;
        String name =
            String.format(
                Locale.ROOT,
                "batten 18 × 40 mm %s, %.0f mm from the %s edge",
                upright ? "upright" : "across",
                1000 * place * (upright ? size[0] : size[1]),
                upright ? "left" : "lower");
        out.add(new Change(name, braced(known, wall, from, to), volume * BATTEN_DENSITY, volume));
      }
    }
    double area = geometry.middle().area(geometry.middle().walls().get(which));
    double density =
        known
            .wall(wall)
            .flatMap(w -> known.material(w.materials().get(0)))
            .orElseThrow()
            .density()
            .middle();
    out.add(
        new Change(
            "board thicker by 6 mm, outwards",
            thicker(known, wall, geometry.thickness()[which] + THICKER),
            area * THICKER * density,
            0));
    return out;
  }

  /** Outer width and height of a wall seen from outside. */
  private static double[] size(CabinetGeometry geometry, int which, Plane plane) {
    double[] low = {Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY};
    double[] high = {Double.NEGATIVE_INFINITY, Double.NEGATIVE_INFINITY};
    for (int corner : geometry.inner().walls().get(which).corners()) {
      Point p = plane.local(geometry.outer().corners().get(corner));
      low[0] = Math.min(low[0], p.x());
      low[1] = Math.min(low[1], p.y());
      high[0] = Math.max(high[0], p.x());
      high[1] = Math.max(high[1], p.y());
    }
    return new double[] {high[0] - low[0], high[1] - low[1]};
  }

  private CabinetReadings braced(CabinetReadings known, String wall, Point from, Point to) {
    List<WallReadings> walls = new ArrayList<>();
    for (WallReadings w : known.walls()) {
      List<BraceReadings> braces = new ArrayList<>(w.braces());
      if (w.name().equals(wall)) {
        braces.add(
            new BraceReadings(
                from,
                to,
                millimetres(BATTEN_WIDTH),
                millimetres(BATTEN_DEPTH),
                Optional.of("mdf")));
      }
      walls.add(
          new WallReadings(
              w.name(),
              w.corners(),
              w.thickness(),
              w.materials(),
              w.cutOuts(),
              braces,
              w.lining()));
    }
    return with(walls, known.materials());
  }

  private CabinetReadings thicker(CabinetReadings known, String wall, double thickness) {
    List<WallReadings> walls = new ArrayList<>();
    for (WallReadings w : known.walls()) {
      walls.add(
          w.name().equals(wall)
              ? new WallReadings(
                  w.name(),
                  w.corners(),
                  Optional.of(millimetres(thickness)),
                  w.materials(),
                  w.cutOuts(),
                  w.braces(),
                  w.lining())
              : w);
    }
    return with(walls, known.materials());
  }

  /** Level and likelihood of each wall. */
  private Map<String, double[]> walls(CabinetReadings cabinet) {
    Sheet changed = sheet.forWalls().withoutTakes().withBox(box.withCabinet(cabinet));
    // the drive unit's findings rest on the takes, which are not solved again
    Evidence evidence = Evidence.of(sheet.withBox(box.withCabinet(cabinet)), Map.of());
    Results results = new Results(evidence);
    CabinetExam.run(
        changed,
        name -> {
          throw new IllegalStateException("a remedy reads no file");
        },
        movingMass,
        pistonArea,
        results,
        new TreeMap<>());
    Map<String, double[]> out = new TreeMap<>();
    for (WallReadings w : cabinet.walls()) {
      Optional<Finding> level = results.finding("walls." + w.name() + ".level");
      Optional<Finding> heard = results.finding("walls." + w.name() + ".heard");
      if (level.isPresent() && heard.isPresent()) {
        out.put(
            w.name(),
            new double[] {level.get().estimate().value(), heard.get().estimate().value()});
      }
    }
    return out;
  }

  private Remedy remedy(
      Change change, String wall, Map<String, double[]> before, Map<String, double[]> after) {
    double[] was = before.getOrDefault(wall, new double[2]);
    double[] is = after.getOrDefault(wall, new double[2]);
    double worst = after.values().stream().mapToDouble(v -> v[1]).max().orElse(0);
    Optional<Estimate> tuning =
        findings
            .finding("box.fb")
            .flatMap(
                fb ->
                    findings
                        .finding("box.volume")
                        .map(
                            v ->
                                fb.estimate()
                                    .times(
                                        Math.sqrt(
                                            v.estimate().value()
                                                / (v.estimate().value() - change.volume())))));
    return new Remedy(
        change.name(),
        wall,
        new Estimate(is[0] - was[0], DIFFERENCE),
        was[1],
        is[1],
        worst,
        change.mass(),
        change.volume(),
        tuning);
  }
}
