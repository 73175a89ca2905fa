package cutaway.bench.exam;

import cutaway.acoustics.cabinet.ImpossibleShapeException;
import cutaway.acoustics.cabinet.Point;
import cutaway.bench.finding.Findings;
import cutaway.bench.sheet.Sheet;
import java.util.List;
import java.util.Optional;

/**
 * A box cut through by a plane, to scale: what the plane cuts, and what is seen beyond it.
 *
 * @param pieces in the order in which they are to be drawn; x across and y up, m
 * @param openings where something sits in a wall
 */
public record BoxSection(List<Piece> pieces, List<Opening> openings) {
  /** What a piece is. */
  public enum Part {
    /** A foot, cut or beyond. */
    FOOT,
    /** The board of a wall, cut. */
    BOARD,
    /** A batten or window brace, cut. */
    BRACE,
    /** Lining, cut. */
    LINING,
    /** Damping sheet, cut. */
    SHEET,
    /** An inner edge of the room beyond the plane. */
    EDGE,
    /** A batten or the opening of a window brace beyond the plane. */
    BRACE_BEYOND,
    /** Lining on a wall beyond the plane. */
    LINING_BEYOND
  }

  /** Which way the plane cuts. */
  public enum View {
    /** From the side, the front on the left. */
    SIDE,
    /** From above, the front on the left. */
    ABOVE;

    private Point across() {
      return new Point(0, 1, 0);
    }

    private Point up() {
      return this == SIDE ? new Point(0, 0, 1) : new Point(-1, 0, 0);
    }

    /** Towards the viewer. */
    Point towards() {
      return across().cross(up());
    }

    /** Where a point in space is drawn. */
    Point flat(Point p) {
      return new Point(p.dot(across()), p.dot(up()), 0);
    }
  }

  /**
   * A piece.
   *
   * @param part what it is
   * @param wall the wall it belongs to, or "window brace"
   * @param outline its corners
   */
  public record Piece(Part part, String wall, List<Point> outline) {}

  /**
   * An opening.
   *
   * @param what sits in it
   * @param face its middle on the outer face of its wall
   * @param inwards unit vector into the box
   * @param diameter m
   */
  public record Opening(String what, Point face, Point inwards, double diameter) {}

  /** Copies its lists. */
  public BoxSection {
    pieces = List.copyOf(pieces);
    openings = List.copyOf(openings);
  }

  /**
   * The box of a sheet, cut through the middle of its drive unit where the sheet says where that
   * sits, else through its own middle.
   *
   * @param sheet the sheet
   * @param findings tell the thickness of walls that nobody could see
   * @return absent where the sheet tells no size, or that of no box
   */
  public static Optional<BoxSection> of(Sheet sheet, Findings findings, View view) {
    double unseen =
        findings
            .finding("walls.board.thickness")
            .map(f -> f.estimate().value())
            .orElse(CabinetGeometry.USUAL);
    try {
      return sheet
          .box()
          .flatMap(box -> CabinetGeometry.of(box, unseen))
          .map(g -> new SectionCut(sheet, g, view).section());
    } catch (ImpossibleShapeException e) {
      // the walls' exam tells
      return Optional.empty();
    }
  }
}
