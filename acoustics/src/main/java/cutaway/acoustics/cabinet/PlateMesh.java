package cutaway.acoustics.cabinet;

import cutaway.acoustics.modes.Lobatto;
import cutaway.acoustics.modes.SymmetricSum;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * Spectral elements for a panel: three unknowns at each node, w and the rotations across and along
 * the edge the node lies on (β_x and β_y inside), those that an edge holds left out.
 */
final class PlateMesh {
  private static final int HELD = -1;

  private final Panel panel;
  private final Lobatto lobatto;
  private final List<PanelCell> cells;
  private final PlaceIndex nodes;
  private final List<int[]> cellNodes = new ArrayList<>();
  private final double size;

  /** Unknown of each node's w and two rotations, or {@link #HELD}. */
  private final List<int[]> unknowns = new ArrayList<>();

  /** Cosine and sine of the direction that a node's first rotation lies along. */
  private final List<double[]> frames = new ArrayList<>();

  private final SymmetricSum stiffness;
  private final double[] mass;

  /**
   * Builds the elements.
   *
   * @param panel the panel
   * @param cells quadrilaterals that fill its outline and meet edge to edge
   * @param order degree of the polynomials along each side
   */
  PlateMesh(Panel panel, List<PanelCell> cells, int order) {
    this.panel = panel;
    this.cells = List.copyOf(cells);
    this.lobatto = Lobatto.of(order);
    double reach = 0;
    for (Point corner : panel.outline().corners()) {
      reach = Math.max(reach, corner.minus(panel.outline().corners().get(0)).length());
    }
    this.size = reach;
    this.nodes = new PlaceIndex(1e-7 * reach);
    for (PanelCell cell : cells) {
      cellNodes.add(number(cell));
    }
    int count = 0;
    for (int node = 0; node < nodes.size(); node++) {
      count = hold(nodes.place(node), count);
    }
    this.stiffness = new SymmetricSum(count);
    this.mass = new double[count];
    for (int cell = 0; cell < cells.size(); cell++) {
      add(cell);
    }
  }

  private int[] number(PanelCell cell) {
    int n = lobatto.size();
    int[] its = new int[n * n];
    for (int b = 0; b < n; b++) {
      for (int a = 0; a < n; a++) {
        its[b * n + a] = nodes.at(cell.at(lobatto.point(a), lobatto.point(b)));
      }
    }
    return its;
  }

  /** Numbers a node's unknowns; returns the next number. */
  private int hold(Point p, int next) {
    boolean moves = true;
    boolean turnsAcross = true;
    boolean turnsAlong = true;
    double[] frame = {1, 0};
    List<Point> corners = panel.outline().corners();
    for (int edge = 0; edge < corners.size(); edge++) {
      Point from = corners.get(edge);
      Point to = corners.get((edge + 1) % corners.size());
      Support support = panel.supports().get(edge);
      if (support instanceof Support.Free || !onEdge(p, from, to)) {
        continue;
      }
      Point along = to.minus(from).unit();
      // outwards of an anticlockwise outline
      double[] across = {along.y(), -along.x()};
      boolean held = support instanceof Support.Clamped;
      boolean crossed = !moves && Math.abs(across[0] * frame[1] - across[1] * frame[0]) > 1e-6;
      moves = false;
      turnsAlong = false;
      turnsAcross = turnsAcross && !held && !crossed;
      frame = across;
    }
    int number = next;
    int[] its = new int[3];
    its[0] = moves ? number++ : HELD;
    its[1] = turnsAcross ? number++ : HELD;
    its[2] = turnsAlong ? number++ : HELD;
    unknowns.add(its);
    frames.add(frame);
    return number;
  }

  private boolean onEdge(Point p, Point from, Point to) {
    Point along = to.minus(from).unit();
    double at = p.minus(from).dot(along);
    double off = Math.abs(p.minus(from).cross(along).z());
    return off < 1e-7 * size && at > -1e-7 * size && at < to.minus(from).length() + 1e-7 * size;
  }

  private void add(int cell) {
    PanelCell quad = cells.get(cell);
    int[] its = cellNodes.get(cell);
    int n = lobatto.size();
    int[] dofs = dofs(its);
    int[] compact = Arrays.stream(dofs).filter(d -> d != HELD).toArray();
    int[] at = new int[dofs.length];
    int free = 0;
    for (int i = 0; i < dofs.length; i++) {
      at[i] = dofs[i] == HELD ? HELD : free++;
    }
    double[] k = new double[free * free];
    double[] board = panel.board().stiffness();
    Point middle = quad.at(0, 0);
    double added =
        panel.masses().stream()
            .filter(m -> m.holds(middle))
            .mapToDouble(AddedMass::surfaceMass)
            .sum();
    double inertia = 1 + added / panel.board().surfaceMass();
    for (int b = 0; b < n; b++) {
      for (int a = 0; a < n; a++) {
        double w = lobatto.weight(a) * lobatto.weight(b);
        double area = w * strain(quad, its, at, a, b, board, w, k);
        int node = its[b * n + a];
        addMass(unknowns.get(node)[0], area * inertia * panel.board().surfaceMass());
        addMass(unknowns.get(node)[1], area * inertia * panel.board().rotaryInertia());
        addMass(unknowns.get(node)[2], area * inertia * panel.board().rotaryInertia());
      }
    }
    springs(quad, at, free, k);
    if (free > 0) {
      stiffness.add(compact, k, middle.x(), middle.y());
    }
  }

  private void addMass(int unknown, double value) {
    if (unknown != HELD) {
      mass[unknown] += value;
    }
  }

  /** Unknowns of an element, three for each node. */
  private int[] dofs(int[] its) {
    int[] out = new int[3 * its.length];
    for (int i = 0; i < its.length; i++) {
      System.arraycopy(unknowns.get(its[i]), 0, out, 3 * i, 3);
    }
    return out;
  }

  /** Adds one quadrature point's share of the energy; returns the area over the square's. */
  private double strain(
      PanelCell quad, int[] its, int[] at, int a, int b, double[] board, double w, double[] k) {
    int n = lobatto.size();
    double[] slopes = quad.slopes(lobatto.point(a), lobatto.point(b));
    double det = slopes[0] * slopes[3] - slopes[1] * slopes[2];
    int involved = 2 * n - 1;
    int[] unknown = new int[3 * involved];
    double[][] strain = new double[3 * involved][5];
    int next = 0;
    for (int i = 0; i < involved; i++) {
      // nodes on the point's row, then those on its column but for itself
      boolean row = i < n;
      int along = row ? i : (i - n) + (i - n >= b ? 1 : 0);
      int local = row ? b * n + along : along * n + a;
      boolean here = row && along == a;
      double dXi = row ? lobatto.slope(a, along) : 0;
      double dEta = here ? lobatto.slope(b, b) : row ? 0 : lobatto.slope(b, along);
      double dx = (dXi * slopes[3] - dEta * slopes[1]) / det;
      double dy = (dEta * slopes[0] - dXi * slopes[2]) / det;
      double value = here ? 1 : 0;
      double[] frame = frames.get(its[local]);
      set(at[3 * local], new double[] {0, 0, 0, dx, dy}, unknown, strain, next++);
      double c = frame[0];
      double s = frame[1];
      set(
          at[3 * local + 1],
          new double[] {c * dx, s * dy, c * dy + s * dx, c * value, s * value},
          unknown,
          strain,
          next++);
      set(
          at[3 * local + 2],
          new double[] {-s * dx, c * dy, -s * dy + c * dx, -s * value, c * value},
          unknown,
          strain,
          next++);
    }
    accumulate(unknown, strain, board, w * det, k);
    return det;
  }

  private static void set(
      int place, double[] components, int[] unknown, double[][] strain, int at) {
    unknown[at] = place;
    strain[at] = components;
  }

  private static void accumulate(
      int[] unknown, double[][] strain, double[] board, double weight, double[] k) {
    int free = (int) Math.round(Math.sqrt(k.length));
    double[] stress = new double[5];
    for (int i = 0; i < unknown.length; i++) {
      if (unknown[i] == HELD) {
        continue;
      }
      for (int r = 0; r < 5; r++) {
        double sum = 0;
        for (int c = 0; c < 5; c++) {
          sum += board[5 * r + c] * strain[i][c];
        }
        stress[r] = weight * sum;
      }
      for (int j = 0; j < unknown.length; j++) {
        if (unknown[j] != HELD) {
          double sum = 0;
          for (int r = 0; r < 5; r++) {
            sum += stress[r] * strain[j][r];
          }
          k[unknown[i] * free + unknown[j]] += sum;
        }
      }
    }
  }

  /** Adds the springs of supported edges to the rotations across them. */
  private void springs(PanelCell quad, int[] at, int free, double[] k) {
    List<Point> corners = panel.outline().corners();
    int n = lobatto.size();
    for (int edge = 0; edge < corners.size(); edge++) {
      Point from = corners.get(edge);
      Point to = corners.get((edge + 1) % corners.size());
      for (int side = 0; side < 4; side++) {
        Point begin = quad.corners().get(side);
        Point end = quad.corners().get((side + 1) % 4);
        if (panel.supports().get(edge) instanceof Support.Supported s
            && s.spring() > 0
            && onEdge(begin, from, to)
            && onEdge(end, from, to)) {
          for (int i = 0; i < n; i++) {
            int local =
                switch (side) {
                  case 0 -> i;
                  case 1 -> i * n + n - 1;
                  case 2 -> (n - 1) * n + i;
                  default -> i * n;
                };
            int place = at[3 * local + 1];
            double length = lobatto.weight(i) * end.minus(begin).length() / 2;
            if (place != HELD) {
              k[place * free + place] += s.spring() * length;
            }
          }
        }
      }
    }
  }

  SymmetricSum stiffness() {
    return stiffness;
  }

  double[] mass() {
    return mass;
  }

  /** Deflection of a field at a point, absent outside the panel. */
  Optional<Double> deflection(double[] field, Point p) {
    int n = lobatto.size();
    for (int cell = 0; cell < cells.size(); cell++) {
      Optional<double[]> place = cells.get(cell).find(p);
      if (place.isPresent()) {
        double[] a = lobatto.values(place.get()[0]);
        double[] b = lobatto.values(place.get()[1]);
        double sum = 0;
        for (int j = 0; j < n; j++) {
          for (int i = 0; i < n; i++) {
            int unknown = unknowns.get(cellNodes.get(cell)[j * n + i])[0];
            sum += unknown == HELD ? 0 : a[i] * b[j] * field[unknown];
          }
        }
        return Optional.of(sum);
      }
    }
    return Optional.empty();
  }
}
