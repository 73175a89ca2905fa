package cutaway.bench.exam;

import cutaway.acoustics.air.Air;
import cutaway.acoustics.board.BoardPosterior;
import cutaway.acoustics.board.Material;
import cutaway.acoustics.board.Range;
import cutaway.acoustics.cabinet.Board;
import cutaway.acoustics.cabinet.BoxModes;
import cutaway.acoustics.cabinet.ImpossibleShapeException;
import cutaway.acoustics.cabinet.Wall;
import cutaway.acoustics.cabinet.WallResponse;
import cutaway.acoustics.estimate.Estimate;
import cutaway.acoustics.hearing.HearingThreshold;
import cutaway.acoustics.hearing.ResonanceAudibility;
import cutaway.acoustics.knock.Ring;
import cutaway.bench.finding.Curve;
import cutaway.bench.finding.Notice;
import cutaway.bench.finding.Shown;
import cutaway.bench.measure.Reading;
import cutaway.bench.sheet.CabinetReadings.FeetReadings;
import cutaway.bench.sheet.CabinetReadings.WallReadings;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/** How the walls swing together, what they radiate, and whether that can be heard. */
final class WallExam {
  /** How many modes of a box are computed. */
  static final int MODES = 30;

  private static final double LOWEST = 60;
  private static final double HIGHEST = 1200;
  private static final int POINTS = 220;

  /** What plates joined at their edges leave out of a real box: docs/methods/panel.md. */
  private static final double MODEL = 0.03;

  /** A material with less odds is not counted among those left open. */
  private static final double OPEN = 0.05;

  /** A mode knocked on another wall is this one's to this share at best; judgement. */
  private static final double ELSEWHERE = 0.01;

  /** A peak this near a mode is that mode's. */
  private static final double OWN_PEAK = 0.03;

  /** What a box weighs beside its walls and what is listed on them, over those; judgement. */
  private static final double UNWEIGHED = 0.3;

  /** Ways in which a body moves as a whole. */
  private static final int WAYS = 6;

  private static final String METHOD =
      "walls as plates that bend, shear and stretch, joined at their edges, driven by the pressure"
          + " inside and the drive unit's reaction; Rayleigh integral to 1 m (docs/methods/panel.md)";

  private final CabinetGeometry geometry;
  private final Air air;
  private final Results results;
  private final List<String> restsOn;
  private final Seen seen;
  private final List<Material> materials = new ArrayList<>();
  private final List<Loss> losses = new ArrayList<>();
  private double stiffnessSpread;
  private double massSpread;
  private boolean reaction;

  /**
   * What the exam looks at.
   *
   * @param geometry shape and thicknesses
   * @param drive what drives the walls
   * @param heard knocks by wall
   * @param found what unseen walls are
   * @param sensitivity level of the drive unit at 1 m from 2.83 V, dB, where it is known
   */
  record Seen(
      CabinetGeometry geometry,
      WallSound.Drive drive,
      Map<String, KnockExam.Heard> heard,
      Optional<BoardExam.Found> found,
      Optional<Double> sensitivity) {
    Optional<BoardPosterior> board() {
      return found.map(BoardExam.Found::board);
    }
  }

  private WallExam(Seen seen, Air air, List<String> restsOn, Results results) {
    this.seen = seen;
    this.geometry = seen.geometry();
    this.air = air;
    this.restsOn = restsOn;
    this.results = results;
  }

  static void run(Seen seen, Air air, List<String> restsOn, Results results) {
    new WallExam(seen, air, restsOn, results).run();
  }

  private void run() {
    List<Board> boards = boards();
    if (boards.isEmpty()) {
      return;
    }
    try {
      List<Wall> walls = BoxWalls.of(geometry, boards, this::misfit);
      BoxModes modes =
          seen.found().map(f -> f.modes().nearby(walls)).orElseGet(() -> BoxModes.of(walls, MODES));
      lose(boards, modes);
      feet(modes);
      respond(modes, seen.drive().fitting(walls));
    } catch (ImpossibleShapeException e) {
      results.notice(
          Notice.fault(
              "box.walls",
              "what the walls do is not told: " + e.getMessage(),
              "check the places of cut-outs and braces"));
    }
  }

  /** How the box moves as a whole on its feet: as heavy as it was weighed, where it was. */
  private void feet(BoxModes modes) {
    double[] frequencies = modes.onFeet();
    Optional<FeetReadings> feet = geometry.box().cabinet().feet();
    if (feet.isEmpty() || frequencies.length == 0) {
      return;
    }
    Optional<Reading> weighed = geometry.box().mass();
    double heavier = weighed.map(m -> m.estimate().value() / modes.mass()).orElse(1.0);
    double unweighed = weighed.isPresent() ? 0 : UNWEIGHED;
    double open = Math.hypot(feet.get().material().spread(), unweighed) / 2;
    String method =
        "walls joined at their edges on springs under the bottom, modes with most of their energy in"
            + " the motion of a stiff body; feet's stiffness from material and size"
            + " (docs/methods/panel.md)";
    List<String> its = new ArrayList<>(List.of("box.feet", "box.size", "box.walls"));
    weighed.ifPresent(m -> its.add("box.mass"));
    List<String> cautions = new ArrayList<>();
    cautions.add("on a floor that does not give; not counted in the walls' sound");
    cautions.add(
        weighed.isPresent()
            ? "for the mass that was weighed"
            : "without what is in the box and was not listed with its mass; weigh it");
    if (frequencies.length < WAYS) {
      cautions.add(
          frequencies.length
              + " of its six ways to move; in the others walls bend as much, and they count as the"
              + " walls'");
    }
    double lighter = 1 / Math.sqrt(heavier);
    results.add(
        "walls.feet.lowest",
        "Lowest motion of the box on its feet as a whole",
        "f_lo",
        Estimate.relative(lighter * frequencies[0], open),
        "Hz",
        method,
        its,
        cautions.toArray(String[]::new));
    results.add(
        "walls.feet.highest",
        "Highest motion of the box on its feet as a whole",
        "f_hi",
        Estimate.relative(lighter * frequencies[frequencies.length - 1], open),
        "Hz",
        method,
        its,
        cautions.toArray(String[]::new));
  }

  private void misfit(String what) {
    results.notice(
        Notice.fault(
            "box.walls",
            what + "; it is left out, and what is told of the walls is of a box without it",
            "check its place and its size"));
  }

  /** A board for each wall; empty where one is not known. */
  private List<Board> boards() {
    List<Board> out = new ArrayList<>();
    List<String> missing = new ArrayList<>();
    for (int i = 0; i < geometry.names().size(); i++) {
      Optional<Board> board = board(i, geometry.names().get(i));
      board.ifPresent(out::add);
      if (board.isEmpty()) {
        missing.add(geometry.names().get(i));
      }
    }
    if (!missing.isEmpty()) {
      results.notice(
          Notice.note(
              "box.walls",
              "what the walls do cannot be computed: the material of "
                  + String.join(", ", missing)
                  + " is not known",
              "write it, or knock on one of them: 'what: knock'"));
      return List.of();
    }
    return out;
  }

  /** The board of a wall: what the sheet says, or what the knock found. */
  private Optional<Board> board(int wall, String name) {
    double thickness = geometry.thickness()[wall];
    Optional<BoardPosterior> found =
        seen.board()
            .filter(b -> BoardExam.unknown(geometry.box(), geometry.names()).contains(name));
    Optional<Material> material =
        found.isPresent() ? found.map(this::likely) : BoardExam.listed(geometry.box(), name);
    if (material.isEmpty()) {
      return Optional.empty();
    }
    Material m = material.get();
    double density = found.map(b -> b.density().median()).orElse(m.density().middle());
    double modulus = found.map(b -> b.modulus().median()).orElse(m.modulus().middle());
    Board board =
        found
            .flatMap(b -> geometry.box().cabinet().material(b.ranked().get(0)))
            .orElse(m)
            .board(thickness, density, modulus, geometry.upright(wall));
    materials.add(m);
    stiffnessSpread =
        Math.max(
            stiffnessSpread,
            found.map(b -> spread(b.modulus())).orElseGet(() -> spread(m.modulus())));
    massSpread =
        Math.max(
            massSpread,
            found
                .map(b -> Math.hypot(spread(b.density()), spread(b.thickness())))
                .orElseGet(() -> spread(m.density())));
    return Optional.of(board);
  }

  /** Any of the materials that the readings leave open. */
  private Material likely(BoardPosterior board) {
    String best = board.ranked().get(0);
    return Material.anyOf(
        board.ranked().stream()
            .filter(m -> m.equals(best) || board.odds().getOrDefault(m, 0.0) >= OPEN)
            .flatMap(m -> geometry.box().cabinet().material(m).stream())
            .toList());
  }

  /** Standard deviation of an even distribution over its middle. */
  static double spread(Range range) {
    return (range.high() - range.low()) / Math.sqrt(12) / range.middle();
  }

  /** Half of nine tenths of a normal distribution are 1.645 standard deviations. */
  private static double spread(BoardPosterior.Interval interval) {
    return (interval.high() - interval.low()) / (2 * 1.645) / interval.median();
  }

  /** Losses of all walls. */
  private void lose(List<Board> boards, BoxModes modes) {
    for (int i = 0; i < boards.size(); i++) {
      losses.add(loss(geometry.names().get(i), materials.get(i), boards.get(i), modes));
    }
  }

  /** A wall's loss: the middle of its rings, scattered as they are; else its material's. */
  private Loss loss(String name, Material material, Board board, BoxModes modes) {
    double[] sorted =
        Optional.ofNullable(seen.heard().get(name))
            .map(heard -> OnFeet.dropped(modes, heard.rings()))
            .orElse(List.of())
            .stream()
            .mapToDouble(Ring::loss)
            .sorted()
            .toArray();
    if (sorted.length < 2) {
      double own = material.loss().middle();
      Optional<WallReadings> read = geometry.box().cabinet().wall(name);
      return read.filter(w -> w.damping().isPresent())
          .map(w -> new Loss(BoxWalls.loss(w, board, own), BoxWalls.DAMPED_SPREAD))
          .orElseGet(() -> new Loss(own, spread(material.loss())));
    }
    double middle = sorted[sorted.length / 2];
    double squares = Arrays.stream(sorted).map(l -> (l / middle - 1) * (l / middle - 1)).sum();
    return new Loss(middle, Math.sqrt(squares / (sorted.length - 1)));
  }

  private void respond(BoxModes modes, WallSound.Drive drive) {
    WallPictures.of(modes, geometry.names().size()).forEach(results::shape);
    double spread = Math.hypot(MODEL, stiffnessSpread / 2);
    List<Swing> swings = WallSwings.of(geometry, modes, losses, spread, seen.heard(), results);
    WallResponse response =
        new WallResponse(
            modes,
            swings.stream().mapToDouble(Swing::frequency).toArray(),
            swings.stream().mapToDouble(w -> w.loss().value()).toArray());
    double[] grid =
        WallLevels.withPeaks(
            PredictionExam.grid(LOWEST, HIGHEST, POINTS),
            swings.stream().mapToDouble(Swing::frequency));
    WallSound sound = new WallSound(geometry, modes, drive, air);
    double[][] levels = sound.levels(response, grid);
    reaction = sound.hasReaction();
    if (!sound.hasReaction()) {
      results.notice(
          Notice.caution(
              "box.walls",
              "what the drive unit's reaction does to the walls is left out, so they may be louder"
                  + " than it says",
              "list the drive unit's cut-out on its wall, and take what tells its moving mass and"
                  + " piston"));
    }
    if (!sound.hasWaves()) {
      results.notice(
          Notice.note(
              "box.walls",
              "the pressure inside is taken as the same everywhere",
              "list the drive unit's cut-out, so that standing waves are counted"));
    }
    for (int wall = 0; wall < levels.length; wall++) {
      tell(wall, grid, levels[wall], swings);
    }
  }

  private void tell(int wall, double[] grid, double[] levels, List<Swing> swings) {
    String name = geometry.names().get(wall);
    results.curve(
        Curve.of(
            "walls." + name + ".radiation",
            "Sound of the " + name + " wall over the drive unit's own",
            "Hz",
            "dB",
            grid,
            levels));
    int worst = -1;
    double most = -1;
    for (int i = 1; i + 1 < grid.length; i++) {
      if (levels[i] > levels[i - 1] && levels[i] >= levels[i + 1]) {
        double heard = heard(levels[i], nearest(swings, grid[i]));
        if (heard > most) {
          most = heard;
          worst = i;
        }
      }
    }
    if (worst >= 0) {
      tell(name, grid[worst], levels[worst], nearest(swings, grid[worst]));
    }
  }

  private void tell(String name, double peak, double level, Swing swing) {
    List<String> its = new ArrayList<>(restsOn);
    Optional.ofNullable(seen.heard().get(name)).ifPresent(h -> its.add("takes." + h.take()));
    boolean own = Math.abs(swing.frequency() / peak - 1) < OWN_PEAK;
    double step = Math.log(HIGHEST / LOWEST) / (POINTS - 1);
    Estimate f =
        own
            ? Estimate.relative(swing.frequency(), spread(swing, name))
            : Estimate.relative(peak, Math.hypot(step, Math.hypot(MODEL, stiffnessSpread / 2)));
    double levelSd = levelSd(swing);
    results.add(
        "walls." + name + ".resonance",
        "Worst resonance of the " + name + " wall",
        "f_w",
        f,
        "Hz",
        METHOD,
        its,
        own && swing.knocked()
            ? "frequency and loss as knocked"
            : "frequency from size and material");
    results.add(
        "walls." + name + ".loss",
        "Loss factor of that resonance, " + name + " wall",
        "η",
        Estimate.relative(swing.loss().value(), swing.loss().spread()),
        "1",
        swing.knocked() ? "knocked" : "of the walls that move, by knock or by material",
        its);
    results.add(
        "walls." + name + ".level",
        "Sound of the " + name + " wall at 1 m over the drive unit's own",
        "L_w",
        new Estimate(level, levelSd),
        "dB",
        METHOD,
        its,
        cautions(peak, level, levelSd));
    double q = 1 / swing.loss().value();
    double louder = ResonanceAudibility.likelihood(level + levelSd, 0, q);
    double softer = ResonanceAudibility.likelihood(level - levelSd, 0, q);
    results.add(
        "walls." + name + ".heard",
        "Likelihood that the " + name + " wall is heard on sustained sound",
        "P",
        new Estimate(heard(level, swing), (louder - softer) / 2),
        "1",
        "threshold of an added resonance by its Q (Toole and Olive 1988, from memory;"
            + " docs/methods/hearing.md); ± is half its change from a level one standard"
            + " uncertainty lower to one higher",
        its);
  }

  private String[] cautions(double peak, double level, double levelSd) {
    List<String> out = new ArrayList<>();
    out.add("as if the wall were in an endless baffle; air load left out");
    seen.sensitivity()
        .ifPresent(
            unit -> {
              double at = unit + level;
              out.add(
                  String.format(
                      Locale.ROOT,
                      "%s at 1 m from 2.83 V where the unit has %.0f dB: %.0f dB %s the hearing"
                          + " threshold of a quiet free field (ISO 226)",
                      Shown.of(at, levelSd, "dB").text(),
                      unit,
                      Math.abs(at - HearingThreshold.at(peak)),
                      at > HearingThreshold.at(peak) ? "over" : "under"));
            });
    return out.toArray(String[]::new);
  }

  /** A mode knocked elsewhere may be another wall's that rings near it. */
  private static double spread(Swing swing, String wall) {
    return swing.knocked() && !swing.on().equals(wall)
        ? Math.hypot(swing.frequencySpread(), ELSEWHERE)
        : swing.frequencySpread();
  }

  /**
   * What is open in a level at a resonance: it goes as the inverse of loss and mass, and of the
   * square of a frequency that was not knocked, which goes as the root of the modulus.
   */
  private double levelSd(Swing swing) {
    double model = reaction ? WallLevels.MODEL : WallLevels.UNDRIVEN;
    double stiffness = swing.knocked() ? 0 : Math.hypot(stiffnessSpread, swing.feetSpread());
    double share = Math.hypot(Math.hypot(swing.loss().spread(), massSpread), stiffness);
    return Math.hypot(model, WallLevels.decibels(share));
  }

  private double heard(double level, Swing swing) {
    return ResonanceAudibility.likelihood(level, levelSd(swing), 1 / swing.loss().value());
  }

  private static Swing nearest(List<Swing> swings, double f) {
    return swings.stream()
        .min(Comparator.comparingDouble(w -> Math.abs(w.frequency() - f)))
        .orElseThrow();
  }
}
