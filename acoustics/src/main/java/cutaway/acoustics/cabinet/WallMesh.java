package cutaway.acoustics.cabinet;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** One wall's cells and how their nodes move. */
final class WallMesh {
  final Wall wall;
  final List<PanelCell> cells;
  final List<PlateElement> elements;
  final List<int[]> cellNodes = new ArrayList<>();
  final PlaceIndex nodes;
  final List<Motion.Row[]> rows = new ArrayList<>();
  final List<Motion> motions = new ArrayList<>();
  boolean placed;

  WallMesh(Wall wall, List<PanelCell> cells, List<PlateElement> elements, PlaceIndex nodes) {
    this.wall = wall;
    this.cells = cells;
    this.elements = elements;
    this.nodes = nodes;
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
