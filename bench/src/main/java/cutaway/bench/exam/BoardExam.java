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
import cutaway.acoustics.cabinet.BoxModes;
import cutaway.acoustics.estimate.Estimate;
import cutaway.bench.finding.CrossCheck;
import cutaway.bench.finding.Notice;
import cutaway.bench.measure.Reading;
import cutaway.bench.result.Results;
import cutaway.bench.sheet.CabinetReadings;
import cutaway.bench.sheet.CabinetReadings.WallReadings;
import cutaway.bench.sheet.Sheet;
import cutaway.bench.sheet.Sheet.BoxReadings;
import cutaway.bench.sheet.Sheet.TakeEntry;
import cutaway.bench.work.Ahead;
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
  private final Foreseen foreseen;
  private final Map<String, KnockExam.Heard> heard;
  private final Results results;

  private BoardExam(
      Sheet sheet,
      BoxReadings box,
      Foreseen foreseen,
      Map<String, KnockExam.Heard> heard,
      Results results) {
    this.sheet = sheet;
    this.box = box;
    this.foreseen = foreseen;
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
   * The box as it will be needed if the first knock on an unseen wall tells anything.
   *
   * @param knocked that wall; absent where none is to be knocked on
   * @param tones being computed
   */
  record Foreseen(Optional<String> knocked, Ahead<Optional<BoxTones>> tones)
      implements AutoCloseable {
    /** What was computed for a wall that tells indeed. */
    Optional<BoxTones> of(String wall) {
      return knocked.filter(wall::equals).flatMap(its -> tones.get());
    }

    @Override
    public void close() {
      tones.close();
    }
  }

  /** Begins to compute, so that knocks can be read meanwhile. */
  static Foreseen foreseen(Sheet sheet, CabinetGeometry geometry) {
    List<String> unknown = unknown(geometry.box(), geometry.names());
    Optional<String> knocked =
        sheet.takes().stream()
            .filter(TakeEntry::isKnock)
            .flatMap(take -> take.wall().stream())
            .filter(unknown::contains)
            .findFirst();
    return new Foreseen(
        knocked,
        Ahead.begin(() -> knocked.map(wall -> new BoardTones(geometry, unknown, wall).tones())));
  }

  /**
   * Weighs the materials.
   *
   * @return what the unknown board is, where a knock tells
   */
  static Optional<Found> run(
      Sheet sheet,
      CabinetGeometry geometry,
      Foreseen foreseen,
      Map<String, KnockExam.Heard> heard,
      Results results) {
    BoardExam exam = new BoardExam(sheet, geometry.box(), foreseen, heard, results);
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
    box.cabinet().feet().ifPresent(f -> restsOn.add("box.feet"));
    BoardTones of = new BoardTones(geometry, unknown, knocked.get(0).getKey());
    Optional<Weighing> weighing = weighing(of, restsOn);
    Optional<BoardEvidence.Reading> density = box.cabinet().boardDensity().map(BoardTones::reading);
    density.ifPresent(d -> restsOn.add("box.board-density"));
    Optional<Found> weighed = weighed(of, knocked, weighing, density);
    if (weighed.isEmpty()) {
      return weighed;
    }
    BoardPosterior found = weighed.get().board();
    if (found.odds().values().stream().allMatch(o -> o == 0)) {
      results.notice(
          Notice.caution(
              "walls",
              "no material fits knock and weight together",
              "check the weights, the size and which wall was tapped"));
      return Optional.empty();
    }
    tell(found, unknown, weighing.isPresent(), restsOn);
    return weighed;
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

  /** Absent where hardly more rang than the box on its feet. */
  private Optional<Found> weighed(
      BoardTones of,
      List<Map.Entry<String, KnockExam.Heard>> knocked,
      Optional<Weighing> weighing,
      Optional<BoardEvidence.Reading> density) {
    List<Material> candidates = candidates(of.unknown());
    BoxTones tones = foreseen.of(of.knocked()).orElseGet(of::tones);
    List<KnockedWall> rung = new ArrayList<>();
    for (Map.Entry<String, KnockExam.Heard> k : knocked) {
      KnockExam.Heard its = k.getValue();
      double[] frequencies = frequencies(its.with(OnFeet.dropped(tones.base(), its.rings())));
      if (frequencies.length >= LEAST_MODES) {
        int wall = of.geometry().names().indexOf(k.getKey());
        rung.add(new KnockedWall(tones.of(wall), frequencies));
      }
    }
    if (rung.isEmpty()) {
      knocked.forEach(
          k -> OnFeet.told(tones.base(), k.getKey(), k.getValue()).ifPresent(results::notice));
      return Optional.empty();
    }
    BoardEvidence evidence =
        new BoardEvidence(
            candidates, of.range(), rung, weighing, of.seen(), density, JOINTS, MODEL);
    return Optional.of(new Found(BoardInference.of(evidence), tones.base()));
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

  private Optional<Weighing> weighing(BoardTones of, List<String> restsOn) {
    CabinetGeometry geometry = of.geometry();
    List<String> unknown = of.unknown();
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
    return Optional.of(new Weighing(mass, Math.max(sd, least), of::volume));
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
