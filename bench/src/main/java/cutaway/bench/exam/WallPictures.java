package cutaway.bench.exam;

import cutaway.acoustics.cabinet.BoxModes;
import cutaway.acoustics.cabinet.Outline;
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

  private WallPictures() {}

  /** Grids of displacement of the lowest modes, for pictures. */
  static List<ModeShape> of(BoxModes modes, int walls) {
    List<ModeShape> out = new ArrayList<>();
    for (int mode = 0; mode < PICTURES; mode++) {
      List<ModeShape.Face> faces = new ArrayList<>();
      double largest = 0;
      for (int wall = 0; wall < walls; wall++) {
        Wall w = modes.walls().get(wall);
        if (w.panel().outline().corners().size() != 4) {
          continue;
        }
        List<Double> places = new ArrayList<>();
        List<Double> moves = new ArrayList<>();
        Outline outline = w.panel().outline();
        for (int b = 0; b < GRID; b++) {
          for (int a = 0; a < GRID; a++) {
            Point low =
                outline.corners().get(0).towards(outline.corners().get(1), a / (GRID - 1.0));
            Point high =
                outline.corners().get(3).towards(outline.corners().get(2), a / (GRID - 1.0));
            Point local = low.towards(high, b / (GRID - 1.0));
            Point at = w.plane().space(local);
            Point u = modes.displacement(mode, wall, local).orElse(new Point(0, 0, 0));
            places.addAll(List.of(at.x(), at.y(), at.z()));
            moves.addAll(List.of(u.x(), u.y(), u.z()));
            largest = Math.max(largest, u.length());
          }
        }
        faces.add(new ModeShape.Face(w.name(), GRID, places, moves));
      }
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
}
