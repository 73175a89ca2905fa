package cutaway.bench.sheet;

import cutaway.acoustics.board.Material;
import cutaway.acoustics.cabinet.DampingSheet;
import cutaway.acoustics.cabinet.FootMaterial;
import cutaway.acoustics.cabinet.Point;
import cutaway.bench.measure.Reading;
import java.util.List;
import java.util.Optional;

/**
 * Shape and walls of a box, as far as the sheet tells them.
 *
 * @param back the back where it differs from the front
 * @param corners eight inner corners; empty without
 * @param outline an inner outline seen from above, pulled up
 * @param walls what is known of each
 * @param windowBraces boards across the whole box with an opening each
 * @param feet what it stands on; absent where it hangs or lies soft
 * @param materials of one's own
 * @param amplifierMass kg
 * @param hardwareMass all else that is no board and no drive unit, kg
 * @param boardDensity of a piece of the walls, kg/m³
 */
public record CabinetReadings(
    Optional<Back> back,
    List<Point> corners,
    Optional<Pulled> outline,
    List<WallReadings> walls,
    List<WindowBraceReadings> windowBraces,
    Optional<FeetReadings> feet,
    List<Material> materials,
    Optional<Reading> amplifierMass,
    Optional<Reading> hardwareMass,
    Optional<Reading> boardDensity) {
  /** Copies its lists. */
  public CabinetReadings {
    corners = List.copyOf(corners);
    walls = List.copyOf(walls);
    windowBraces = List.copyOf(windowBraces);
    materials = List.copyOf(materials);
  }

  /** Where nothing was written. */
  public static final CabinetReadings NONE =
      new CabinetReadings(
          Optional.empty(),
          List.of(),
          Optional.empty(),
          List.of(),
          List.of(),
          Optional.empty(),
          List.of(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty());

  /**
   * The back of a tapered box, m.
   *
   * @param width left to right; the front's where absent
   * @param height bottom to top; the front's where absent
   * @param left how far its left edge lies right of the front's
   * @param bottom how far its lower edge lies above the front's
   */
  public record Back(
      Optional<Reading> width,
      Optional<Reading> height,
      Optional<Reading> left,
      Optional<Reading> bottom) {}

  /**
   * An outline pulled up, m.
   *
   * @param points its corners, z zero
   * @param height inner height
   */
  public record Pulled(List<Point> points, Reading height) {}

  /**
   * A wall.
   *
   * @param name which
   * @param corners its inner corners where the box is a list of walls, else empty
   * @param thickness of its board, m
   * @param materials what it may be made of; empty for unknown
   * @param cutOuts its openings
   * @param braces battens on its inside
   * @param lining what lies on its inside
   * @param damping what is glued to its inside
   */
  public record WallReadings(
      String name,
      List<Point> corners,
      Optional<Reading> thickness,
      List<String> materials,
      List<CutOutReadings> cutOuts,
      List<BraceReadings> braces,
      Optional<LiningReadings> lining,
      Optional<DampingReadings> damping) {
    /** Copies its lists. */
    public WallReadings {
      corners = List.copyOf(corners);
      materials = List.copyOf(materials);
      cutOuts = List.copyOf(cutOuts);
      braces = List.copyOf(braces);
    }

    /** Its name and corners. */
    WallReadings shapeOnly() {
      return new WallReadings(
          name,
          corners,
          Optional.empty(),
          List.of(),
          List.of(),
          List.of(),
          Optional.empty(),
          Optional.empty());
    }
  }

  /**
   * An opening.
   *
   * @param what sits in it
   * @param right of the left edge seen from outside, m
   * @param up above the lower edge, m
   * @param diameter m
   * @param flange outer diameter of what rests on the board, m
   * @param mass of what sits in it, kg
   */
  public record CutOutReadings(
      String what,
      double right,
      double up,
      Reading diameter,
      Optional<Reading> flange,
      Optional<Reading> mass) {}

  /**
   * A batten.
   *
   * @param from where it begins, right and up seen from outside, m
   * @param to where it ends
   * @param width along the wall, m
   * @param depth away from the wall, m
   * @param material its material; the wall's where absent
   */
  public record BraceReadings(
      Point from, Point to, Reading width, Reading depth, Optional<String> material) {
    /** Whether its line crosses another's. */
    public boolean crosses(BraceReadings other) {
      return parts(from, to, other) && parts(other.from, other.to, this);
    }

    /** Whether a line parts the ends of another. */
    private static boolean parts(Point from, Point to, BraceReadings other) {
      Point along = to.minus(from);
      double one = along.cross(other.from.minus(from)).z();
      double two = along.cross(other.to.minus(from)).z();
      return one * two < 0;
    }
  }

  /**
   * A lining.
   *
   * @param thickness m
   * @param resistivity Pa·s/m²
   * @param kind where the resistivity is not known; may be empty
   */
  public record LiningReadings(Reading thickness, Optional<Reading> resistivity, String kind) {}

  /**
   * A damping sheet.
   *
   * @param kind what it is
   * @param thickness without its foil, m
   */
  public record DampingReadings(DampingSheet.Kind kind, Reading thickness) {}

  /**
   * A board level across the whole box, with an opening.
   *
   * @param height its middle above the lower outer edge of the box, m
   * @param thickness of its board, m
   * @param rim how wide the board is left round the opening, m
   * @param material its material; a usual board where absent
   */
  public record WindowBraceReadings(
      Reading height, Reading thickness, Reading rim, Optional<String> material) {}

  /**
   * Feet under the bottom, all alike.
   *
   * @param material what gives under the load
   * @param at their middles, right and up seen from outside, m; empty where {@code inset} tells
   * @param inset of one in each corner: how far its middle lies from both edges
   * @param diameter of what touches the box, m
   * @param height m
   */
  public record FeetReadings(
      FootMaterial material,
      List<Point> at,
      Optional<Reading> inset,
      Reading diameter,
      Reading height) {
    /** Copies its list. */
    public FeetReadings {
      at = List.copyOf(at);
    }
  }

  /** What is known of a wall by its name. */
  public Optional<WallReadings> wall(String name) {
    return walls.stream().filter(w -> w.name().equals(name)).findFirst();
  }

  /** A material of the sheet's or the table's. */
  public Optional<Material> material(String name) {
    return materials.stream()
        .filter(m -> m.name().equals(name))
        .findFirst()
        .or(() -> Material.named(name.replace(' ', '_')));
  }
}
