package cutaway.acoustics.cabinet;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/** One wall's cells and how their nodes move. */
final class WallMesh {
  private static final double MOVED = 0.1;

  final Wall wall;
  final List<PanelCell> cells;
  final List<PlateElement> elements;
  final List<int[]> cellNodes = new ArrayList<>();
  final PlaceIndex nodes;
  final List<Motion.Row[]> rows = new ArrayList<>();
  final List<Motion> motions = new ArrayList<>();
  final List<Bearing> bearings;
  boolean placed;

  WallMesh(Wall wall, List<PanelCell> cells, List<PlateElement> elements, PlaceIndex nodes) {
    this.wall = wall;
    this.cells = cells;
    this.elements = elements;
    this.nodes = nodes;
    this.bearings = bearings();
  }

  /** Whether another wall's cells are these, moved by no more than a small part of their size. */
  boolean cutAs(WallMesh other) {
    return cells.size() == other.cells.size()
        && nodes.size() == other.nodes.size()
        && IntStream.range(0, cells.size()).allMatch(i -> alike(cells.get(i), other.cells.get(i)));
  }

  private static boolean alike(PanelCell one, PanelCell other) {
    double size = one.corners().get(0).minus(one.corners().get(2)).length();
    return IntStream.range(0, 4)
        .allMatch(i -> one.corners().get(i).minus(other.corners().get(i)).length() < MOVED * size);
  }

  /** Share of its motion that is off its plane. */
  double bending(double[] field) {
    double off = 0;
    double all = 0;
    for (int cell = 0; cell < cells.size(); cell++) {
      double[] areas = elements.get(cell).areas(cells.get(cell));
      for (int i = 0; i < areas.length; i++) {
        Motion.Row[] its = rows.get(cellNodes.get(cell)[i]);
        for (int part = 0; part < its.length; part++) {
          double moved = part == 1 || part == 2 ? 0 : its[part].of(field);
          off += part == 0 ? areas[i] * moved * moved : 0;
          all += areas[i] * moved * moved;
        }
      }
    }
    return all == 0 ? 0 : off / all;
  }

  /**
   * Where a part of a foot bears on a cell.
   *
   * @param cell its number
   * @param place in its square
   * @param foot whose part
   * @param share of the foot
   */
  @SuppressWarnings("ArrayRecordComponent") // never compared
  record Bearing(int cell, double[] place, Foot foot, double share) {}

  /**
   * Where its feet bear: beyond the middle plane's edge, under the edge.
   *
   * @throws ImpossibleShapeException where there is no board
   */
  private List<Bearing> bearings() {
    return wall.feet().stream()
        .flatMap(foot -> foot.parts().stream().map(part -> bearing(foot, part)))
        .toList();
  }

  private Bearing bearing(Foot foot, Foot.Part part) {
    Outline outline = wall.panel().outline();
    Point under = outline.holds(part.at()) ? part.at() : outline.nearest(part.at());
    for (int cell = 0; cell < cells.size(); cell++) {
      Optional<double[]> place = cells.get(cell).find(under);
      if (place.isPresent()) {
        return new Bearing(cell, place.get(), foot, part.share());
      }
    }
    throw new ImpossibleShapeException("a foot stands under a cut-out of the " + wall.name());
  }

  /** Displacement of the middle plane at a place in its axes; absent where there is none. */
  Optional<Point> displacement(double[] field, Point p) {
    for (int cell = 0; cell < cells.size(); cell++) {
      Optional<double[]> place = cells.get(cell).find(p);
      if (place.isPresent()) {
        double[] weights = elements.get(cell).values(place.get()[0], place.get()[1]);
        double[] sum = new double[5];
        for (int i = 0; i < weights.length; i++) {
          Motion.Row[] its = rows.get(cellNodes.get(cell)[i]);
          for (int part = 0; part < its.length; part++) {
            sum[part] += weights[i] * its[part].of(field);
          }
        }
        Plane plane = wall.plane();
        return Optional.of(
            plane
                .normal()
                .times(sum[0])
                .plus(plane.along().times(sum[3]))
                .plus(plane.across().times(sum[4])));
      }
    }
    return Optional.empty();
  }

  /** The places of the elements with the area each stands for. */
  Surface surface() {
    double[] areas = new double[nodes.size()];
    for (int cell = 0; cell < cells.size(); cell++) {
      double[] its = elements.get(cell).areas(cells.get(cell));
      for (int i = 0; i < its.length; i++) {
        areas[cellNodes.get(cell)[i]] += its[i];
      }
    }
    List<Point> places = new ArrayList<>();
    for (int node = 0; node < areas.length; node++) {
      places.add(wall.plane().space(nodes.place(node)));
    }
    return new Surface(places, areas);
  }

  /** Displacement along the normal at the places of the surface. */
  double[] normal(double[] field) {
    return rows.stream().mapToDouble(r -> r[0].of(field)).toArray();
  }
}
