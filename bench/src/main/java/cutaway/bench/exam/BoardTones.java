package cutaway.bench.exam;

import cutaway.acoustics.board.BoardEvidence;
import cutaway.acoustics.board.BoxTones;
import cutaway.acoustics.board.Material;
import cutaway.acoustics.board.Range;
import cutaway.acoustics.cabinet.Board;
import cutaway.acoustics.cabinet.Wall;
import cutaway.bench.measure.Reading;
import cutaway.bench.sheet.Sheet.BoxReadings;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * How a box would sound whose unseen boards had some thickness and stiffness.
 *
 * @param geometry the box
 * @param unknown walls of the board that nobody has seen
 * @param knocked the one of them whose thickness theirs is compared with
 */
record BoardTones(CabinetGeometry geometry, List<String> unknown, String knocked) {
  private static final Range THICKNESS = new Range(0.004, 0.03);

  /** Around a thickness that was seen, in standard uncertainties, and at least this share. */
  private static final double SEEN = 3;

  private static final double SEEN_SHARE = 0.02;

  /** E/ρ of usual boards, m²/s², and a density to go with it: what the slopes are taken about. */
  private static final double STIFFNESS = 4.3e6;

  private static final double DENSITY = 700;

  BoardTones {
    unknown = List.copyOf(unknown);
  }

  private BoxReadings box() {
    return geometry.box();
  }

  /** The thickness as far as it was seen. */
  Optional<BoardEvidence.Reading> seen() {
    return CabinetGeometry.reading(box(), knocked).map(BoardTones::reading);
  }

  /** A reading that is never quite certain. */
  static BoardEvidence.Reading reading(Reading r) {
    double value = r.estimate().value();
    return new BoardEvidence.Reading(value, Math.max(r.estimate().sd(), 1e-3 * value));
  }

  /** Thicknesses that are looked at, m. */
  Range range() {
    return seen().map(BoardTones::around).orElse(THICKNESS);
  }

  private static Range around(BoardEvidence.Reading seen) {
    double half = Math.max(SEEN * seen.uncertainty(), SEEN_SHARE * seen.value());
    return new Range(seen.value() - half, seen.value() + half);
  }

  /** Computes the box. */
  BoxTones tones() {
    return BoxTones.of(this::walls, range(), WallExam.MODES, STIFFNESS);
  }

  /** Whether a wall is as thick as the one that was knocked: by the same reading, or by none. */
  private boolean varies(String wall) {
    return unknown.contains(wall)
        && CabinetGeometry.reading(box(), wall).equals(CabinetGeometry.reading(box(), knocked));
  }

  /** Walls for a thickness of the unknown ones, cut-outs in place where they can be. */
  private List<Wall> walls(double thickness, double stiffness) {
    CabinetGeometry at = CabinetGeometry.of(box(), thickness).orElseThrow();
    List<Board> boards = new ArrayList<>();
    for (int i = 0; i < at.names().size(); i++) {
      String name = at.names().get(i);
      double t = varies(name) ? thickness : at.thickness()[i];
      Optional<Material> told = BoardExam.listed(box(), name).filter(m -> !unknown.contains(name));
      boolean upright = at.upright(i);
      boards.add(
          told.map(m -> m.board(t, m.density().middle(), m.modulus().middle(), upright))
              .orElseGet(() -> Board.isotropic(t, DENSITY, stiffness * DENSITY, 0.3)));
    }
    // the walls' exam tells of what does not fit
    return BoxWalls.of(at, boards, what -> {});
  }

  /** Volume of the unknown boards for a thickness, m³. */
  double volume(double thickness) {
    CabinetGeometry at = CabinetGeometry.of(box(), thickness).orElseThrow();
    double sum = 0;
    for (int i = 0; i < at.names().size(); i++) {
      String name = at.names().get(i);
      if (unknown.contains(name)) {
        double ratio = varies(name) ? thickness / at.thickness()[i] : 1;
        sum += ratio * at.board(i);
      }
    }
    return sum;
  }
}
