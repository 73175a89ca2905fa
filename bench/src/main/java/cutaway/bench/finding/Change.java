package cutaway.bench.finding;

import cutaway.acoustics.cabinet.DampingSheet;
import cutaway.acoustics.cabinet.LiningKind;
import java.util.Optional;

/**
 * A change to a box, to be tried on paper.
 *
 * @param wall the wall it is made to
 * @param batten across it, where one is
 * @param thicker how much thicker its board, outwards, m
 * @param material of its board, where another
 * @param sheet damping sheet on its inside, where one is
 * @param sheetThickness of that, m
 * @param frame share of the height at which a window brace stands right across the box, where one
 *     does
 * @param linedWall the wall that is lined, where one is
 * @param lining thickness of that, m
 * @param kind of lining
 */
public record Change(
    String wall,
    Optional<Batten> batten,
    double thicker,
    Optional<String> material,
    Optional<DampingSheet.Kind> sheet,
    double sheetThickness,
    Optional<Double> frame,
    Optional<String> linedWall,
    double lining,
    LiningKind kind) {
  /** A batten 18 × 40 mm from edge to edge. */
  public static final double BATTEN_WIDTH = 0.018;

  /** How far it stands off the wall, m. */
  public static final double BATTEN_DEPTH = 0.040;

  /** Kept free at its ends, m. */
  public static final double BATTEN_GAP = 0.020;

  /** Board of a window brace, m, and how wide it is round its opening. */
  public static final double FRAME_BOARD = 0.018;

  /** Width of the frame, m. */
  public static final double FRAME_WIDTH = 0.050;

  /**
   * A batten.
   *
   * @param upright along the wall's height, else across it
   * @param place its middle, as a share of the wall's width or height from the left or below
   */
  public record Batten(boolean upright, double place) {}

  /** Nothing changed. */
  public static Change none(String wall) {
    return new Change(
        wall,
        Optional.empty(),
        0,
        Optional.empty(),
        Optional.empty(),
        0,
        Optional.empty(),
        Optional.empty(),
        0,
        LiningKind.POLYESTER_FIBRE);
  }

  /** With a batten. */
  public Change with(Batten b) {
    return new Change(
        wall,
        Optional.of(b),
        thicker,
        material,
        sheet,
        sheetThickness,
        frame,
        linedWall,
        lining,
        kind);
  }

  /** With a thicker board. */
  public Change thicker(double by) {
    return new Change(
        wall, batten, by, material, sheet, sheetThickness, frame, linedWall, lining, kind);
  }

  /** Of another board. */
  public Change of(String other) {
    return new Change(
        wall,
        batten,
        thicker,
        Optional.of(other),
        sheet,
        sheetThickness,
        frame,
        linedWall,
        lining,
        kind);
  }

  /** With a damping sheet. */
  public Change with(DampingSheet.Kind damping, double thickness) {
    return new Change(
        wall,
        batten,
        thicker,
        material,
        Optional.of(damping),
        thickness,
        frame,
        linedWall,
        lining,
        kind);
  }

  /** With a window brace. */
  public Change framed(double at) {
    return new Change(
        wall,
        batten,
        thicker,
        material,
        sheet,
        sheetThickness,
        Optional.of(at),
        linedWall,
        lining,
        kind);
  }

  /** With a lining. */
  public Change lined(String which, double thickness, LiningKind what) {
    return new Change(
        wall,
        batten,
        thicker,
        material,
        sheet,
        sheetThickness,
        frame,
        Optional.of(which),
        thickness,
        what);
  }

  /** Whether the walls change. */
  public boolean ofWalls() {
    return batten.isPresent()
        || thicker != 0
        || material.isPresent()
        || sheet.isPresent()
        || frame.isPresent();
  }
}
