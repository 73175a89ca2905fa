package cutaway.acoustics.cabinet;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/**
 * The part of a quadrilateral that is cut to a hole's shape.
 *
 * @param hole the hole
 * @param low lowest place along both axes
 * @param high highest place
 */
@SuppressWarnings("ArrayRecordComponent")
record Frame(Hole hole, double[] low, double[] high) {
  boolean holds(double[] place) {
    return place[0] > low[0] && place[0] < high[0] && place[1] > low[1] && place[1] < high[1];
  }

  /** Whether it has more than a rim in common with what lies between other places. */
  boolean meets(double[] otherLow, double[] otherHigh) {
    double grain = 1e-9;
    return low[0] < otherHigh[0] - grain
        && otherLow[0] < high[0] - grain
        && low[1] < otherHigh[1] - grain
        && otherLow[1] < high[1] - grain;
  }

  /** Whether a cut runs through it, not at its rim. */
  boolean isCut(int axis, Set<Double> cuts) {
    double margin = 0.2 * (high[axis] - low[axis]);
    return cuts.stream().anyMatch(c -> c > low[axis] + margin && c < high[axis] - margin);
  }

  /** The places where cuts meet it, anticlockwise. */
  List<Point> round(Outline.Quad quad, double[][] cuts) {
    List<Point> out = new ArrayList<>();
    for (double x : cuts[0]) {
      if (x >= low[0] && x < high[0]) {
        out.add(quad.at(x, low[1]));
      }
    }
    for (double y : cuts[1]) {
      if (y >= low[1] && y < high[1]) {
        out.add(quad.at(high[0], y));
      }
    }
    for (int i = cuts[0].length - 1; i >= 0; i--) {
      if (cuts[0][i] > low[0] && cuts[0][i] <= high[0]) {
        out.add(quad.at(cuts[0][i], high[1]));
      }
    }
    for (int i = cuts[1].length - 1; i >= 0; i--) {
      if (cuts[1][i] > low[1] && cuts[1][i] <= high[1]) {
        out.add(quad.at(low[0], cuts[1][i]));
      }
    }
    return out;
  }
}
