package cutaway.acoustics.cabinet;

import cutaway.acoustics.modes.Lobatto;
import cutaway.acoustics.modes.SymmetricSum;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Spectral elements for a panel: at each node w and the rotations across and along the edge the
 * node lies on (β_x and β_y inside); where there are braces, whose middle lies off the panel's, its
 * displacements in its plane too. What an edge holds is left out.
 */
final class PlateMesh {
  /** In place of an unknown that an edge holds. */
  static final int HELD = -1;

  private final Panel panel;
  private final Lobatto lobatto;
  private final List<PanelCell> cells;
  private final PlaceIndex nodes;
  private final List<int[]> cellNodes = new ArrayList<>();
  private final double size;

  /** Unknowns of a node. */
  private final int fields;

  /** Unknown of each node's w, two rotations and two displacements, or {@link #HELD}. */
  private final List<int[]> unknowns = new ArrayList<>();

  /** Cosine and sine of the direction that a node's first rotation lies along. */
  private final List<double[]> frames = new ArrayList<>();

  private final SymmetricSum stiffness;
  private final double[] mass;
  private final BraceElements braces;
  private final SymmetricSum braceMass;

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
    this.fields = panel.braces().isEmpty() ? 3 : 5;
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
    this.braces = new BraceElements(this, panel, count);
    count += braces.unknowns();
    this.stiffness = new SymmetricSum(count);
    this.mass = new double[count];
    this.braceMass = new SymmetricSum(count);
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
    boolean slidesAcross = true;
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
      slidesAcross = slidesAcross && !held && !crossed;
      frame = across;
    }
    int number = next;
    // along an edge that is held at all a node neither turns nor slides
    boolean[] open = {moves, turnsAcross, turnsAlong, slidesAcross, turnsAlong};
    int[] its = new int[fields];
    for (int i = 0; i < fields; i++) {
      its[i] = open[i] ? number++ : HELD;
    }
    unknowns.add(its);
    frames.add(frame);
    return number;
  }

  /** Whether a point lies on a straight edge. */
  boolean onEdge(Point p, Point from, Point to) {
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
    double[] k = new double[dofs.length * dofs.length];
    double[] board = board(quad);
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
        double area = w * strain(quad, its, a, b, board, w, k);
        int node = its[b * n + a];
        for (int i = 0; i < fields; i++) {
          boolean turns = i == 1 || i == 2;
          double per = turns ? panel.board().rotaryInertia() : panel.board().surfaceMass();
          addMass(unknowns.get(node)[i], area * inertia * per);
        }
      }
    }
    springs(quad, k);
    braces.add(cell, dofs, stiffness, braceMass);
    stiffness.add(dofs, k, middle.x(), middle.y());
  }

  /** Stiffness in a cell: more where it lies under the foot of a brace. */
  private double[] board(PanelCell cell) {
    if (fields == 3) {
      return panel.board().stiffness();
    }
    double[] out = panel.board().stiffnessWithStretch();
    for (Brace brace : panel.braces()) {
      if (cell.corners().stream().allMatch(brace::covers)) {
        out = brace.stiffened(out, 8, panel.board());
      }
    }
    return out;
  }

  private void addMass(int unknown, double value) {
    if (unknown != HELD) {
      mass[unknown] += value;
    }
  }

  /** Unknowns of an element, node by node. */
  private int[] dofs(int[] its) {
    int[] out = new int[fields * its.length];
    for (int i = 0; i < its.length; i++) {
      System.arraycopy(unknowns.get(its[i]), 0, out, fields * i, fields);
    }
    return out;
  }

  /** Adds one quadrature point's share of the energy; returns the area over the square's. */
  private double strain(
      PanelCell quad, int[] its, int a, int b, double[] board, double w, double[] k) {
    int n = lobatto.size();
    double[] slopes = quad.slopes(lobatto.point(a), lobatto.point(b));
    double det = slopes[0] * slopes[3] - slopes[1] * slopes[2];
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
      double dx = (dXi * slopes[3] - dEta * slopes[1]) / det;
      double dy = (dEta * slopes[0] - dXi * slopes[2]) / det;
      double value = here ? 1 : 0;
      double[] frame = frames.get(its[local]);
      for (int field = 0; field < fields; field++) {
        places[next] = fields * local + field;
        strain[next++] = strains(field, frame, value, dx, dy);
      }
    }
    accumulate(places, strain, board, w * det, k);
    return det;
  }

  /** What one unknown bends, shears and, where there are braces, stretches. */
  private double[] strains(int field, double[] frame, double value, double dx, double dy) {
    double[] out = new double[fields == 3 ? 5 : 8];
    if (field == 0) {
      out[3] = dx;
      out[4] = dy;
      return out;
    }
    boolean across = field % 2 == 1;
    double x = across ? frame[0] : -frame[1];
    double y = across ? frame[1] : frame[0];
    int first = field < 3 ? 0 : 5;
    out[first] = x * dx;
    out[first + 1] = y * dy;
    out[first + 2] = x * dy + y * dx;
    if (field < 3) {
      out[3] = x * value;
      out[4] = y * value;
    }
    return out;
  }

  /**
   * Adds εᵀCε.
   *
   * @param places rows of k that the strains belong to
   * @param strain what each of them strains
   * @param law C, square
   */
  static void accumulate(int[] places, double[][] strain, double[] law, double weight, double[] k) {
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

  /** Adds the springs of supported edges to the rotations across them. */
  private void springs(PanelCell quad, double[] k) {
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
            int place = fields * local + 1;
            double length = lobatto.weight(i) * end.minus(begin).length() / 2;
            k[place * fields * n * n + place] += s.spring() * length;
          }
        }
      }
    }
  }

  /** Unknowns of a node. */
  int fields() {
    return fields;
  }

  Lobatto lobatto() {
    return lobatto;
  }

  PanelCell cell(int cell) {
    return cells.get(cell);
  }

  int cells() {
    return cells.size();
  }

  /** Cosine and sine of the direction of a node's first rotation; node by its place in a cell. */
  double[] frame(int cell, int local) {
    return frames.get(cellNodes.get(cell)[local]);
  }

  SymmetricSum stiffness() {
    return stiffness;
  }

  /** Diagonal of the mass without braces. */
  double[] mass() {
    return mass;
  }

  /** What braces add to it. */
  SymmetricSum braceMass() {
    return braceMass;
  }

  /** Share of a mode's kinetic energy in moving off the panel's plane, braces not counted. */
  double bending(double[] field) {
    double off = 0;
    double all = 0;
    for (int[] its : unknowns) {
      for (int i = 0; i < fields; i++) {
        double energy = its[i] == HELD ? 0 : mass[its[i]] * field[its[i]] * field[its[i]];
        all += energy;
        off += i == 0 ? energy : 0;
      }
    }
    return off / all;
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
