package cutaway.acoustics.cabinet;

import java.util.List;
import java.util.Optional;

/** A four-sided piece of a panel, mapped from the square [−1, 1]². */
interface PanelCell {
  /** Where a place in the square lies. */
  Point at(double xi, double eta);

  /** The slopes x_ξ, y_ξ, x_η, y_η. */
  double[] slopes(double xi, double eta);

  /** Its corners, anticlockwise from (−1, −1). */
  List<Point> corners();

  /** Place in the square of a point, absent where it lies outside. */
  default Optional<double[]> find(Point p) {
    double xi = 0;
    double eta = 0;
    for (int pass = 0; pass < 30; pass++) {
      Point off = p.minus(at(xi, eta));
      double[] s = slopes(xi, eta);
      double det = s[0] * s[3] - s[1] * s[2];
      double dXi = (off.x() * s[3] - off.y() * s[2]) / det;
      double dEta = (off.y() * s[0] - off.x() * s[1]) / det;
      xi = Math.max(-3, Math.min(3, xi + dXi));
      eta = Math.max(-3, Math.min(3, eta + dEta));
      if (Math.abs(dXi) + Math.abs(dEta) < 1e-14) {
        break;
      }
    }
    double size = corners().get(0).minus(corners().get(2)).length();
    boolean inside =
        Math.max(Math.abs(xi), Math.abs(eta)) < 1 + 1e-7
            && p.minus(at(xi, eta)).length() < 1e-6 * size;
    return inside ? Optional.of(new double[] {xi, eta}) : Optional.empty();
  }
}
