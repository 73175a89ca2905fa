package cutaway.bench.exam;

import cutaway.acoustics.board.BoardPosterior;
import cutaway.acoustics.board.Material;
import cutaway.acoustics.board.Range;
import cutaway.acoustics.cabinet.Board;
import cutaway.acoustics.cabinet.BoxModes;
import cutaway.acoustics.knock.Ring;
import cutaway.bench.finding.Notice;
import cutaway.bench.result.Results;
import cutaway.bench.sheet.CabinetReadings.WallReadings;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * What the walls are taken to be made of: what the sheet says, or what the knocks found.
 *
 * @param boards of each wall
 * @param materials of each wall; any of those that the readings leave open
 * @param stiffnessSpread relative standard uncertainty of the modulus of the least known
 * @param massSpread and of the mass
 */
record WallBoards(
    List<Board> boards, List<Material> materials, double stiffnessSpread, double massSpread) {
  /** A material with less odds is not counted among those left open. */
  private static final double OPEN = 0.05;

  /** One wall's part of it. */
  private record One(Board board, Material material, double stiffnessSpread, double massSpread) {}

  /** Of all walls; absent, with a note, where one is not known. */
  static Optional<WallBoards> of(WallExam.Seen seen, Results results) {
    List<One> all = new ArrayList<>();
    List<String> missing = new ArrayList<>();
    for (int i = 0; i < seen.geometry().names().size(); i++) {
      Optional<One> one = one(seen, i);
      one.ifPresent(all::add);
      if (one.isEmpty()) {
        missing.add(seen.geometry().names().get(i));
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
      return Optional.empty();
    }
    return Optional.of(
        new WallBoards(
            all.stream().map(One::board).toList(),
            all.stream().map(One::material).toList(),
            all.stream().mapToDouble(One::stiffnessSpread).max().orElseThrow(),
            all.stream().mapToDouble(One::massSpread).max().orElseThrow()));
  }

  private static Optional<One> one(WallExam.Seen seen, int wall) {
    CabinetGeometry geometry = seen.geometry();
    String name = geometry.names().get(wall);
    boolean unseen = BoardExam.unknown(geometry.box(), geometry.names()).contains(name);
    Optional<BoardPosterior> found = seen.board().filter(b -> unseen);
    return found.isPresent()
        ? found.map(b -> found(geometry, wall, b))
        : BoardExam.listed(geometry.box(), name).map(m -> listed(geometry, wall, m));
  }

  private static One found(CabinetGeometry geometry, int wall, BoardPosterior board) {
    Material likely = likely(geometry, board);
    Material best = geometry.box().cabinet().material(board.ranked().get(0)).orElse(likely);
    return new One(
        board(geometry, wall, best, board.density().median(), board.modulus().median()),
        likely,
        spread(board.modulus()),
        Math.hypot(spread(board.density()), spread(board.thickness())));
  }

  private static One listed(CabinetGeometry geometry, int wall, Material m) {
    return new One(
        board(geometry, wall, m, m.density().middle(), m.modulus().middle()),
        m,
        spread(m.modulus()),
        spread(m.density()));
  }

  private static Board board(
      CabinetGeometry geometry, int wall, Material m, double density, double modulus) {
    return m.board(geometry.thickness()[wall], density, modulus, geometry.upright(wall));
  }

  /** Any of the materials that the readings leave open. */
  private static Material likely(CabinetGeometry geometry, BoardPosterior board) {
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
  List<Loss> losses(WallExam.Seen seen, BoxModes modes) {
    List<Loss> out = new ArrayList<>();
    for (int wall = 0; wall < boards.size(); wall++) {
      out.add(loss(seen, modes, wall));
    }
    return out;
  }

  /** A wall's loss: the middle of its rings, scattered as they are; else its material's. */
  private Loss loss(WallExam.Seen seen, BoxModes modes, int wall) {
    String name = seen.geometry().names().get(wall);
    double[] sorted =
        Optional.ofNullable(seen.heard().get(name))
            .map(heard -> OnFeet.dropped(modes, heard.rings()))
            .orElse(List.of())
            .stream()
            .mapToDouble(Ring::loss)
            .sorted()
            .toArray();
    if (sorted.length < 2) {
      double own = materials.get(wall).loss().middle();
      Optional<WallReadings> read = seen.geometry().box().cabinet().wall(name);
      return read.filter(w -> w.damping().isPresent())
          .map(w -> new Loss(BoxWalls.loss(w, boards.get(wall), own), BoxWalls.DAMPED_SPREAD))
          .orElseGet(() -> new Loss(own, spread(materials.get(wall).loss())));
    }
    double middle = sorted[sorted.length / 2];
    double squares = Arrays.stream(sorted).map(l -> (l / middle - 1) * (l / middle - 1)).sum();
    return new Loss(middle, Math.sqrt(squares / (sorted.length - 1)));
  }
}
