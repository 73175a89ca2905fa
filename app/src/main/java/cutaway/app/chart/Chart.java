package cutaway.app.chart;

import java.util.List;

/**
 * A chart, whatever draws it.
 *
 * @param id unique on a page
 * @param title what it shows
 * @param logX whether the horizontal axis is logarithmic
 * @param labelX its title with unit
 * @param labelY title of the vertical axis with unit
 * @param series what is drawn, at most four that differ in colour
 * @param markers vertical lines with a name
 * @param lowY lower bound of the vertical axis, or NaN to find it
 * @param highY upper bound, or NaN
 */
public record Chart(
    String id,
    String title,
    boolean logX,
    String labelX,
    String labelY,
    List<Series> series,
    List<Marker> markers,
    double lowY,
    double highY) {
  /** Copies its lists. */
  public Chart {
    series = List.copyOf(series);
    markers = List.copyOf(markers);
  }

  /** How a series is drawn. */
  public enum Kind {
    /** A line. */
    LINE,
    /** Points. */
    POINTS
  }

  /**
   * One curve.
   *
   * @param label stands at its end
   * @param kind line or points
   * @param colour 1 to 4
   * @param dashed whether a line is broken
   * @param x positions, ascending
   * @param y values
   * @param low lower edge of its band at each position, empty without one
   * @param high upper edge
   */
  public record Series(
      String label,
      Kind kind,
      int colour,
      boolean dashed,
      List<Double> x,
      List<Double> y,
      List<Double> low,
      List<Double> high) {}

  /**
   * A vertical line.
   *
   * @param x where
   * @param label its name
   */
  public record Marker(double x, String label) {}
}
