package cutaway.acoustics.cabinet;

import cutaway.acoustics.modes.Lobatto;
import cutaway.acoustics.modes.SymmetricSum;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/** The braces of a panel, piece by piece in the elements they run over. */
final class BraceElements {
  /** Quadrature along a brace, so many steps of three Gauss points. */
  private static final int STEPS = 40;

  private static final double[] GAUSS = {-Math.sqrt(0.6), 0, Math.sqrt(0.6)};
  private static final double[] GAUSS_WEIGHTS = {5.0 / 9, 8.0 / 9, 5.0 / 9};

  /** Pieces of braces, by cell. */
  private final List<List<Place>> points = new ArrayList<>();

  /**
   * A place on a brace in its cell.
   *
   * @param brace which
   * @param share of the way along it
   * @param xi in the cell
   * @param eta in the cell
   * @param length it stands for, m
   */
  private record Place(int brace, double share, double xi, double eta, double length) {}

  /** Degree of the polynomial that a brace's turn in the panel's plane is along it. */
  private static final int TURN_ORDER = 10;

  private final Lobatto turnAlong = Lobatto.of(TURN_ORDER);

  /** Unknowns of each brace's turn in the panel's plane. */
  private final List<int[]> turns = new ArrayList<>();

  private final PlateMesh mesh;
  private final Panel panel;
  private final int unknowns;

  /**
   * Lays the braces over the elements.
   *
   * @param first number of the first unknown of their own
   */
  BraceElements(PlateMesh mesh, Panel panel, int first) {
    this.mesh = mesh;
    this.panel = panel;
    for (int cell = 0; cell < mesh.cells(); cell++) {
      points.add(new ArrayList<>());
    }
    int next = first;
    for (int which = 0; which < panel.braces().size(); which++) {
      Brace brace = panel.braces().get(which);
      int[] its = new int[TURN_ORDER + 1];
      for (int i = 0; i <= TURN_ORDER; i++) {
        Point end = i == 0 ? brace.from() : brace.to();
        its[i] = (i == 0 || i == TURN_ORDER) && clamped(end) ? PlateMesh.HELD : next++;
      }
      turns.add(its);
      lay(which);
    }
    this.unknowns = next - first;
  }

  /** How many unknowns they have of their own. */
  int unknowns() {
    return unknowns;
  }

  private boolean clamped(Point p) {
    List<Point> corners = panel.outline().corners();
    for (int edge = 0; edge < corners.size(); edge++) {
      if (panel.supports().get(edge) instanceof Support.Clamped
          && mesh.onEdge(p, corners.get(edge), corners.get((edge + 1) % corners.size()))) {
        return true;
      }
    }
    return false;
  }

  /** Finds the cells that a brace runs over. */
  private void lay(int which) {
    Brace brace = panel.braces().get(which);
    double step = brace.to().minus(brace.from()).length() / STEPS;
    for (int i = 0; i < STEPS; i++) {
      for (int g = 0; g < 3; g++) {
        double share = (i + 0.5 + GAUSS[g] / 2) / STEPS;
        Point p = brace.from().towards(brace.to(), share);
        int cell = 0;
        Optional<double[]> place = Optional.empty();
        while (cell < mesh.cells() && place.isEmpty()) {
          place = mesh.cell(cell).find(p);
          cell++;
        }
        double[] at =
            place.orElseThrow(
                () -> new ImpossibleShapeException("the brace reaches over the panel's edge"));
        points
            .get(cell - 1)
            .add(new Place(which, share, at[0], at[1], step * GAUSS_WEIGHTS[g] / 2));
      }
    }
  }

  /**
   * Adds what of every brace runs over a cell.
   *
   * @param cellDofs the cell's unknowns
   */
  void add(int cell, int[] cellDofs, SymmetricSum stiffness, SymmetricSum mass) {
    for (int which = 0; which < turns.size(); which++) {
      int brace = which;
      List<Place> over = points.get(cell).stream().filter(p -> p.brace() == brace).toList();
      if (!over.isEmpty()) {
        int[] dofs = Arrays.copyOf(cellDofs, cellDofs.length + TURN_ORDER + 1);
        System.arraycopy(turns.get(brace), 0, dofs, cellDofs.length, TURN_ORDER + 1);
        double[] k = new double[dofs.length * dofs.length];
        double[] m = new double[dofs.length * dofs.length];
        for (Place place : over) {
          add(cell, place, k, m);
        }
        Point middle = mesh.cell(cell).at(0, 0);
        stiffness.add(dofs, k, middle.x(), middle.y());
        mass.add(dofs, m, middle.x(), middle.y());
      }
    }
  }

  /**
   * Adds a piece of a brace: a beam whose middle lies off the panel's. It stretches, bends away
   * from the panel, shears and twists with the panel's own displacements; in the panel's plane it
   * bends by a turn of its own.
   */
  private void add(int cell, Place point, double[] k, double[] m) {
    PanelCell quad = mesh.cell(cell);
    Lobatto lobatto = mesh.lobatto();
    int fields = mesh.fields();
    Brace brace = panel.braces().get(point.brace());
    double offset = brace.offset(panel.board());
    Point along = brace.to().minus(brace.from());
    double tx = along.unit().x();
    double ty = along.unit().y();
    double[] slopes = quad.slopes(point.xi(), point.eta());
    double det = slopes[0] * slopes[3] - slopes[1] * slopes[2];
    double[] a = lobatto.values(point.xi());
    double[] b = lobatto.values(point.eta());
    double[] da = lobatto.slopes(point.xi());
    double[] db = lobatto.slopes(point.eta());
    int n = lobatto.size();
    int size = fields * n * n + TURN_ORDER + 1;
    int[] all = IntStream.range(0, size).toArray();
    double[][] strain = new double[size][];
    double[][] motion = new double[size][];
    for (int j = 0; j < n; j++) {
      for (int i = 0; i < n; i++) {
        double value = a[i] * b[j];
        double dXi = da[i] * b[j];
        double dEta = a[i] * db[j];
        double dx = (dXi * slopes[3] - dEta * slopes[1]) / det;
        double dy = (dEta * slopes[0] - dXi * slopes[2]) / det;
        double ds = tx * dx + ty * dy;
        int first = fields * (j * n + i);
        double[] frame = mesh.frame(cell, j * n + i);
        // stretch, curvature, shear, twist, sideways shear and curvature;
        // motion along, across and away, the two turns and the turn in the plane
        strain[first] = new double[] {0, 0, ds, 0, 0, 0};
        motion[first] = new double[] {0, 0, value, 0, 0, 0};
        for (int axis = 0; axis < 2; axis++) {
          double x = axis == 0 ? frame[0] : -frame[1];
          double y = axis == 0 ? frame[1] : frame[0];
          double s = tx * x + ty * y;
          double c = -ty * x + tx * y;
          strain[first + 1 + axis] =
              new double[] {offset * s * ds, s * ds, s * value, c * ds, offset * c * ds, 0};
          motion[first + 1 + axis] =
              new double[] {offset * s * value, offset * c * value, 0, s * value, c * value, 0};
          strain[first + 3 + axis] = new double[] {s * ds, 0, 0, 0, c * ds, 0};
          motion[first + 3 + axis] = new double[] {s * value, c * value, 0, 0, 0, 0};
        }
      }
    }
    double place = 2 * point.share() - 1;
    double[] turn = turnAlong.values(place);
    double[] bend = turnAlong.slopes(place);
    for (int i = 0; i <= TURN_ORDER; i++) {
      int last = fields * n * n + i;
      strain[last] = new double[] {0, 0, 0, 0, -turn[i], bend[i] * 2 / along.length()};
      motion[last] = new double[] {0, 0, 0, 0, 0, turn[i]};
    }
    PlateMesh.accumulate(
        all, strain, diagonal(brace.stiffnesses(panel.board())), point.length(), k);
    PlateMesh.accumulate(all, motion, diagonal(brace.inertias()), point.length(), m);
  }

  private static double[] diagonal(double... values) {
    double[] out = new double[values.length * values.length];
    for (int i = 0; i < values.length; i++) {
      out[i * values.length + i] = values[i];
    }
    return out;
  }
}
