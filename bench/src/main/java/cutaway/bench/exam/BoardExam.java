package cutaway.bench.exam;

import cutaway.acoustics.board.BoardEvidence;
import cutaway.acoustics.board.BoardInference;
import cutaway.acoustics.board.BoardPosterior;
import cutaway.acoustics.board.BoardPosterior.Gain;
import cutaway.acoustics.board.BoardPosterior.Interval;
import cutaway.acoustics.board.BoxTones;
import cutaway.acoustics.board.KnockedWall;
import cutaway.acoustics.board.Material;
import cutaway.acoustics.board.MaterialTable;
import cutaway.acoustics.board.Range;
import cutaway.acoustics.board.Weighing;
import cutaway.acoustics.cabinet.Board;
import cutaway.acoustics.cabinet.BoxModes;
import cutaway.acoustics.cabinet.Wall;
import cutaway.acoustics.estimate.Estimate;
import cutaway.bench.finding.CrossCheck;
import cutaway.bench.finding.Notice;
import cutaway.bench.measure.Reading;
import cutaway.bench.sheet.CabinetReadings;
import cutaway.bench.sheet.CabinetReadings.WallReadings;
import cutaway.bench.sheet.Sheet;
import cutaway.bench.sheet.Sheet.BoxReadings;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * What the walls are made of that nobody could see, from their knocks and the scale. All walls
 * whose material is not known count as one board.
 */
final class BoardExam {
  private static final Range THICKNESS = new Range(0.004, 0.03);

  /** Around a thickness that was seen, in standard uncertainties, and at least this share. */
  private static final double SEEN = 3;

  private static final double SEEN_SHARE = 0.02;

  /** E/ρ of usual boards, m²/s², and a density to go with it: what the slopes are taken about. */
  private static final double STIFFNESS = 4.3e6;

  private static final double DENSITY = 700;

  /** With fewer a knock does not tell which modes they are. */
  private static final int LEAST_MODES = 3;

  /** Above this the modes lie too close together to be told apart, Hz. */
  private static final double HIGHEST = 1000;

  /** What joined plates leave out of a glued box, as a factor on frequencies. */
  private static final Range JOINTS = new Range(0.98, 1.06);

  private static final double MODEL = 0.01;

  /** How many of a knock's modes are used. */
  private static final int MODES = 4;

  /** Half the width of a 90 % interval in standard deviations, twice. */
  private static final double NINETY = 2 * 1.645;

  private static final String METHOD =
      "joint inference by quadrature from knock frequencies and weight (docs/methods/board.md); the"
          + " middle and, as ±, the 90 % interval over 3.29";

  private final Sheet sheet;
  private final BoxReadings box;
  private final Map<String, KnockExam.Heard> heard;
  private final Results results;

  private BoardExam(
      Sheet sheet, BoxReadings box, Map<String, KnockExam.Heard> heard, Results results) {
    this.sheet = sheet;
    this.box = box;
    this.heard = heard;
    this.results = results;
  }

  /**
   * What was found.
   *
   * @param board what the unknown board is
   * @param modes of a box much like it, which its own can be found from
   */
  record Found(BoardPosterior board, BoxModes modes) {}

  /**
   * Weighs the materials.
   *
   * @return what the unknown board is, where a knock tells
   */
  static Optional<Found> run(
      Sheet sheet, CabinetGeometry geometry, Map<String, KnockExam.Heard> heard, Results results) {
    BoardExam exam = new BoardExam(sheet, geometry.box(), heard, results);
    Optional<Found> found = exam.unknown(geometry);
    exam.budget(geometry, found.map(Found::board));
    return found;
  }

  /** A wall's material where it is one that is told. */
  private static Optional<Material> material(BoxReadings box, String wall) {
    CabinetReadings cabinet = box.cabinet();
    return cabinet
        .wall(wall)
        .map(WallReadings::materials)
        .filter(m -> m.size() == 1)
        .flatMap(m -> cabinet.material(m.get(0)));
  }

  /** What a wall may be by the sheet: the material, or any of those it lists. */
  static Optional<Material> listed(BoxReadings box, String wall) {
    CabinetReadings cabinet = box.cabinet();
    List<Material> some =
        cabinet.wall(wall).map(WallReadings::materials).orElse(List.of()).stream()
            .flatMap(m -> cabinet.material(m).stream())
            .toList();
    return some.isEmpty() ? Optional.empty() : Optional.of(Material.anyOf(some));
  }

  /**
   * Walls that count as one board nobody has seen: those of which nothing is said, or where
   * something is said of each, those with a list of materials.
   */
  static List<String> unknown(BoxReadings box, List<String> names) {
    List<String> unsaid = names.stream().filter(n -> listed(box, n).isEmpty()).toList();
    return unsaid.isEmpty()
        ? names.stream().filter(n -> material(box, n).isEmpty()).toList()
        : unsaid;
  }

  private List<String> unknownWalls(CabinetGeometry geometry) {
    return unknown(box, geometry.names());
  }

  private Optional<Found> unknown(CabinetGeometry geometry) {
    List<String> unknown = unknownWalls(geometry);
    List<Map.Entry<String, KnockExam.Heard>> knocked =
        heard.entrySet().stream()
            .filter(e -> unknown.contains(e.getKey()))
            .filter(e -> frequencies(e.getValue()).length >= LEAST_MODES)
            .limit(2)
            .toList();
    if (knocked.isEmpty()) {
      return Optional.empty();
    }
    List<String> restsOn =
        new ArrayList<>(knocked.stream().map(e -> "takes." + e.getValue().take()).toList());
    restsOn.addAll(List.of("box.size", "box.walls"));
    Optional<Weighing> weighing = weighing(geometry, unknown, restsOn);
    Optional<BoardEvidence.Reading> seen =
        CabinetGeometry.reading(box, knocked.get(0).getKey()).map(BoardExam::reading);
    Optional<BoardEvidence.Reading> density = box.cabinet().boardDensity().map(BoardExam::reading);
    density.ifPresent(d -> restsOn.add("box.board-density"));
    Range range = seen.map(BoardExam::around).orElse(THICKNESS);
    Found weighed = weighed(geometry, knocked, unknown, weighing, seen, density, range);
    BoardPosterior found = weighed.board();
    if (found.odds().values().stream().allMatch(o -> o == 0)) {
      results.notice(
          Notice.caution(
              "walls",
              "no material fits knock and weight together",
              "check the weights, the size and which wall was tapped"));
      return Optional.empty();
    }
    tell(found, unknown, weighing.isPresent(), restsOn);
    return Optional.of(weighed);
  }

  private static BoardEvidence.Reading reading(Reading r) {
    double value = r.estimate().value();
    return new BoardEvidence.Reading(value, Math.max(r.estimate().sd(), 1e-3 * value));
  }

  private List<Material> candidates(List<String> unknown) {
    List<List<String>> lists =
        unknown.stream()
            .map(w -> box.cabinet().wall(w).map(WallReadings::materials).orElse(List.of()))
            .toList();
    // a wall of which nothing is said may be of anything
    return lists.stream().noneMatch(List::isEmpty)
        ? lists.stream()
            .flatMap(List::stream)
            .distinct()
            .flatMap(m -> box.cabinet().material(m).stream())
            .toList()
        : Stream.concat(box.cabinet().materials().stream(), MaterialTable.usual().stream())
            .toList();
  }

  private static Range around(BoardEvidence.Reading seen) {
    double half = Math.max(SEEN * seen.uncertainty(), SEEN_SHARE * seen.value());
    return new Range(seen.value() - half, seen.value() + half);
  }

  private Found weighed(
      CabinetGeometry geometry,
      List<Map.Entry<String, KnockExam.Heard>> knocked,
      List<String> unknown,
      Optional<Weighing> weighing,
      Optional<BoardEvidence.Reading> seen,
      Optional<BoardEvidence.Reading> density,
      Range range) {
    List<Material> candidates = candidates(unknown);
    BoxTones tones = BoxTones.of((t, s) -> walls(t, s, unknown), range, WallExam.MODES, STIFFNESS);
    BoardEvidence evidence =
        new BoardEvidence(
            candidates,
            range,
            knocked.stream()
                .map(
                    k ->
                        new KnockedWall(
                            tones.of(geometry.names().indexOf(k.getKey())),
                            frequencies(k.getValue())))
                .toList(),
            weighing,
            seen,
            density,
            JOINTS,
            MODEL);
    return new Found(BoardInference.of(evidence), tones.base());
  }

  /** Whether a wall is as thick as the one that was knocked: by the same reading, or by none. */
  private boolean varies(String wall, List<String> unknown) {
    Optional<Reading> knocked =
        unknown.stream()
            .filter(heard::containsKey)
            .findFirst()
            .flatMap(w -> CabinetGeometry.reading(box, w));
    return unknown.contains(wall) && CabinetGeometry.reading(box, wall).equals(knocked);
  }

  /** Walls for a thickness of the unknown ones, cut-outs in place where they can be. */
  private List<Wall> walls(double thickness, double stiffness, List<String> unknown) {
    CabinetGeometry geometry = CabinetGeometry.of(box, thickness).orElseThrow();
    List<Board> boards = new ArrayList<>();
    for (int i = 0; i < geometry.names().size(); i++) {
      String name = geometry.names().get(i);
      double t = varies(name, unknown) ? thickness : geometry.thickness()[i];
      Optional<Material> told = listed(box, name).filter(m -> !unknown.contains(name));
      boolean upright = geometry.upright(i);
      boards.add(
          told.map(m -> m.board(t, m.density().middle(), m.modulus().middle(), upright))
              .orElseGet(() -> Board.isotropic(t, DENSITY, stiffness * DENSITY, 0.3)));
    }
    // the walls' exam tells of what does not fit
    return BoxWalls.of(geometry, boards, what -> {});
  }

  private static double[] frequencies(KnockExam.Heard its) {
    return its.rings().stream()
        .mapToDouble(r -> r.frequency())
        .filter(f -> f < HIGHEST)
        .limit(MODES)
        .toArray();
  }

  /** Mass of all boards by the scale, where all that was in the box was weighed. */
  private Optional<Estimate> boards() {
    Optional<Reading> whole = box.mass();
    Optional<Reading> unit = sheet.driveUnit().mass();
    Optional<Reading> hardware = box.cabinet().hardwareMass();
    if (whole.isEmpty() || unit.isEmpty() || hardware.isEmpty()) {
      return Optional.empty();
    }
    Estimate left = whole.get().estimate();
    List<Reading> taken =
        Stream.of(unit, hardware, box.cabinet().amplifierMass()).flatMap(Optional::stream).toList();
    for (Reading r : taken) {
      left =
          new Estimate(
              left.value() - r.estimate().value(), Math.hypot(left.sd(), r.estimate().sd()));
    }
    return Optional.of(left);
  }

  private Optional<Weighing> weighing(
      CabinetGeometry geometry, List<String> unknown, List<String> restsOn) {
    Optional<Estimate> boards = boards();
    if (boards.isEmpty()) {
      results.notice(
          Notice.note(
              "box.mass",
              "the boards' own mass is not known, so the walls are judged by their sound alone",
              "weigh the whole and what can be taken out: 'mass', 'drive-unit: mass',"
                  + " 'amplifier-mass', 'hardware-mass'"));
      return Optional.empty();
    }
    if (!(boards.get().value() > 0)) {
      results.notice(
          Notice.fault(
              "box.mass",
              String.format(
                  Locale.ROOT,
                  "the parts weigh %.2f kg more than the whole",
                  -boards.get().value()),
              "weigh again; check the units"));
      return Optional.empty();
    }
    boolean all = unknown.size() == geometry.names().size();
    double known = geometry.fixtures().value();
    double sd = Math.hypot(boards.get().sd(), geometry.fixtures().sd());
    for (int i = 0; i < geometry.names().size() && !all; i++) {
      String name = geometry.names().get(i);
      Optional<Material> material = listed(box, name).filter(m -> !unknown.contains(name));
      double volume = geometry.board(i);
      if (material.isPresent()) {
        Range density = material.get().density();
        known += density.middle() * volume;
        sd = Math.hypot(sd, (density.high() - density.low()) / Math.sqrt(12) * volume);
      }
    }
    restsOn.addAll(List.of("box.mass", "drive-unit.mass", "box.hardware-mass"));
    box.cabinet().amplifierMass().ifPresent(m -> restsOn.add("box.amplifier-mass"));
    double mass = boards.get().value() - known;
    double least = 0.005 * boards.get().value();
    return Optional.of(new Weighing(mass, Math.max(sd, least), t -> volume(t, unknown)));
  }

  /** Volume of the unknown boards for a thickness. */
  private double volume(double thickness, List<String> unknown) {
    CabinetGeometry geometry = CabinetGeometry.of(box, thickness).orElseThrow();
    double sum = 0;
    for (int i = 0; i < geometry.names().size(); i++) {
      String name = geometry.names().get(i);
      if (unknown.contains(name)) {
        double ratio = varies(name, unknown) ? thickness / geometry.thickness()[i] : 1;
        sum += ratio * geometry.board(i);
      }
    }
    return sum;
  }

  private void tell(
      BoardPosterior found, List<String> unknown, boolean weighed, List<String> restsOn) {
    String likeliest = found.ranked().get(0);
    String odds =
        found.ranked().stream()
            .filter(m -> found.odds().getOrDefault(m, 0.0) >= 0.02)
            .map(
                m ->
                    String.format(
                        Locale.ROOT,
                        "%s %.0f %%",
                        m.replace('_', ' '),
                        100 * found.odds().getOrDefault(m, 0.0)))
            .collect(Collectors.joining(", "));
    String walls = String.join(", ", unknown);
    double best = found.odds().getOrDefault(likeliest, 0.0);
    results.add(
        "walls.board.odds",
        "Odds that the unseen walls are " + likeliest.replace('_', ' '),
        "P",
        new Estimate(best, found.convergence()),
        "1",
        METHOD,
        restsOn,
        "all: " + odds,
        "± is that of the quadrature; odds are what the readings and the material ranges leave open",
        "walls: " + walls);
    add("thickness", "Thickness of the unseen walls", "h", found.thickness(), "m", restsOn);
    add("density", "Density of the unseen walls", "ρ", found.density(), "kg/m³", restsOn);
    add("modulus", "Modulus of the unseen walls in bending", "E", found.modulus(), "N/m²", restsOn);
    if (!found.decided()) {
      results.notice(
          Notice.note(
              "walls.board",
              "the readings do not tell what the walls "
                  + walls
                  + " are made of: "
                  + odds
                  + (weighed ? "" : "; the scale was not asked"),
              next(found.next())));
    }
  }

  private static String next(Gain gain) {
    return switch (gain) {
      case THICKNESS ->
          "the depth of a hole through one of them would tell most: drill or find one";
      case DENSITY -> "the density of a piece would tell most: weigh and measure an offcut";
      case SECOND_KNOCK -> "a knock on a second of these walls would tell most";
    };
  }

  private void add(
      String id, String name, String symbol, Interval i, String unit, List<String> restsOn) {
    results.add(
        "walls.board." + id,
        name,
        symbol,
        new Estimate(i.median(), (i.high() - i.low()) / NINETY),
        unit,
        METHOD,
        restsOn);
  }

  /** Boards by size and material against boards by the scale, where both are known. */
  private void budget(CabinetGeometry geometry, Optional<BoardPosterior> found) {
    Optional<Estimate> scale = boards();
    List<String> unknown = unknownWalls(geometry);
    if (scale.isEmpty() || !unknown.isEmpty() || found.isPresent()) {
      return;
    }
    double mass = geometry.fixtures().value();
    double sd = 0;
    for (int i = 0; i < geometry.names().size(); i++) {
      Range density = material(box, geometry.names().get(i)).orElseThrow().density();
      mass += density.middle() * geometry.board(i);
      // walls of one material err together
      sd += (density.high() - density.low()) / Math.sqrt(12) * geometry.board(i);
    }
    Estimate bySize = new Estimate(mass, Math.hypot(sd, geometry.fixtures().sd()));
    double sigmas = bySize.disagreement(scale.get());
    results.crossCheck(
        new CrossCheck(
            "walls.mass",
            "mass of the boards",
            "size and material",
            bySize,
            "the scale",
            scale.get(),
            "kg",
            sigmas));
    if (sigmas > 3) {
      results.notice(
          Notice.caution(
              "box.walls",
              "the masses do not add up: the boards' size and material give another mass than the"
                  + " scale",
              "check thickness, material and what else was on the scale"));
    }
  }
}
