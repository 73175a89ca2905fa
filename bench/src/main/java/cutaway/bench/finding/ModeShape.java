package cutaway.bench.finding;

import java.util.List;

/**
 * How a box's walls move in a mode, on a grid over each wall, for pictures.
 *
 * @param id stable, dotted
 * @param name in plain words
 * @param frequency Hz
 * @param faces the walls with four corners
 */
public record ModeShape(String id, String name, double frequency, List<Face> faces) {
  /** Copies its list. */
  public ModeShape {
    faces = List.copyOf(faces);
  }

  /**
   * One wall.
   *
   * @param wall its name
   * @param columns places along each side of the grid
   * @param places x, y and z of each place in turn, m, row by row
   * @param moves displacement there, x, y and z; the largest of the box 1
   */
  public record Face(String wall, int columns, List<Double> places, List<Double> moves) {
    /** Copies its lists. */
    public Face {
      places = List.copyOf(places);
      moves = List.copyOf(moves);
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
