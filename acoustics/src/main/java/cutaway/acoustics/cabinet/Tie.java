package cutaway.acoustics.cabinet;

import java.util.LinkedHashMap;
import java.util.Map;

/**
 * The fields of an element as sums over unknowns, q = T x.
 *
 * @param unknowns x
 * @param rows T, each with places among the unknowns
 */
@SuppressWarnings("ArrayRecordComponent")
record Tie(int[] unknowns, Motion.Row[] rows) {
  static Tie of(Motion.Row[] rows) {
    Map<Integer, Integer> places = new LinkedHashMap<>();
    Motion.Row[] local = new Motion.Row[rows.length];
    for (int i = 0; i < rows.length; i++) {
      int[] global = rows[i].unknowns();
      int[] at = new int[global.length];
      for (int k = 0; k < global.length; k++) {
        Integer known = places.putIfAbsent(global[k], places.size());
        at[k] = known == null ? places.size() - 1 : known;
      }
      local[i] = new Motion.Row(at, rows[i].factors());
    }
    int[] unknowns = places.keySet().stream().mapToInt(Integer::intValue).toArray();
    return new Tie(unknowns, local);
  }

  /** TᵀKT. */
  double[] of(double[] k) {
    int n = rows.length;
    int m = unknowns.length;
    double[] half = new double[n * m];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        double value = k[i * n + j];
        if (value != 0) {
          spread(rows[j], value, half, i * m);
        }
      }
    }
    double[] out = new double[m * m];
    for (int i = 0; i < n; i++) {
      addRows(rows[i], half, i * m, out);
    }
    return out;
  }

  /** The same of a diagonal. */
  double[] ofDiagonal(double[] d) {
    int m = unknowns.length;
    double[] out = new double[m * m];
    for (int i = 0; i < d.length; i++) {
      double[] row = new double[m];
      spread(rows[i], d[i], row, 0);
      addRows(rows[i], row, 0, out);
    }
    return out;
  }

  private static void spread(Motion.Row row, double value, double[] to, int first) {
    for (int k = 0; k < row.unknowns().length; k++) {
      to[first + row.unknowns()[k]] += value * row.factors()[k];
    }
  }

  private void addRows(Motion.Row row, double[] half, int first, double[] out) {
    int m = unknowns.length;
    for (int k = 0; k < row.unknowns().length; k++) {
      double factor = row.factors()[k];
      int to = row.unknowns()[k] * m;
      for (int c = 0; c < m; c++) {
        out[to + c] += factor * half[first + c];
      }
    }
  }
}
