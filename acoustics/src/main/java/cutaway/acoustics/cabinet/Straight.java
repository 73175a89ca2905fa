package cutaway.acoustics.cabinet;

import java.util.Optional;

/**
 * A way through a room along which its cross-section stays the same, from one wall square to it to
 * the other: waves along it are cosines.
 *
 * @param axis of the cells that lies along it, 0 to 2
 * @param foot a point of the first wall
 * @param direction of unit length
 * @param length from wall to wall, m
 */
record Straight(int axis, Point foot, Point direction, double length) {
  /** Corners may lie off by this share of the length. */
  private static final double ROUNDING = 1e-9;

  static Straight of(Prism prism) {
    return new Straight(2, new Point(0, 0, prism.bottom()), new Point(0, 0, 1), prism.height());
  }

  /**
   * The longest of a room with eight corners; absent where no wall is another moved square to
   * itself.
   */
  static Optional<Straight> of(EightCorners room) {
    Optional<Straight> longest = Optional.empty();
    for (int axis = 0; axis < 3; axis++) {
      Point foot = room.whole().corners().get(0);
      Point way = room.whole().edge(axis, 0);
      if (isStraight(room.whole(), axis)
          && (longest.isEmpty() || way.length() > longest.get().length())) {
        longest = Optional.of(new Straight(axis, foot, way.times(1 / way.length()), way.length()));
      }
    }
    return longest;
  }

  /**
   * Whether the four edges along an axis are equal as vectors, square to the wall they rise from.
   */
  private static boolean isStraight(Hexahedron cell, int axis) {
    Point first = cell.edge(axis, 0);
    double length = first.length();
    for (int edge = 0; edge < 4; edge++) {
      Point across = cell.foot(axis, edge).minus(cell.foot(axis, 0));
      if (cell.edge(axis, edge).minus(first).length() > ROUNDING * length
          || Math.abs(across.dot(first)) > ROUNDING * length * length) {
        return false;
      }
    }
    return true;
  }

  /** A cosine of some half-waves at a point, mean square one over the length; 1 for none. */
  double wave(int halfWaves, Point p) {
    return halfWaves == 0 ? 1 : Math.sqrt(2) * Math.cos(phase(halfWaves, p));
  }

  /** How fast it rises in the direction, 1/m. */
  double slope(int halfWaves, Point p) {
    return -Math.sqrt(2) * wavenumber(halfWaves) * Math.sin(phase(halfWaves, p));
  }

  /** Its wavenumber, rad/m. */
  double wavenumber(int halfWaves) {
    return halfWaves * Math.PI / length;
  }

  private double phase(int halfWaves, Point p) {
    return wavenumber(halfWaves) * p.minus(foot).dot(direction);
  }
}
