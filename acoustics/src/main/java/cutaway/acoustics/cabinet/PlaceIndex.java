package cutaway.acoustics.cabinet;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Numbers places, the same number for places that differ by rounding only. */
final class PlaceIndex {
  private final double grain;
  private final Map<List<Long>, Integer> numbers = new HashMap<>();
  private final List<Point> places = new ArrayList<>();

  /** Places nearer than half a grain are one; different ones must be further than two apart. */
  PlaceIndex(double grain) {
    this.grain = grain;
  }

  /** The number of a place, a new one where it was not there; looks on both sides of rounding. */
  int at(Point p) {
    double[] q = {p.x() / grain, p.y() / grain, p.z() / grain};
    for (int side = 0; side < 8; side++) {
      List<Long> key = new ArrayList<>(3);
      for (int axis = 0; axis < 3; axis++) {
        key.add((long) ((side >> axis & 1) == 0 ? Math.floor(q[axis]) : Math.ceil(q[axis])));
      }
      Integer known = numbers.get(key);
      if (known != null) {
        return known;
      }
    }
    int number = places.size();
    places.add(p);
    numbers.put(List.of(Math.round(q[0]), Math.round(q[1]), Math.round(q[2])), number);
    return number;
  }

  int size() {
    return places.size();
  }

  Point place(int number) {
    return places.get(number);
  }
}
