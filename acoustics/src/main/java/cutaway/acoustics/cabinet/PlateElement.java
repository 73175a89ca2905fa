package cutaway.acoustics.cabinet;

import cutaway.acoustics.modes.Lobatto;
import java.util.Arrays;

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

  private final Lobatto across;
  private final Lobatto along;
  private final int fields;

  /** How many of the strains there are. */
  private final int strains;

  /**
   * For one kind of element.
   *
   * @param across points along ξ
   * @param along points along η
   * @param stretches whether the middle plane moves in itself
   */
  PlateElement(Lobatto across, Lobatto along, boolean stretches) {
    this.across = across;
    this.along = along;
    this.fields = stretches ? 5 : 3;
    this.strains = stretches ? 8 : 5;
  }

  /** Number of nodes; those of one η follow each other. */
  int nodes() {
    return across.size() * along.size();
  }

  /** Where a node lies in a cell. */
  Point place(PanelCell cell, int node) {
    return cell.at(across.point(node % across.size()), along.point(node / across.size()));
  }

  /**
   * Nodes on a side, and the weight of each along it.
   *
   * @param side 0 for η = −1, then anticlockwise
   */
  Side side(int side) {
    Lobatto its = side % 2 == 0 ? across : along;
    int n = across.size();
    int m = along.size();
    int[] nodes = new int[its.size()];
    double[] weights = new double[its.size()];
    for (int i = 0; i < nodes.length; i++) {
      nodes[i] =
          switch (side) {
            case 0 -> i;
            case 1 -> i * n + n - 1;
            case 2 -> (m - 1) * n + i;
            default -> i * n;
          };
      weights[i] = its.weight(i);
    }
    return new Side(nodes, weights);
  }

  /** Nodes with the weight of each along the side, which add up to 2. */
  @SuppressWarnings("ArrayRecordComponent") // never compared
  record Side(int[] nodes, double[] weights) {}

  /** Values of the polynomials of all nodes at a place. */
  double[] values(double xi, double eta) {
    return products(across.values(xi), along.values(eta));
  }

  /** Their slopes along a way in the panel's axes, 1/m. */
  double[] slopes(PanelCell cell, double xi, double eta, double[] way) {
    double[] s = cell.slopes(xi, eta);
    double det = s[0] * s[3] - s[1] * s[2];
    double dXi = (way[0] * s[3] - way[1] * s[2]) / det;
    double dEta = (way[1] * s[0] - way[0] * s[1]) / det;
    double[] alongXi = products(across.slopes(xi), along.values(eta));
    double[] alongEta = products(across.values(xi), along.slopes(eta));
    double[] out = new double[nodes()];
    for (int i = 0; i < out.length; i++) {
      out[i] = dXi * alongXi[i] + dEta * alongEta[i];
    }
    return out;
  }

  private static double[] products(double[] row, double[] column) {
    double[] out = new double[row.length * column.length];
    for (int i = 0; i < out.length; i++) {
      out[i] = row[i % row.length] * column[i / row.length];
    }
    return out;
  }

  /**
   * Stiffness of a cell, (fields · nodes)², row-major.
   *
   * @param law of the board, 5 × 5 or with stretching 8 × 8
   */
  double[] stiffness(PanelCell cell, double[] law) {
    int n = across.size();
    int size = fields * nodes();
    double[] k = new double[size * size];
    double[][] slopes = slopes(cell);
    for (int b = 0; b < along.size(); b++) {
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
    int n = across.size();
    double[] out = new double[nodes()];
    double[][] slopes = slopes(cell);
    for (int b = 0; b < along.size(); b++) {
      for (int a = 0; a < n; a++) {
        double[] s = slopes[b * n + a];
        out[b * n + a] = (s[0] * s[3] - s[1] * s[2]) * across.weight(a) * along.weight(b);
      }
    }
    return out;
  }

  /** The slopes x_ξ, y_ξ, x_η, y_η at each node of the polynomials through the nodes' places. */
  private double[][] slopes(PanelCell cell) {
    int n = across.size();
    Point[] places = new Point[nodes()];
    Arrays.setAll(places, i -> place(cell, i));
    double[][] out = new double[nodes()][4];
    for (int b = 0; b < along.size(); b++) {
      for (int a = 0; a < n; a++) {
        double[] s = out[b * n + a];
        for (int i = 0; i < n; i++) {
          Point inRow = places[b * n + i];
          s[0] += across.slope(a, i) * inRow.x();
          s[1] += across.slope(a, i) * inRow.y();
        }
        for (int i = 0; i < along.size(); i++) {
          Point inColumn = places[i * n + a];
          s[2] += along.slope(b, i) * inColumn.x();
          s[3] += along.slope(b, i) * inColumn.y();
        }
      }
    }
    return out;
  }

  /** Adds one quadrature point's share of the energy. */
  private void add(double[] s, int a, int b, double[] law, double[] k) {
    int n = across.size();
    double det = s[0] * s[3] - s[1] * s[2];
    int involved = n + along.size() - 1;
    int[] places = new int[fields * involved];
    double[][] strain = new double[fields * involved][];
    int next = 0;
    for (int i = 0; i < involved; i++) {
      // nodes on the point's row, then those on its column but for itself
      boolean row = i < n;
      int other = row ? i : (i - n) + (i - n >= b ? 1 : 0);
      int local = row ? b * n + other : other * n + a;
      boolean here = row && other == a;
      double dXi = row ? across.slope(a, other) : 0;
      double dEta = here ? along.slope(b, b) : row ? 0 : along.slope(b, other);
      double dx = (dXi * s[3] - dEta * s[1]) / det;
      double dy = (dEta * s[0] - dXi * s[2]) / det;
      for (int field = 0; field < fields; field++) {
        places[next] = fields * local + field;
        strain[next++] = strains(field, here ? 1 : 0, dx, dy);
      }
    }
    accumulate(places, strain, law, across.weight(a) * along.weight(b) * det, k);
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
