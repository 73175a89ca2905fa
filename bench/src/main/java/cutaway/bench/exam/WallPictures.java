package cutaway.bench.exam;

import cutaway.acoustics.cabinet.BoxModes;
import cutaway.acoustics.cabinet.Point;
import cutaway.acoustics.cabinet.Wall;
import cutaway.bench.finding.ModeShape;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** The lowest modes of a box on grids over its walls. */
final class WallPictures {
  private static final int PICTURES = 4;
  private static final int GRID = 9;

  /** On each of the parts of a wall that has not four corners. */
  private static final int COARSE = 5;

  private WallPictures() {}

  /** Grids of displacement of the lowest modes, for pictures. */
  static List<ModeShape> of(BoxModes modes, int walls) {
    List<ModeShape> out = new ArrayList<>();
    for (int mode = 0; mode < PICTURES; mode++) {
      List<ModeShape.Face> faces = new ArrayList<>();
      for (int wall = 0; wall < walls; wall++) {
        List<List<Point>> parts = modes.walls().get(wall).panel().outline().parts();
        for (List<Point> part : parts) {
          faces.add(face(modes, mode, wall, part, parts.size() == 1 ? GRID : COARSE));
        }
      }
      double largest = faces.stream().mapToDouble(ModeShape.Face::largest).max().orElse(0);
      double scale = largest == 0 ? 1 : 1 / largest;
      out.add(
          new ModeShape(
              "walls.mode-" + (mode + 1),
              String.format(Locale.ROOT, "mode %d, %.0f Hz", mode + 1, modes.frequency(mode)),
              modes.frequency(mode),
              faces.stream().map(f -> f.scaled(scale)).toList()));
    }
    return out;
  }

  private static ModeShape.Face face(
      BoxModes modes, int mode, int wall, List<Point> corners, int grid) {
    Wall w = modes.walls().get(wall);
    List<Double> places = new ArrayList<>();
    List<Double> moves = new ArrayList<>();
    for (int b = 0; b < grid; b++) {
      for (int a = 0; a < grid; a++) {
        Point low = corners.get(0).towards(corners.get(1), a / (grid - 1.0));
        Point high = corners.get(3).towards(corners.get(2), a / (grid - 1.0));
        Point local = low.towards(high, b / (grid - 1.0));
        Point at = w.plane().space(local);
        Point u = modes.displacement(mode, wall, local).orElse(new Point(0, 0, 0));
        places.addAll(List.of(at.x(), at.y(), at.z()));
        moves.addAll(List.of(u.x(), u.y(), u.z()));
      }
    }
    return new ModeShape.Face(w.name(), grid, places, moves);
  }
}
