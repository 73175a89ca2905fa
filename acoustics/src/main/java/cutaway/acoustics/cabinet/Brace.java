package cutaway.acoustics.cabinet;

import java.util.List;

/**
 * A batten glued flat on a panel's face along a straight line, as a beam off the panel's middle.
 *
 * @param from where its middle line begins, in the panel's plane
 * @param to where it ends
 * @param width along the panel, m
 * @param depth away from the panel, m
 * @param young Young's modulus along it, Pa
 * @param shear shear modulus, Pa
 * @param density kg/m³
 */
public record Brace(
    Point from, Point to, double width, double depth, double young, double shear, double density) {
  private static final double SHEAR = 5.0 / 6;

  private double area() {
    return width * depth;
  }

  /** Second moment for bending away from the panel, m⁴. */
  private double away() {
    return width * depth * depth * depth / 12;
  }

  /** Second moment for bending along the panel, m⁴. */
  private double sideways() {
    return depth * width * width * width / 12;
  }

  /**
   * What a T's stem and its root add to the torsion constant of the flange: K₂ + αD⁴, K₂ = cd³(1/3
   * − 0.105 d/c (1 − d⁴/192c⁴)), α = 0.15 t/t₁, D the circle in the root (W. C. Young, Roark's
   * Formulas for Stress and Strain, T section without fillet, from memory), m⁴.
   */
  private double torsion(Board board) {
    double d = width;
    double c = Math.max(depth, width);
    double b = board.thickness();
    double slim = d / c;
    double stem = c * d * d * d * (1.0 / 3 - 0.105 * slim * (1 - Math.pow(slim, 4) / 192));
    double alpha = 0.15 * Math.min(b, d) / Math.max(b, d);
    double root = (b * b + d * d / 4) / b;
    return stem + alpha * Math.pow(root, 4);
  }

  /**
   * Against stretch, curvature away from the panel, shear that way, twist, shear along the panel
   * and curvature along it; N and N·m².
   */
  double[] stiffnesses(Board board) {
    double sheared = SHEAR * shear * area();
    return new double[] {
      young * area(), young * away(), sheared, shear * torsion(board), sheared, young * sideways()
    };
  }

  /**
   * Of a metre: against motion along, across and away, turning with the panel along and across the
   * brace, and turning in the panel's plane; kg/m and kg·m.
   */
  double[] inertias() {
    double heavy = density * area();
    return new double[] {
      heavy, heavy, heavy, density * away(), density * (away() + sideways()), density * sideways()
    };
  }

  /** From the panel's middle plane to its own middle, m. */
  double offset(Board board) {
    return (board.thickness() + depth) / 2;
  }

  /** Unit vector across it in the panel's plane. */
  private Point across() {
    Point along = to.minus(from).unit();
    return new Point(-along.y(), along.x(), 0);
  }

  /** The four corners of its foot. */
  List<Point> foot() {
    Point half = across().times(width / 2);
    return List.of(from.plus(half), from.minus(half), to.plus(half), to.minus(half));
  }

  /** Whether a point lies on its foot. */
  boolean covers(Point p) {
    Point along = to.minus(from);
    double at = p.minus(from).dot(along) / along.dot(along);
    double off = Math.abs(p.minus(from).dot(across()));
    return off < width / 2 * (1 + 1e-6) && at > -1e-6 && at < 1 + 1e-6;
  }

  /**
   * Stiffens a panel's bending across the brace, where its foot is glued on: there the panel is as
   * thick as it and a cube of the brace together.
   *
   * @param plate stiffness, row-major; its first three rows and columns are bending
   * @param size its rows
   */
  double[] stiffened(double[] plate, int size, Board board) {
    Point n = across();
    double[] pure = {n.x() * n.x(), n.y() * n.y(), 2 * n.x() * n.y()};
    double[] taken = {n.x() * n.x(), n.y() * n.y(), n.x() * n.y()};
    double here = 0;
    for (int r = 0; r < 3; r++) {
      for (int c = 0; c < 3; c++) {
        here += pure[r] * plate[size * r + c] * pure[c];
      }
    }
    double thicker = 1 + Math.min(width, depth) / board.thickness();
    double more = here * (thicker * thicker * thicker - 1);
    double[] out = plate.clone();
    for (int r = 0; r < 3; r++) {
      for (int c = 0; c < 3; c++) {
        out[size * r + c] += more * taken[r] * taken[c];
      }
    }
    return out;
  }
}
