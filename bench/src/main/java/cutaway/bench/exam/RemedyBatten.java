package cutaway.bench.exam;

import cutaway.acoustics.cabinet.Brace;
import cutaway.acoustics.cabinet.ImpossibleShapeException;
import cutaway.acoustics.cabinet.Point;
import cutaway.acoustics.cabinet.Wall;
import cutaway.bench.finding.Change;
import cutaway.bench.finding.Change.Batten;
import java.util.List;

/** Where a batten that is tried on paper lies, and what it is of. */
final class RemedyBatten {
  private RemedyBatten() {}

  /**
   * Right across its wall but for a gap at each end.
   *
   * @param frames window braces: the batten ends before one in whose board it would end
   * @throws ImpossibleShapeException where it would lie in one, or has no room before it
   */
  static Brace of(Wall wall, Batten batten, List<Wall> frames) {
    double[] x = wall.panel().outline().corners().stream().mapToDouble(Point::x).sorted().toArray();
    double[] y = wall.panel().outline().corners().stream().mapToDouble(Point::y).sorted().toArray();
    int last = x.length - 1;
    double gap = Change.BATTEN_GAP;
    double share = batten.place();
    double right = x[0] + share * (x[last] - x[0]);
    double up = y[0] + share * (y[last] - y[0]);
    Point from = batten.upright() ? new Point(right, y[0] + gap, 0) : new Point(x[0] + gap, up, 0);
    Point to =
        batten.upright() ? new Point(right, y[last] - gap, 0) : new Point(x[last] - gap, up, 0);
    for (Wall frame : frames) {
      Point first = clear(wall, from, to, frame);
      to = clear(wall, to, from, frame);
      from = first;
    }
    return brace(from, to);
  }

  /** An end drawn in towards the other where it lies in a window brace's board. */
  private static Point clear(Wall wall, Point end, Point other, Wall frame) {
    double half = frame.panel().board().thickness() / 2;
    double at = frame.plane().local(wall.plane().space(end)).z();
    double there = frame.plane().local(wall.plane().space(other)).z();
    if (Math.abs(at) > half) {
      return end;
    }
    double to = Math.copySign(half + Change.BATTEN_GAP, there);
    if (Math.abs(there) <= half) {
      throw new ImpossibleShapeException("a batten lies in the window brace");
    }
    if (Math.abs(there) < Math.abs(to) + Change.BATTEN_WIDTH) {
      throw new ImpossibleShapeException("a batten has no room before the window brace");
    }
    return end.towards(other, (to - at) / (there - at));
  }

  private static Brace brace(Point from, Point to) {
    return new Brace(
        from,
        to,
        Change.BATTEN_WIDTH,
        Change.BATTEN_DEPTH,
        PlainBoard.MODULUS,
        PlainBoard.MODULUS / 2.6,
        PlainBoard.DENSITY);
  }
}
