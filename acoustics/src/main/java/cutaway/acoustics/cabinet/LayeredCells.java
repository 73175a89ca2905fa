package cutaway.acoustics.cabinet;

import java.util.ArrayList;
import java.util.DoubleSummaryStatistics;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * A room of eight corners cut along the faces of the lining on its walls, and so finely that waves
 * up to a given wavenumber are resolved.
 */
final class LayeredCells {
  private final List<Hexahedron> cells = new ArrayList<>();
  private final List<Boolean> lined = new ArrayList<>();

  /** A plane: n·x = d. */
  private record Plane(Point normal, double distance) {}

  /** Planes across one axis in order, and which of the gaps between them are lined. */
  private record Stack(List<Plane> planes, List<Boolean> lined) {}

  /**
   * Cuts.
   *
   * @param box a room with flat walls
   * @param lining thickness on each lined wall, m
   * @param patches elements end where these do, as far as they lie along them
   * @param wavenumber highest to be resolved, rad/m
   * @param halfWaves along an element at most
   */
  LayeredCells(
      EightCorners box,
      Map<Face, Double> lining,
      List<Patch> patches,
      double wavenumber,
      double halfWaves) {
    List<Stack> stacks = new ArrayList<>();
    for (int axis = 0; axis < 3; axis++) {
      stacks.add(stack(box, lining, axis));
    }
    int[] gaps = stacks.stream().mapToInt(s -> s.lined().size()).toArray();
    Hexahedron[][][] coarse = new Hexahedron[gaps[0]][gaps[1]][gaps[2]];
    double[][] longest = {new double[gaps[0]], new double[gaps[1]], new double[gaps[2]]};
    for (int a = 0; a < gaps[0]; a++) {
      for (int b = 0; b < gaps[1]; b++) {
        for (int c = 0; c < gaps[2]; c++) {
          coarse[a][b][c] = cell(stacks, a, b, c);
          double[] lengths = coarse[a][b][c].lengths();
          longest[0][a] = Math.max(longest[0][a], lengths[0]);
          longest[1][b] = Math.max(longest[1][b], lengths[1]);
          longest[2][c] = Math.max(longest[2][c], lengths[2]);
        }
      }
    }
    List<List<List<Double>>> cuts = cuts(coarse, gaps, patches);
    for (int a = 0; a < gaps[0]; a++) {
      for (int b = 0; b < gaps[1]; b++) {
        for (int c = 0; c < gaps[2]; c++) {
          boolean here =
              stacks.get(0).lined().get(a)
                  || stacks.get(1).lined().get(b)
                  || stacks.get(2).lined().get(c);
          double[] lengths = {longest[0][a], longest[1][b], longest[2][c]};
          List<List<Double>> given =
              List.of(cuts.get(0).get(a), cuts.get(1).get(b), cuts.get(2).get(c));
          Parts parts = Parts.of(lengths, wavenumber, halfWaves, given);
          for (Hexahedron part : parts.split(coarse[a][b][c])) {
            cells.add(part);
            lined.add(here);
          }
        }
      }
    }
  }

  /** For each axis and each of its gaps the places where a patch begins or ends. */
  private static List<List<List<Double>>> cuts(
      Hexahedron[][][] coarse, int[] gaps, List<Patch> patches) {
    List<List<List<Double>>> out = new ArrayList<>();
    for (int gap : gaps) {
      out.add(IntStream.range(0, gap).<List<Double>>mapToObj(g -> new ArrayList<>()).toList());
    }
    for (Patch patch : patches) {
      for (int a = 0; a < gaps[0]; a++) {
        for (int b = 0; b < gaps[1]; b++) {
          for (int c = 0; c < gaps[2]; c++) {
            Hexahedron cell = coarse[a][b][c];
            List<Point> inside =
                patch.corners().stream().map(cell::find).flatMap(Optional::stream).toList();
            List<double[]> places =
                inside.stream().map(p -> new double[] {p.x(), p.y(), p.z()}).toList();
            int[] at = {a, b, c};
            for (int axis = 0; !places.isEmpty() && axis < 3; axis++) {
              int along = axis;
              DoubleSummaryStatistics range =
                  places.stream().mapToDouble(p -> p[along]).summaryStatistics();
              if (range.getMax() - range.getMin() > 1e-6) {
                out.get(axis).get(at[axis]).add(range.getMin());
                out.get(axis).get(at[axis]).add(range.getMax());
              }
            }
          }
        }
      }
    }
    return out;
  }

  List<Hexahedron> cells() {
    return cells;
  }

  List<Boolean> lined() {
    return lined;
  }

  private static Stack stack(EightCorners box, Map<Face, Double> lining, int axis) {
    Plane low = null;
    Plane high = null;
    double lowLayer = 0;
    double highLayer = 0;
    for (Face face : Face.values()) {
      if (face.axis() == axis && face.end() < 0) {
        low = plane(box, face);
        lowLayer = lining.getOrDefault(face, 0.0);
      } else if (face.axis() == axis) {
        high = plane(box, face);
        highLayer = lining.getOrDefault(face, 0.0);
      }
    }
    List<Plane> planes = new ArrayList<>();
    List<Boolean> lined = new ArrayList<>();
    planes.add(java.util.Objects.requireNonNull(low));
    if (lowLayer > 0) {
      planes.add(new Plane(low.normal(), low.distance() - lowLayer));
      lined.add(true);
    }
    lined.add(false);
    if (highLayer > 0) {
      planes.add(
          new Plane(java.util.Objects.requireNonNull(high).normal(), high.distance() - highLayer));
      lined.add(true);
    }
    planes.add(java.util.Objects.requireNonNull(high));
    return new Stack(planes, lined);
  }

  /** The plane of a wall, its normal outwards. */
  private static Plane plane(EightCorners box, Face face) {
    double[] place = new double[3];
    place[face.axis()] = face.end();
    Point middle = box.whole().at(place[0], place[1], place[2]);
    List<Point> slopes = box.whole().slopes(place[0], place[1], place[2]);
    Point normal =
        slopes
            .get((face.axis() + 1) % 3)
            .cross(slopes.get((face.axis() + 2) % 3))
            .unit()
            .times(face.end());
    return new Plane(normal, normal.dot(middle));
  }

  private static Hexahedron cell(List<Stack> stacks, int a, int b, int c) {
    List<Point> corners = new ArrayList<>();
    for (int up = 0; up < 2; up++) {
      corners.add(corner(stacks, a, b, c + up));
      corners.add(corner(stacks, a + 1, b, c + up));
      corners.add(corner(stacks, a + 1, b + 1, c + up));
      corners.add(corner(stacks, a, b + 1, c + up));
    }
    return new EightCorners(new Hexahedron(corners)).whole();
  }

  /** Where three planes meet. */
  private static Point corner(List<Stack> stacks, int a, int b, int c) {
    Plane p = stacks.get(0).planes().get(a);
    Plane q = stacks.get(1).planes().get(b);
    Plane r = stacks.get(2).planes().get(c);
    double det = p.normal().dot(q.normal().cross(r.normal()));
    return q.normal()
        .cross(r.normal())
        .times(p.distance())
        .plus(r.normal().cross(p.normal()).times(q.distance()))
        .plus(p.normal().cross(q.normal()).times(r.distance()))
        .times(1 / det);
  }
}
