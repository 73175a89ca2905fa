package cutaway.bench.exam;

import cutaway.acoustics.cabinet.BoxModes;
import cutaway.acoustics.cabinet.Point;
import cutaway.acoustics.estimate.Estimate;
import cutaway.acoustics.knock.ModalAssurance;
import cutaway.acoustics.knock.Ring;
import cutaway.bench.finding.Notice;
import cutaway.bench.result.Results;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;

/**
 * The modes of a box as they are believed: as computed, or as knocked where a knock's ring is taken
 * for one; by its shape where the sheet tells where the taps fell, else by its frequency.
 */
final class WallSwings {
  /** A wall that has less of a mode's energy is not heard in it when it is knocked. */
  private static final double MOVES = 0.05;

  /** A ring weaker than this is not a wall's lowest, dB. */
  private static final double STRONG = -25;

  /** A lowest ring off by more than this factor is of another box; judgement. */
  private static final double UNLIKE = 1.4;

  /** A knock's mode this near a computed one is taken for it. */
  private static final double NEAR = 0.08;

  /** So many likenesses are told, of the strongest rings. */
  private static final int MOST = 6;

  private static final String METHOD =
      "modal assurance criterion of the ring after each tap against the computed mode where it fell,"
          + " strengths of the taps fitted (docs/methods/knock.md)";

  private final CabinetGeometry geometry;
  private final BoxModes modes;
  private final double[][] areas;
  private final double[] likeness;
  private final Results results;

  private WallSwings(CabinetGeometry geometry, BoxModes modes, Results results) {
    this.geometry = geometry;
    this.modes = modes;
    this.areas = WallLevels.areas(modes, geometry.names().size());
    this.likeness = new double[modes.size()];
    this.results = results;
  }

  /**
   * Believes.
   *
   * @param losses of each wall
   * @param computed relative standard uncertainty of a computed frequency
   * @param knocks by wall
   * @return one for each mode
   */
  static List<Swing> of(
      CabinetGeometry geometry,
      BoxModes modes,
      List<Loss> losses,
      double computed,
      Map<String, KnockExam.Heard> knocks,
      Results results) {
    return new WallSwings(geometry, modes, results).swings(losses, computed, knocks);
  }

  private List<Swing> swings(
      List<Loss> losses, double computed, Map<String, KnockExam.Heard> knocks) {
    int walls = geometry.names().size();
    List<Swing> out = new ArrayList<>();
    int[] most = new int[modes.size()];
    double feet = geometry.box().cabinet().feet().map(f -> f.material().spread()).orElse(0.0);
    for (int mode = 0; mode < modes.size(); mode++) {
      double[] share = WallLevels.shares(modes, mode, areas);
      for (int wall = 0; wall < walls; wall++) {
        most[mode] = share[wall] > share[most[mode]] ? wall : most[mode];
      }
      Loss loss = WallLevels.mixed(geometry, losses, share, modes.feet(mode));
      double open = feet * modes.feet(mode);
      double spread = Math.hypot(computed, open / 2);
      out.add(new Swing(modes.frequency(mode), spread, open, loss, false, ""));
    }
    knocks.forEach(
        (wall, all) -> {
          OnFeet.told(modes, wall, all).ifPresent(results::notice);
          KnockExam.Heard heard = all.with(OnFeet.dropped(modes, all.rings()));
          if (likely(wall, heard)) {
            List<Ring> left = assured(out, wall, heard);
            match(out, most, wall, left);
          }
        });
    return out;
  }

  /**
   * Whether a wall's lowest ring may be the lowest mode in which it moves; told where it is not.
   */
  private boolean likely(String wall, KnockExam.Heard heard) {
    int which = geometry.names().indexOf(wall);
    OptionalDouble lowest =
        IntStream.range(0, modes.size())
            .filter(m -> WallLevels.shares(modes, m, areas)[which] > MOVES)
            .mapToDouble(modes::frequency)
            .min();
    OptionalDouble rung =
        heard.rings().stream().filter(r -> r.level() > STRONG).mapToDouble(Ring::frequency).min();
    if (lowest.isEmpty() || rung.isEmpty()) {
      return true;
    }
    boolean alike =
        Math.abs(Math.log(rung.getAsDouble() / lowest.getAsDouble())) < Math.log(UNLIKE);
    if (!alike) {
      results.notice(
          Notice.caution(
              "takes." + heard.take(),
              String.format(
                  Locale.ROOT,
                  "the %s rings from %.0f Hz up when knocked, but as the box is written it would"
                      + " from %.0f Hz; the knock is not used for its resonances",
                  wall,
                  rung.getAsDouble(),
                  lowest.getAsDouble()),
              "check size, thickness and material, and that the knock is of this box"
                  + (geometry.box().cabinet().feet().isPresent()
                      ? ""
                      : "; on soft feet a box also rings low as a whole: tell them under"
                          + " 'box.feet'")));
    }
    return alike;
  }

  /** Pairs a wall's rings with the modes in which it moves most, the nearest first, each once. */
  private void match(List<Swing> swings, int[] most, String wall, List<Ring> rings) {
    int which = geometry.names().indexOf(wall);
    List<Ring> left = new ArrayList<>(rings);
    boolean found = true;
    while (found) {
      found = false;
      double least = NEAR;
      int mode = -1;
      int ring = -1;
      for (int m = 0; m < swings.size(); m++) {
        for (int r = 0; r < left.size(); r++) {
          double off = Math.abs(left.get(r).frequency() / swings.get(m).frequency() - 1);
          if (most[m] == which && !swings.get(m).knocked() && off < least) {
            least = off;
            mode = m;
            ring = r;
            found = true;
          }
        }
      }
      if (found) {
        swings.set(mode, knocked(left.remove(ring), wall));
      }
    }
  }

  private static Swing knocked(Ring ring, String wall) {
    Loss loss = new Loss(ring.loss(), ring.lossUncertainty() / ring.loss());
    return new Swing(
        ring.frequency(), ring.frequencyUncertainty() / ring.frequency(), 0, loss, true, wall);
  }

  /**
   * Takes the rings for modes that move as they do, and tells how alike they are.
   *
   * @return the rings that may still be paired by frequency: all, where no shape was told
   */
  private List<Ring> assured(List<Swing> swings, String wall, KnockExam.Heard heard) {
    List<Point> at = heard.at();
    if (at.stream().distinct().count() < ModalAssurance.LEAST_PLACES) {
      return heard.rings();
    }
    int which = geometry.names().indexOf(wall);
    double[][] shapes = new double[modes.size()][at.size()];
    for (int tap = 0; tap < at.size(); tap++) {
      Point place = geometry.onWall(which, at.get(tap).x(), at.get(tap).y());
      for (int mode = 0; mode < shapes.length; mode++) {
        Optional<Point> moved = modes.displacement(mode, which, place);
        if (moved.isEmpty()) {
          results.notice(
              Notice.fault(
                  "takes." + heard.take(),
                  String.format(
                      Locale.ROOT,
                      "place %d of its taps lies beside the wall or in a cut-out; its modes are"
                          + " told apart by frequency alone",
                      tap + 1),
                  "give places from the outer left and lower edges of the wall seen from outside"));
          return heard.rings();
        }
        shapes[mode][tap] = moved.get().dot(modes.walls().get(which).plane().normal());
      }
    }
    List<Ring> rings = heard.rings();
    List<ModalAssurance.Pair> pairs =
        ModalAssurance.pairs(
            rings,
            shapes,
            (ring, mode) ->
                Math.abs(rings.get(ring).frequency() / modes.frequency(mode) - 1) < NEAR
                    && WallLevels.shares(modes, mode, areas)[which] > MOVES);
    for (ModalAssurance.Pair pair : pairs) {
      Ring ring = rings.get(pair.ring());
      // a mode that two walls share is known from the one whose ring is more like it
      if (pair.likeness() > likeness[pair.mode()]) {
        likeness[pair.mode()] = pair.likeness();
        swings.set(pair.mode(), knocked(ring, wall));
      }
    }
    pairs.stream()
        .sorted(Comparator.comparingDouble(p -> -rings.get(p.ring()).level()))
        .limit(MOST)
        .forEach(pair -> tell(wall, heard.take(), rings.get(pair.ring()), pair));
    long strong =
        rings.stream()
            .filter(r -> r.level() > STRONG && r.frequency() < modes.frequency(modes.size() - 1))
            .count();
    if (pairs.size() < strong / 2.0) {
      results.notice(
          Notice.caution(
              "takes." + heard.take(),
              String.format(
                  Locale.ROOT,
                  "of %d strong rings %d move like a mode that was computed; the others are not used"
                      + " for the resonances",
                  strong,
                  pairs.size()),
              "check the places, and that they are in the order of the taps"));
    }
    return List.of();
  }

  private void tell(String wall, String take, Ring ring, ModalAssurance.Pair pair) {
    results.add(
        String.format(Locale.ROOT, "walls.%s.alike-%.0f", wall, ring.frequency()),
        String.format(
            Locale.ROOT,
            "Likeness of the %s wall's ring at %.0f Hz to its computed mode at %.0f Hz",
            wall,
            ring.frequency(),
            modes.frequency(pair.mode())),
        "MAC",
        new Estimate(pair.likeness(), Math.max(0.01, pair.uncertainty())),
        "1",
        METHOD,
        List.of("takes." + take, "box.size", "box.walls"));
  }
}
