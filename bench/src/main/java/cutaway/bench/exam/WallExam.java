package cutaway.bench.exam;

import cutaway.acoustics.air.Air;
import cutaway.acoustics.board.BoardPosterior;
import cutaway.acoustics.cabinet.BoxModes;
import cutaway.acoustics.cabinet.ImpossibleShapeException;
import cutaway.acoustics.cabinet.Wall;
import cutaway.acoustics.cabinet.WallResponse;
import cutaway.acoustics.estimate.Estimate;
import cutaway.acoustics.hearing.HearingThreshold;
import cutaway.acoustics.hearing.ResonanceAudibility;
import cutaway.bench.finding.Curve;
import cutaway.bench.finding.Notice;
import cutaway.bench.finding.Shown;
import cutaway.bench.result.Results;
import java.util.ArrayList;
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

  /** A mode knocked on another wall is this one's to this share at best; judgement. */
  private static final double ELSEWHERE = 0.01;

  /** A peak this near a mode is that mode's. */
  private static final double OWN_PEAK = 0.03;

  private static final String METHOD =
      "walls as plates that bend, shear and stretch, joined at their edges, driven by the pressure"
          + " inside and the drive unit's reaction; Rayleigh integral to 1 m (docs/methods/panel.md)";

  private final CabinetGeometry geometry;
  private final Air air;
  private final Results results;
  private final List<String> restsOn;
  private final Seen seen;
  private final WallBoards boards;
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

  private WallExam(Seen seen, WallBoards boards, Air air, List<String> restsOn, Results results) {
    this.seen = seen;
    this.boards = boards;
    this.geometry = seen.geometry();
    this.air = air;
    this.restsOn = restsOn;
    this.results = results;
  }

  static void run(Seen seen, Air air, List<String> restsOn, Results results) {
    WallBoards.of(seen, results)
        .ifPresent(boards -> new WallExam(seen, boards, air, restsOn, results).run());
  }

  private void run() {
    try {
      List<Wall> walls = BoxWalls.of(geometry, boards.boards(), this::misfit);
      BoxModes modes =
          seen.found().map(f -> f.modes().nearby(walls)).orElseGet(() -> BoxModes.of(walls, MODES));
      FeetExam.run(geometry, modes, boards.massSpread(), results);
      respond(modes, seen.drive().fitting(walls));
    } catch (ImpossibleShapeException e) {
      results.notice(
          Notice.fault(
              "box.walls",
              "what the walls do is not told: " + e.getMessage(),
              "check the places of cut-outs and braces"));
    }
  }

  private void misfit(String what) {
    results.notice(
        Notice.fault(
            "box.walls",
            what + "; it is left out, and what is told of the walls is of a box without it",
            "check its place and its size"));
  }

  private void respond(BoxModes modes, WallSound.Drive drive) {
    WallPictures.of(modes, geometry.names().size()).forEach(results::shape);
    double spread = Math.hypot(MODEL, boards.stiffnessSpread() / 2);
    List<Loss> losses = boards.losses(seen, modes);
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
            : Estimate.relative(
                peak, Math.hypot(step, Math.hypot(MODEL, boards.stiffnessSpread() / 2)));
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
    double stiffness =
        swing.knocked() ? 0 : Math.hypot(boards.stiffnessSpread(), swing.feetSpread());
    double share = Math.hypot(Math.hypot(swing.loss().spread(), boards.massSpread()), stiffness);
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
