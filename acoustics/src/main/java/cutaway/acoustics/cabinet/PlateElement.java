package cutaway.acoustics.cabinet;

import cutaway.acoustics.modes.Lobatto;

/**
 * Stiffness and mass of one cell of a plate that shears and, where it is to, stretches.
 *
 * <p>Fields of a node: w, β_x, β_y, then u and v; all in the panel's axes.
 */
final class PlateElement {
  private final Lobatto lobatto;
  private final int fields;

  /**
   * For one kind of element.
   *
   * @param lobatto points along each side
   * @param stretches whether the middle plane moves in itself
   */
  PlateElement(Lobatto lobatto, boolean stretches) {
    this.lobatto = lobatto;
    this.fields = stretches ? 5 : 3;
  }

  /**
   * Stiffness of a cell, (fields · nodes)², row-major.
   *
   * @param law of the board, 5 × 5 or with stretching 8 × 8
   */
  double[] stiffness(PanelCell cell, double[] law) {
    int n = lobatto.size();
    int size = fields * n * n;
    double[] k = new double[size * size];
    for (int b = 0; b < n; b++) {
      for (int a = 0; a < n; a++) {
        add(cell, a, b, law, k);
      }
    }
    return k;
  }

  /** Area that each node stands for, m². */
  double[] areas(PanelCell cell) {
    int n = lobatto.size();
    double[] out = new double[n * n];
    for (int b = 0; b < n; b++) {
      for (int a = 0; a < n; a++) {
        double[] s = cell.slopes(lobatto.point(a), lobatto.point(b));
        out[b * n + a] = (s[0] * s[3] - s[1] * s[2]) * lobatto.weight(a) * lobatto.weight(b);
      }
    }
    return out;
  }

  /** Adds one quadrature point's share of the energy. */
  private void add(PanelCell cell, int a, int b, double[] law, double[] k) {
    int n = lobatto.size();
    double[] s = cell.slopes(lobatto.point(a), lobatto.point(b));
    double det = s[0] * s[3] - s[1] * s[2];
    int involved = 2 * n - 1;
    int[] places = new int[fields * involved];
    double[][] strain = new double[fields * involved][];
    int next = 0;
    for (int i = 0; i < involved; i++) {
      // nodes on the point's row, then those on its column but for itself
      boolean row = i < n;
      int along = row ? i : (i - n) + (i - n >= b ? 1 : 0);
      int local = row ? b * n + along : along * n + a;
      boolean here = row && along == a;
      double dXi = row ? lobatto.slope(a, along) : 0;
      double dEta = here ? lobatto.slope(b, b) : row ? 0 : lobatto.slope(b, along);
      double dx = (dXi * s[3] - dEta * s[1]) / det;
      double dy = (dEta * s[0] - dXi * s[2]) / det;
      for (int field = 0; field < fields; field++) {
        places[next] = fields * local + field;
        strain[next++] = strains(field, here ? 1 : 0, dx, dy);
      }
    }
    accumulate(places, strain, law, lobatto.weight(a) * lobatto.weight(b) * det, k);
  }

  /** What one field bends, shears and stretches: κ_x, κ_y, κ_xy, γ_x, γ_y, ε_x, ε_y, ε_xy. */
  private double[] strains(int field, double value, double dx, double dy) {
    double[] out = new double[fields == 3 ? 5 : 8];
    switch (field) {
      case 0 -> {
        out[3] = dx;
        out[4] = dy;
      }
      case 1 -> {
        out[0] = dx;
        out[2] = dy;
        out[3] = value;
      }
      case 2 -> {
        out[1] = dy;
        out[2] = dx;
        out[4] = value;
      }
      case 3 -> {
        out[5] = dx;
        out[7] = dy;
      }
      default -> {
        out[6] = dy;
        out[7] = dx;
      }
    }
    return out;
  }

  /** Adds εᵀCε of the strains of the unknowns at some rows of k. */
  private static void accumulate(
      int[] places, double[][] strain, double[] law, double weight, double[] k) {
    int size = (int) Math.round(Math.sqrt(k.length));
    int parts = (int) Math.round(Math.sqrt(law.length));
    double[] stress = new double[parts];
    for (int i = 0; i < places.length; i++) {
      for (int r = 0; r < parts; r++) {
        double sum = 0;
        for (int c = 0; c < parts; c++) {
          sum += law[parts * r + c] * strain[i][c];
        }
        stress[r] = weight * sum;
      }
      for (int j = 0; j < places.length; j++) {
        double sum = 0;
        for (int r = 0; r < parts; r++) {
          sum += stress[r] * strain[j][r];
        }
        k[places[i] * size + places[j]] += sum;
      }
    }
  }
}
