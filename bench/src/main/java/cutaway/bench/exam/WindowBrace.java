package cutaway.bench.exam;

import cutaway.acoustics.board.Material;
import cutaway.acoustics.cabinet.Board;
import cutaway.acoustics.cabinet.Enclosure;
import cutaway.acoustics.cabinet.ImpossibleShapeException;
import cutaway.acoustics.cabinet.Outline;
import cutaway.acoustics.cabinet.Point;
import cutaway.acoustics.cabinet.Wall;
import cutaway.acoustics.cabinet.Window;
import cutaway.bench.sheet.CabinetReadings.WindowBraceReadings;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/** A board right across the box, level, left standing as a rim round one opening. */
final class WindowBrace {
  private WindowBrace() {}

  /**
   * As the sheet lists it.
   *
   * @throws ImpossibleShapeException where the box has no room for it
   */
  static Wall of(CabinetGeometry geometry, WindowBraceReadings read) {
    double low = geometry.outer().corners().stream().mapToDouble(Point::z).min().orElseThrow();
    return standing(
        geometry,
        read.height().estimate().value() + low,
        board(geometry, read),
        read.rim().estimate().value());
  }

  /** Its mass, kg; 0 where it does not fit. */
  static double mass(CabinetGeometry geometry, WindowBraceReadings read) {
    try {
      Wall wall = of(geometry, read);
      return volume(geometry, wall, read.rim().estimate().value()) * wall.panel().board().density();
    } catch (ImpossibleShapeException e) {
      return 0;
    }
  }

  private static Board board(CabinetGeometry geometry, WindowBraceReadings read) {
    double thickness = read.thickness().estimate().value();
    Optional<Material> material = read.material().flatMap(geometry.box().cabinet()::material);
    return material
        .map(m -> m.board(thickness, m.density().middle(), m.modulus().middle(), true))
        .orElseGet(() -> usual(thickness));
  }

  /** A board of which nothing but its thickness is told, m. */
  static Board usual(double thickness) {
    return PlainBoard.of(thickness);
  }

  /**
   * At a share of the walls' height.
   *
   * @param rim width left round the opening, m
   */
  static Wall at(CabinetGeometry geometry, double share, Board board, double rim) {
    List<Point> corners = geometry.middle().corners();
    double low = corners.stream().mapToDouble(Point::z).min().orElseThrow();
    double high = corners.stream().mapToDouble(Point::z).max().orElseThrow();
    return standing(geometry, low + share * (high - low), board, rim);
  }

  private static Wall standing(CabinetGeometry geometry, double z, Board board, double rim) {
    Enclosure middle = geometry.middle();
    if (!middle.standing()) {
      throw new ImpossibleShapeException(
          "it can be computed only in boxes given by size, by eight corners or by an outline");
    }
    List<Point> corners = new ArrayList<>();
    int sides = middle.corners().size() / 2;
    for (int i = 0; i < sides; i++) {
      Point foot = middle.corners().get(i);
      Point head = middle.corners().get(sides + i);
      double share = (z - foot.z()) / (head.z() - foot.z());
      if (!(share > 0 && share < 1)) {
        throw new ImpossibleShapeException("it stands over or under the box");
      }
      corners.add(foot.towards(head, share));
    }
    Wall plain = Wall.between("window brace", corners, board);
    return plain.with(List.of(new Window(drawnIn(plain, within(geometry, rim)))));
  }

  /** The outline drawn in by a width at each edge: where the edges, moved inwards, meet. */
  private static List<Point> drawnIn(Wall plain, double[] by) {
    List<Point> outer = plain.panel().outline().corners();
    int n = outer.size();
    List<Point> out = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      Point before = outer.get(i).minus(outer.get((i + n - 1) % n)).unit();
      Point after = outer.get((i + 1) % n).minus(outer.get(i)).unit();
      double turn = before.cross(after).z();
      // along each edge by the other's width over the sine of the turn
      Point along = after.times(by[(i + n - 1) % n]).minus(before.times(by[i]));
      out.add(outer.get(i).plus(along.times(1 / turn)));
    }
    for (int i = 0; i < n; i++) {
      Point side = outer.get((i + 1) % n).minus(outer.get(i));
      if (!(out.get((i + 1) % n).minus(out.get(i)).dot(side) > 0)) {
        throw new ImpossibleShapeException("its rim leaves no opening");
      }
    }
    return out;
  }

  /** From the walls' middle planes to their inner faces, and a rim further; of each side, m. */
  private static double[] within(CabinetGeometry geometry, double rim) {
    return IntStream.range(0, geometry.thickness().length - 2)
        .mapToDouble(i -> geometry.thickness()[i] / 2 + rim)
        .toArray();
  }

  /** Volume of its board inside the walls, m³. */
  static double volume(CabinetGeometry geometry, Wall wall, double rim) {
    double all = new Outline(drawnIn(wall, within(geometry, 0))).area();
    double open = new Outline(drawnIn(wall, within(geometry, rim))).area();
    return (all - open) * wall.panel().board().thickness();
  }
}
