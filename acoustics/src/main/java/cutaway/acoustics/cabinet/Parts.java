package cutaway.acoustics.cabinet;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Where cells are cut along each of their axes, as places between −1 and 1, ends included. */
final class Parts {
  /** Cuts closer than this share of a cell are not worth an element. */
  private static final double LEAST = 0.1;

  private final List<double[]> cuts;

  private Parts(List<double[]> cuts) {
    this.cuts = cuts;
  }

  /**
   * As many cuts as it takes for no part to hold more than some half-waves.
   *
   * @param lengths of the cells along each axis, m
   * @param wavenumber rad/m
   */
  static Parts of(double[] lengths, double wavenumber, double halfWaves) {
    return of(lengths, wavenumber, halfWaves, List.of(List.of(), List.of(), List.of()));
  }

  /** The same with some places given where there must be a cut along each axis. */
  static Parts of(double[] lengths, double wavenumber, double halfWaves, List<List<Double>> given) {
    List<double[]> cuts = new ArrayList<>();
    for (int axis = 0; axis < 3; axis++) {
      double waves = wavenumber * lengths[axis] / Math.PI;
      cuts.add(along(waves / halfWaves, given.get(axis)));
    }
    return new Parts(cuts);
  }

  private static double[] along(double parts, List<Double> given) {
    List<Double> ends = new ArrayList<>(List.of(-1.0));
    given.stream()
        .sorted()
        .filter(c -> c < 1 - 2 * LEAST)
        .forEach(
            c -> {
              if (c - ends.get(ends.size() - 1) > 2 * LEAST) {
                ends.add(c);
              }
            });
    ends.add(1.0);
    List<Double> out = new ArrayList<>(List.of(-1.0));
    for (int i = 1; i < ends.size(); i++) {
      double from = ends.get(i - 1);
      double to = ends.get(i);
      int n = (int) Math.max(1, Math.ceil(parts * (to - from) / 2));
      for (int k = 1; k <= n; k++) {
        out.add(k == n ? to : from + (to - from) * k / n);
      }
    }
    return out.stream().mapToDouble(Double::doubleValue).toArray();
  }

  /** The parts of a cell. */
  List<Hexahedron> split(Hexahedron cell) {
    List<Hexahedron> out = new ArrayList<>();
    int[] n = cuts.stream().mapToInt(c -> c.length - 1).toArray();
    for (int a = 0; a < n[0]; a++) {
      for (int b = 0; b < n[1]; b++) {
        for (int c = 0; c < n[2]; c++) {
          out.add(cell.part(place(a, b, c), place(a + 1, b + 1, c + 1)));
        }
      }
    }
    return out;
  }

  private double[] place(int... at) {
    double[] out = new double[3];
    Arrays.setAll(out, axis -> cuts.get(axis)[at[axis]]);
    return out;
  }
}
