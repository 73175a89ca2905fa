package cutaway.bench.exam;

import cutaway.acoustics.air.Air;
import cutaway.acoustics.board.BoardPosterior;
import cutaway.acoustics.board.Material;
import cutaway.acoustics.cabinet.Board;
import cutaway.acoustics.cabinet.BoxModes;
import cutaway.acoustics.cabinet.Cavity;
import cutaway.acoustics.cabinet.Hole;
import cutaway.acoustics.cabinet.ImpossibleShapeException;
import cutaway.acoustics.cabinet.Outline;
import cutaway.acoustics.cabinet.Patch;
import cutaway.acoustics.cabinet.Point;
import cutaway.acoustics.cabinet.Surface;
import cutaway.acoustics.cabinet.Wall;
import cutaway.acoustics.cabinet.WallResponse;
import cutaway.acoustics.estimate.Estimate;
import cutaway.acoustics.hearing.ResonanceAudibility;
import cutaway.acoustics.knock.Ring;
import cutaway.bench.finding.Curve;
import cutaway.bench.finding.ModeShape;
import cutaway.bench.finding.Notice;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.hipparchus.complex.Complex;

/** How the walls swing together, what they radiate, and whether that can be heard. */
final class WallExam {
  private static final int MODES = 30;

  /** Modes up to here are shown as pictures. */
  private static final int PICTURES = 4;

  private static final int GRID = 9;
  private static final double LOWEST = 60;
  private static final double HIGHEST = 1200;
  private static final int POINTS = 220;

  /** What plates joined at their edges leave out of a real box, relative in frequency. */
  private static final double MODEL = 0.03;

  /** The same of a level, dB. */
  private static final double MODEL_LEVEL = 3;

  /** Loss of the air inside, η. */
  private static final double AIR_LOSS = 0.02;

  /** A knock's mode this near a computed one is taken for it. */
  private static final double NEAR = 0.08;

  private static final double ONE_METRE = 1;

  private static final String METHOD =
      "walls as plates that bend, shear and stretch, joined at their edges, driven by the pressure"
          + " inside and the drive unit's reaction; Rayleigh integral to 1 m (docs/methods/panel.md)";

  private final CabinetGeometry geometry;
  private final Air air;
  private final Results results;
  private final List<String> restsOn;
  private final double[] losses;
  private final double[] lossSpreads;
  private double stiffnessSpread;

  /**
   * What the exam looks at.
   *
   * @param geometry shape and thicknesses
   * @param cavity standing waves, where they are known
   * @param cone where the drive unit's piston is, where the sheet tells
   * @param coneWall number of its wall
   * @param movingMass kg, where known
   * @param pistonArea m², where known
   * @param heard knocks by wall
   * @param board what unseen walls are
   */
  record Seen(
      CabinetGeometry geometry,
      Optional<Cavity> cavity,
      Optional<Patch> cone,
      int coneWall,
      Optional<Double> movingMass,
      Optional<Double> pistonArea,
      Map<String, KnockExam.Heard> heard,
      Optional<BoardPosterior> board) {}

  private final Seen seen;

  private WallExam(Seen seen, Air air, List<String> restsOn, Results results) {
    this.seen = seen;
    this.geometry = seen.geometry();
    this.air = air;
    this.restsOn = restsOn;
    this.results = results;
    this.losses = new double[geometry.names().size()];
    this.lossSpreads = new double[losses.length];
  }

  static void run(Seen seen, Air air, List<String> restsOn, Results results) {
    new WallExam(seen, air, restsOn, results).run();
  }

  private void run() {
    List<Board> boards = boards();
    if (boards.isEmpty()) {
      return;
    }
    BoxModes modes;
    try {
      modes = BoxModes.of(BoxWalls.of(geometry, boards, true), MODES);
    } catch (ImpossibleShapeException e) {
      results.notice(
          Notice.caution(
              "box.walls",
              e.getMessage() + "; the walls are computed without cut-outs and braces",
              "check their places"));
      modes = BoxModes.of(BoxWalls.of(geometry, boards, false), MODES);
    }
    respond(modes);
    pictures(modes);
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
    Optional<Material> told = BoardExam.material(geometry.box(), name);
    Optional<Material> material =
        told.or(
            () -> seen.board().flatMap(b -> geometry.box().cabinet().material(b.ranked().get(0))));
    if (material.isEmpty()) {
      return Optional.empty();
    }
    Material m = material.get();
    double density =
        told.isPresent() ? m.density().middle() : seen.board().orElseThrow().density().median();
    double modulus =
        told.isPresent() ? m.modulus().middle() : seen.board().orElseThrow().modulus().median();
    loss(wall, name, m);
    double spread =
        told.isPresent()
            ? (m.modulus().high() - m.modulus().low()) / Math.sqrt(12) / m.modulus().middle()
            : 0.04;
    stiffnessSpread = Math.max(stiffnessSpread, spread);
    return Optional.of(Board.isotropic(thickness, density, modulus, m.poisson()));
  }

  private void loss(int wall, String name, Material material) {
    List<Ring> rings =
        Optional.ofNullable(seen.heard().get(name)).map(KnockExam.Heard::rings).orElse(List.of());
    if (rings.isEmpty()) {
      losses[wall] = material.loss().middle();
      lossSpreads[wall] =
          (material.loss().high() - material.loss().low())
              / Math.sqrt(12)
              / material.loss().middle();
    } else {
      double[] sorted = rings.stream().mapToDouble(Ring::loss).sorted().toArray();
      losses[wall] = sorted[sorted.length / 2];
      lossSpreads[wall] = 0.15;
    }
  }

  /** Share of each wall in a mode's energy. */
  private static double[] shares(BoxModes modes, int mode, int walls) {
    double[] out = new double[walls];
    double sum = 0;
    for (int wall = 0; wall < walls; wall++) {
      double[] w = modes.normal(mode, wall);
      double[] areas = modes.surface(wall).areas();
      double surfaceMass = modes.walls().get(wall).panel().board().surfaceMass();
      for (int i = 0; i < w.length; i++) {
        out[wall] += surfaceMass * areas[i] * w[i] * w[i];
      }
      sum += out[wall];
    }
    for (int wall = 0; wall < walls; wall++) {
      out[wall] /= sum;
    }
    return out;
  }

  private void respond(BoxModes modes) {
    int walls = geometry.names().size();
    double[] frequencies = new double[modes.size()];
    double[] eta = new double[modes.size()];
    for (int mode = 0; mode < modes.size(); mode++) {
      frequencies[mode] = modes.frequency(mode);
      double[] share = shares(modes, mode, walls);
      int most = 0;
      for (int wall = 0; wall < walls; wall++) {
        eta[mode] += share[wall] * losses[wall];
        most = share[wall] > share[most] ? wall : most;
      }
      int which = mode;
      Optional.ofNullable(seen.heard().get(geometry.names().get(most)))
          .flatMap(h -> nearest(h.rings(), frequencies[which]))
          .ifPresent(
              ring -> {
                frequencies[which] = ring.frequency();
                eta[which] = ring.loss();
              });
    }
    WallResponse response = new WallResponse(modes, frequencies, eta);
    double[] grid = new double[POINTS];
    for (int i = 0; i < POINTS; i++) {
      grid[i] = LOWEST * Math.pow(HIGHEST / LOWEST, (double) i / (POINTS - 1));
    }
    double[][] levels = levels(response, modes, grid, walls);
    for (int wall = 0; wall < walls; wall++) {
      tell(wall, grid, levels[wall], frequencies, eta, modes);
    }
  }

  private static Optional<Ring> nearest(List<Ring> rings, double f) {
    return rings.stream()
        .filter(r -> Math.abs(r.frequency() / f - 1) < NEAR)
        .min((a, b) -> Double.compare(Math.abs(a.frequency() - f), Math.abs(b.frequency() - f)));
  }

  /** Level of each wall's sound at 1 m under the drive unit's own, dB: wall × frequency. */
  private double[][] levels(WallResponse response, BoxModes modes, double[] grid, int walls) {
    double rho = air.density().value();
    double c = air.soundSpeed().value();
    double volume = geometry.inner().volume();
    List<double[]> loads = new ArrayList<>();
    List<double[]> squares = new ArrayList<>();
    loads.add(response.pressure(p -> 1, walls));
    squares.add(new double[] {0, 1});
    if (seen.cavity().isPresent() && seen.cone().isPresent()) {
      waves(response, modes, walls, loads, squares);
    }
    double[] reaction = reaction(response, modes);
    double[][] out = new double[walls][grid.length];
    for (int i = 0; i < grid.length; i++) {
      double omega = 2 * Math.PI * grid[i];
      Complex[] forces = new Complex[modes.size()];
      Arrays.fill(forces, Complex.ZERO);
      for (int load = 0; load < loads.size(); load++) {
        double own = squares.get(load)[0] * c * c;
        Complex amplitude =
            new Complex(0, -omega * rho * c * c * squares.get(load)[1] / volume)
                .divide(new Complex(own - omega * omega, own * AIR_LOSS));
        for (int mode = 0; mode < forces.length; mode++) {
          forces[mode] = forces[mode].add(amplitude.multiply(loads.get(load)[mode]));
        }
      }
      for (int mode = 0; mode < forces.length; mode++) {
        forces[mode] = forces[mode].add(new Complex(0, -omega * reaction[mode]));
      }
      Complex[] q = response.amplitudes(forces, grid[i]);
      for (int wall = 0; wall < walls; wall++) {
        Complex[] v = response.velocity(wall, q, grid[i]);
        double p = response.radiated(wall, v, listener(wall, modes), grid[i], rho, c).norm();
        out[wall][i] = 20 * Math.log10(p / (omega * rho / (2 * Math.PI)));
      }
    }
    return out;
  }

  /** 1 m before the middle of a wall. */
  private static Point listener(int wall, BoxModes modes) {
    Wall w = modes.walls().get(wall);
    Point sum = new Point(0, 0, 0);
    List<Point> corners = w.panel().outline().corners();
    for (Point p : corners) {
      sum = sum.plus(p);
    }
    Point centre = sum.times(1.0 / corners.size());
    return w.plane().space(new Point(centre.x(), centre.y(), ONE_METRE));
  }

  /** Loads of the standing waves on the walls, each driven by the cone. */
  private void waves(
      WallResponse response,
      BoxModes modes,
      int walls,
      List<double[]> loads,
      List<double[]> squares) {
    Cavity cavity = seen.cavity().orElseThrow();
    double[] cone = CavityExam.mean(cavity, seen.cone().orElseThrow());
    List<double[][]> pressures = new ArrayList<>();
    for (int wall = 0; wall < walls; wall++) {
      Surface surface = modes.surface(wall);
      double[][] its = new double[surface.places().size()][];
      for (int i = 0; i < its.length; i++) {
        its[i] = inside(cavity, surface.places().get(i));
      }
      pressures.add(its);
    }
    for (int mode = 0; mode < cavity.size(); mode++) {
      int which = mode;
      double k = cavity.wavenumber(mode);
      loads.add(response.pressureAt((wall, i) -> pressures.get(wall)[i][which], walls));
      squares.add(new double[] {k * k, cone[mode]});
    }
  }

  /** Pressures at a place of a middle plane, taken where the room begins. */
  private double[] inside(Cavity cavity, Point p) {
    Point centre = new Point(0, 0, 0);
    for (Point corner : geometry.inner().corners()) {
      centre = centre.plus(corner.times(1.0 / geometry.inner().corners().size()));
    }
    for (double t = 0; t < 0.6; t += 0.02) {
      Optional<double[]> at = cavity.pressures(p.towards(centre, t));
      if (at.isPresent()) {
        return at.get();
      }
    }
    return new double[cavity.size()];
  }

  /** Reaction to the cone per volume velocity, on the flange; zero where it is not known. */
  private double[] reaction(WallResponse response, BoxModes modes) {
    double[] none = new double[modes.size()];
    if (seen.coneWall() < 0 || seen.movingMass().isEmpty() || seen.pistonArea().isEmpty()) {
      return none;
    }
    Optional<Hole> hole =
        modes.walls().get(seen.coneWall()).panel().cutOuts().stream()
            .filter(Hole.class::isInstance)
            .map(Hole.class::cast)
            .max((a, b) -> Double.compare(a.radius(), b.radius()));
    if (hole.isEmpty()) {
      return none;
    }
    double[] out = response.flange(seen.coneWall(), hole.get());
    for (int i = 0; i < out.length; i++) {
      out[i] *= seen.movingMass().get() / seen.pistonArea().get();
    }
    return out;
  }

  private void tell(
      int wall,
      double[] grid,
      double[] levels,
      double[] frequencies,
      double[] eta,
      BoxModes modes) {
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
        int mode = nearestMode(frequencies, grid[i]);
        double heard = heard(levels[i], wall, eta[mode]);
        if (heard > most) {
          most = heard;
          worst = i;
        }
      }
    }
    if (worst < 0) {
      return;
    }
    int mode = nearestMode(frequencies, grid[worst]);
    boolean measured = Math.abs(frequencies[mode] - modes.frequency(mode)) > 1e-9;
    double relative = measured ? 0.005 : Math.hypot(MODEL, stiffnessSpread / 2);
    double levelSd = levelSd(wall);
    List<String> its = new ArrayList<>(restsOn);
    Optional.ofNullable(seen.heard().get(name)).ifPresent(h -> its.add("takes." + h.take()));
    double f =
        Math.abs(frequencies[mode] / grid[worst] - 1) < 0.03 ? frequencies[mode] : grid[worst];
    results.add(
        "walls." + name + ".resonance",
        "Worst resonance of the " + name + " wall",
        "f_w",
        Estimate.relative(f, relative),
        "Hz",
        METHOD,
        its,
        measured ? "frequency and loss as knocked" : "frequency from size and material");
    results.add(
        "walls." + name + ".loss",
        "Loss factor of that resonance, " + name + " wall",
        "η",
        Estimate.relative(eta[mode], lossSpreads[wall]),
        "1",
        measured ? "knocked" : "of the material, or of the wall's knock",
        its);
    results.add(
        "walls." + name + ".level",
        "Sound of the " + name + " wall at 1 m over the drive unit's own",
        "L_w",
        new Estimate(levels[worst], levelSd),
        "dB",
        METHOD,
        its,
        "as if the wall were in an endless baffle; air load left out");
    results.add(
        "walls." + name + ".heard",
        "Likelihood that the " + name + " wall is heard on sustained sound",
        "P",
        new Estimate(most, Math.min(0.2, 0.4 * Math.sqrt(most * (1 - most)) + 0.02)),
        "1",
        "threshold of an added resonance by its Q (Toole and Olive 1988, from memory;"
            + " docs/methods/hearing.md)",
        its);
  }

  private double levelSd(int wall) {
    return Math.hypot(MODEL_LEVEL, 20 / Math.log(10) * lossSpreads[wall]);
  }

  private double heard(double level, int wall, double loss) {
    return ResonanceAudibility.likelihood(level, levelSd(wall), 1 / loss);
  }

  private static int nearestMode(double[] frequencies, double f) {
    int best = 0;
    for (int i = 1; i < frequencies.length; i++) {
      best = Math.abs(frequencies[i] - f) < Math.abs(frequencies[best] - f) ? i : best;
    }
    return best;
  }

  /** Grids of displacement of the lowest modes, for pictures. */
  private void pictures(BoxModes modes) {
    for (int mode = 0; mode < PICTURES; mode++) {
      List<ModeShape.Face> faces = new ArrayList<>();
      double largest = 0;
      for (int wall = 0; wall < geometry.names().size(); wall++) {
        Wall w = modes.walls().get(wall);
        if (w.panel().outline().corners().size() != 4) {
          continue;
        }
        List<Double> places = new ArrayList<>();
        List<Double> moves = new ArrayList<>();
        Outline outline = w.panel().outline();
        for (int b = 0; b < GRID; b++) {
          for (int a = 0; a < GRID; a++) {
            Point low =
                outline.corners().get(0).towards(outline.corners().get(1), a / (GRID - 1.0));
            Point high =
                outline.corners().get(3).towards(outline.corners().get(2), a / (GRID - 1.0));
            Point local = low.towards(high, b / (GRID - 1.0));
            Point at = w.plane().space(local);
            Point u = modes.displacement(mode, wall, local).orElse(new Point(0, 0, 0));
            places.addAll(List.of(at.x(), at.y(), at.z()));
            moves.addAll(List.of(u.x(), u.y(), u.z()));
            largest = Math.max(largest, u.length());
          }
        }
        faces.add(new ModeShape.Face(w.name(), GRID, places, moves));
      }
      double scale = largest == 0 ? 1 : 1 / largest;
      results.shape(
          new ModeShape(
              "walls.mode-" + (mode + 1),
              String.format(Locale.ROOT, "mode %d, %.0f Hz", mode + 1, modes.frequency(mode)),
              modes.frequency(mode),
              faces.stream().map(f -> f.scaled(scale)).toList()));
    }
  }
}
