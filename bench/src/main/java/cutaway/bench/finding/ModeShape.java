package cutaway.bench.finding;

import java.util.List;

/**
 * How a box's walls move in a mode, on a grid over each wall, for pictures.
 *
 * @param id stable, dotted
 * @param name in plain words
 * @param frequency Hz
 * @param faces the walls; one that has not four corners in several parts
 */
public record ModeShape(String id, String name, double frequency, List<Face> faces) {
  /** Copies its list. */
  public ModeShape {
    faces = List.copyOf(faces);
  }

  /**
   * A wall with four corners, or a part with four corners of another.
   *
   * @param wall the wall's name
   * @param columns places along each side of the grid
   * @param places x, y and z of each place in turn, m, row by row; rows turn anticlockwise from
   *     columns seen from outside
   * @param moves displacement there, x, y and z; the largest of the box 1
   */
  public record Face(String wall, int columns, List<Double> places, List<Double> moves) {
    /** Copies its lists. */
    public Face {
      places = List.copyOf(places);
      moves = List.copyOf(moves);
    }

    /** The largest displacement. */
    public double largest() {
      double out = 0;
      for (int i = 0; i + 2 < moves.size(); i += 3) {
        double square =
            moves.get(i) * moves.get(i)
                + moves.get(i + 1) * moves.get(i + 1)
                + moves.get(i + 2) * moves.get(i + 2);
        out = Math.max(out, Math.sqrt(square));
      }
      return out;
    }

    /** The same with every displacement times a factor. */
    public Face scaled(double factor) {
      return new Face(
          wall,
          columns,
          places,
          moves.stream().map(m -> Math.rint(1e4 * m * factor) / 1e4).toList());
    }
  }
}
