package cutaway.acoustics.cabinet;

import cutaway.acoustics.modes.Lobatto;

/**
 * Stiffness and mass of one cell of a plate that shears and, where it is to, stretches.
 *
 * <p>Fields of a node: w, β_x, β_y, then u and v; all in the panel's axes.
 *
 * <p>The cell's own shape is taken through its nodes too, by the same polynomials: only then is a
 * plate that turns as a whole free of strain where a side is an arc.
 */
final class PlateElement {
  /** Which of κ_x, κ_y, κ_xy, γ_x, γ_y, ε_x, ε_y, ε_xy each field has a part in. */
  private static final int[][] OWN = {{3, 4}, {0, 2, 3}, {1, 2, 4}, {5, 7}, {6, 7}};

  private final Lobatto lobatto;
  private final int fields;

  /** How many of the strains there are. */
  private final int strains;

  /**
   * For one kind of element.
   *
   * @param lobatto points along each side
   * @param stretches whether the middle plane moves in itself
   */
  PlateElement(Lobatto lobatto, boolean stretches) {
    this.lobatto = lobatto;
    this.fields = stretches ? 5 : 3;
    this.strains = stretches ? 8 : 5;
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
    double[][] slopes = slopes(cell);
    for (int b = 0; b < n; b++) {
      for (int a = 0; a < n; a++) {
        add(slopes[b * n + a], a, b, law, k);
      }
    }
    for (int i = 0; i < size; i++) {
      for (int j = 0; j < i; j++) {
        k[i * size + j] += k[j * size + i];
        k[j * size + i] = k[i * size + j];
      }
    }
    return k;
  }

  /** Area that each node stands for, m². */
  double[] areas(PanelCell cell) {
    int n = lobatto.size();
    double[] out = new double[n * n];
    double[][] slopes = slopes(cell);
    for (int b = 0; b < n; b++) {
      for (int a = 0; a < n; a++) {
        double[] s = slopes[b * n + a];
        out[b * n + a] = (s[0] * s[3] - s[1] * s[2]) * lobatto.weight(a) * lobatto.weight(b);
      }
    }
    return out;
  }

  /** The slopes x_ξ, y_ξ, x_η, y_η at each node of the polynomials through the nodes' places. */
  private double[][] slopes(PanelCell cell) {
    int n = lobatto.size();
    Point[] places = new Point[n * n];
    for (int i = 0; i < n * n; i++) {
      places[i] = cell.at(lobatto.point(i % n), lobatto.point(i / n));
    }
    double[][] out = new double[n * n][4];
    for (int b = 0; b < n; b++) {
      for (int a = 0; a < n; a++) {
        double[] s = out[b * n + a];
        for (int i = 0; i < n; i++) {
          Point inRow = places[b * n + i];
          Point inColumn = places[i * n + a];
          s[0] += lobatto.slope(a, i) * inRow.x();
          s[1] += lobatto.slope(a, i) * inRow.y();
          s[2] += lobatto.slope(b, i) * inColumn.x();
          s[3] += lobatto.slope(b, i) * inColumn.y();
        }
      }
    }
    return out;
  }

  /** Adds one quadrature point's share of the energy. */
  private void add(double[] s, int a, int b, double[] law, double[] k) {
    int n = lobatto.size();
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

  /** What one field bends, shears and stretches. */
  private double[] strains(int field, double value, double dx, double dy) {
    double[] out = new double[strains];
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

  /** Adds εᵀCε of the strains of the unknowns at some rows of k, each pair in one place only. */
  private void accumulate(
      int[] places, double[][] strain, double[] law, double weight, double[] k) {
    int size = (int) Math.round(Math.sqrt(k.length));
    double[] stress = new double[strains];
    for (int i = 0; i < places.length; i++) {
      for (int r = 0; r < strains; r++) {
        double sum = 0;
        for (int c : OWN[i % fields]) {
          sum += law[strains * r + c] * strain[i][c];
        }
        stress[r] = weight * sum;
      }
      for (int j = i; j < places.length; j++) {
        double sum = 0;
        double[] its = strain[j];
        for (int r : OWN[j % fields]) {
          sum += stress[r] * its[r];
        }
        k[places[i] * size + places[j]] += sum;
      }
    }
  }
}
