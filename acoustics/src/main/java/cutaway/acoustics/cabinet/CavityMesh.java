package cutaway.acoustics.cabinet;

import cutaway.acoustics.modes.Lobatto;
import cutaway.acoustics.modes.SymmetricSum;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.IntFunction;

/**
 * Spectral elements for the air in a box: ∫∇p·∇q and ∫pq on polynomials through Lobatto points.
 *
 * <p>Nodes of neighbours that lie at the same place are one. An element is bare or lined; its share
 * of either integral can be weighed accordingly.
 */
final class CavityMesh {
  private final Lobatto[] axes;
  private final List<Hexahedron> cells;
  private final List<Boolean> lined;
  private final List<int[]> dofs = new ArrayList<>();
  private final List<double[]> stiffness = new ArrayList<>();
  private final List<double[]> volumes = new ArrayList<>();
  private final PlaceIndex nodes;

  /**
   * Builds the elements.
   *
   * @param cells hexahedra that meet face to face
   * @param lined whether each is filled with lining
   * @param orders degree of the polynomials along each axis of the cells; 0 where nothing varies
   */
  CavityMesh(List<Hexahedron> cells, List<Boolean> lined, int... orders) {
    this.axes = Arrays.stream(orders).mapToObj(Lobatto::of).toArray(Lobatto[]::new);
    this.cells = List.copyOf(cells);
    this.lined = List.copyOf(lined);
    double size = 0;
    for (Hexahedron cell : cells) {
      for (Point corner : cell.corners()) {
        size = Math.max(size, corner.minus(cells.get(0).corners().get(0)).length());
      }
    }
    this.nodes = new PlaceIndex(1e-7 * size);
    for (Hexahedron cell : cells) {
      add(cell);
    }
  }

  private int local(int a, int b, int c) {
    return (c * axes[1].size() + b) * axes[0].size() + a;
  }

  private void add(Hexahedron cell) {
    int[] its = new int[axes[0].size() * axes[1].size() * axes[2].size()];
    double[] k = new double[its.length * its.length];
    double[] volume = new double[its.length];
    for (int c = 0; c < axes[2].size(); c++) {
      for (int b = 0; b < axes[1].size(); b++) {
        for (int a = 0; a < axes[0].size(); a++) {
          double xi = axes[0].point(a);
          double eta = axes[1].point(b);
          double zeta = axes[2].point(c);
          double w = axes[0].weight(a) * axes[1].weight(b) * axes[2].weight(c);
          List<Point> slopes = cell.slopes(xi, eta, zeta);
          its[local(a, b, c)] = nodes.at(cell.at(xi, eta, zeta));
          volume[local(a, b, c)] = w * stiffen(new int[] {a, b, c}, w, slopes, k);
        }
      }
    }
    dofs.add(its);
    stiffness.add(k);
    volumes.add(volume);
  }

  /** Adds one quadrature point's share of ∫∇p·∇q; returns the Jacobian there. */
  private double stiffen(int[] at, double w, List<Point> s, double[] k) {
    double det = s.get(0).dot(s.get(1).cross(s.get(2)));
    // gradients of ξ, η, ζ
    Point[] gradient = {
      s.get(1).cross(s.get(2)).times(1 / det),
      s.get(2).cross(s.get(0)).times(1 / det),
      s.get(0).cross(s.get(1)).times(1 / det)
    };
    int[][] line = new int[3][];
    double[][] slope = new double[3][];
    for (int d = 0; d < 3; d++) {
      int n = axes[d].size();
      line[d] = new int[n];
      slope[d] = new double[n];
      int[] on = at.clone();
      for (int i = 0; i < n; i++) {
        on[d] = i;
        line[d][i] = local(on[0], on[1], on[2]);
        slope[d][i] = axes[d].slope(at[d], i);
      }
    }
    int size = axes[0].size() * axes[1].size() * axes[2].size();
    for (int d = 0; d < 3; d++) {
      for (int e = 0; e < 3; e++) {
        double g = w * det * gradient[d].dot(gradient[e]);
        for (int i = 0; g != 0 && i < line[d].length; i++) {
          double gi = g * slope[d][i];
          int row = line[d][i] * size;
          for (int j = 0; j < line[e].length; j++) {
            k[row + line[e][j]] += gi * slope[e][j];
          }
        }
      }
    }
    return det;
  }

  /** Number of unknowns. */
  int size() {
    return nodes.size();
  }

  /** Where a node lies. */
  Point node(int i) {
    return nodes.place(i);
  }

  /** ∫∇p·∇q with bare and lined elements weighed. */
  SymmetricSum stiffness(double bare, double withLining) {
    SymmetricSum sum = new SymmetricSum(size());
    for (int e = 0; e < cells.size(); e++) {
      double factor = lined.get(e) ? withLining : bare;
      if (factor != 0) {
        Point at = cells.get(e).centre();
        sum.add(dofs.get(e), scaled(stiffness.get(e), factor), at.x(), at.y(), at.z());
      }
    }
    return sum;
  }

  private static double[] scaled(double[] a, double factor) {
    if (factor == 1) {
      return a;
    }
    double[] out = new double[a.length];
    for (int i = 0; i < a.length; i++) {
      out[i] = factor * a[i];
    }
    return out;
  }

  /** Diagonal of ∫pq with bare and lined elements weighed, m³. */
  double[] mass(double bare, double withLining) {
    double[] out = new double[size()];
    for (int e = 0; e < cells.size(); e++) {
      double factor = lined.get(e) ? withLining : bare;
      int[] its = dofs.get(e);
      double[] volume = volumes.get(e);
      for (int i = 0; i < its.length; i++) {
        out[its[i]] += factor * volume[i];
      }
    }
    return out;
  }

  /** Volume, m³. */
  double volume() {
    double sum = 0;
    for (double v : mass(1, 1)) {
      sum += v;
    }
    return sum;
  }

  /** Whether any element is lined. */
  boolean hasLining() {
    return lined.contains(true);
  }

  /**
   * A point seen by the element that holds it.
   *
   * @param dofs the element's unknowns
   * @param weights its shape functions there
   */
  @SuppressWarnings("ArrayRecordComponent") // made and used on the spot, never compared
  record Place(int[] dofs, double[] weights) {
    /** Value of a field at the point. */
    double value(double[] field) {
      double sum = 0;
      for (int i = 0; i < dofs.length; i++) {
        sum += weights[i] * field[dofs[i]];
      }
      return sum;
    }

    /**
     * Values of many fields at the point.
     *
     * @param fields node × field
     */
    double[] values(double[][] fields) {
      double[] out = new double[fields[0].length];
      for (int i = 0; i < dofs.length; i++) {
        double weight = weights[i];
        double[] row = fields[dofs[i]];
        for (int f = 0; f < out.length; f++) {
          out[f] += weight * row[f];
        }
      }
      return out;
    }

    /** Adds weight × the shape functions to a vector. */
    void addTo(double[] out, double weight) {
      for (int i = 0; i < dofs.length; i++) {
        out[dofs[i]] += weight * weights[i];
      }
    }
  }

  /** The element that holds a point, absent outside the room. */
  Optional<Place> find(Point p) {
    return held(p).map(h -> place(h, axis -> axes[axis].values(h.coordinate(axis))));
  }

  /**
   * A point with the slopes of the shape functions there.
   *
   * @param value the shape functions
   * @param slopes their slopes along x, y and z, 1/m
   */
  record Slopes(Place value, List<Place> slopes) {}

  /** The same with slopes. */
  Optional<Slopes> around(Point p) {
    return held(p).map(this::slopes);
  }

  /**
   * Where a point lies.
   *
   * @param element number of the element
   * @param at coordinates in it
   */
  private record Held(int element, Point at) {
    double coordinate(int axis) {
      return switch (axis) {
        case 0 -> at.x();
        case 1 -> at.y();
        default -> at.z();
      };
    }
  }

  private Optional<Held> held(Point p) {
    for (int e = 0; e < cells.size(); e++) {
      Optional<Point> at = cells.get(e).find(p);
      if (at.isPresent()) {
        return Optional.of(new Held(e, at.get()));
      }
    }
    return Optional.empty();
  }

  private Slopes slopes(Held h) {
    List<Point> s = cells.get(h.element()).slopes(h.at().x(), h.at().y(), h.at().z());
    double det = s.get(0).dot(s.get(1).cross(s.get(2)));
    // gradients of ξ, η, ζ
    Point[] gradients = {
      s.get(1).cross(s.get(2)).times(1 / det),
      s.get(2).cross(s.get(0)).times(1 / det),
      s.get(0).cross(s.get(1)).times(1 / det)
    };
    double[][] out = new double[3][dofs.get(h.element()).length];
    for (int along = 0; along < 3; along++) {
      int which = along;
      double[] own =
          place(
                  h,
                  axis ->
                      axis == which
                          ? axes[axis].slopes(h.coordinate(axis))
                          : axes[axis].values(h.coordinate(axis)))
              .weights();
      for (int i = 0; i < own.length; i++) {
        out[0][i] += own[i] * gradients[along].x();
        out[1][i] += own[i] * gradients[along].y();
        out[2][i] += own[i] * gradients[along].z();
      }
    }
    int[] its = dofs.get(h.element());
    return new Slopes(
        place(h, axis -> axes[axis].values(h.coordinate(axis))),
        Arrays.stream(out).map(weights -> new Place(its, weights)).toList());
  }

  /** Products of one function along each axis. */
  private Place place(Held h, IntFunction<double[]> along) {
    double[] a = along.apply(0);
    double[] b = along.apply(1);
    double[] c = along.apply(2);
    double[] weights = new double[dofs.get(h.element()).length];
    for (int k = 0; k < c.length; k++) {
      for (int j = 0; j < b.length; j++) {
        for (int i = 0; i < a.length; i++) {
          weights[local(i, j, k)] = a[i] * b[j] * c[k];
        }
      }
    }
    return new Place(dofs.get(h.element()), weights);
  }
}
