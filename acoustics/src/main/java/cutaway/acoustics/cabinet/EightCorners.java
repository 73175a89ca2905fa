package cutaway.acoustics.cabinet;

import java.util.ArrayList;
import java.util.List;

/**
 * A room with six walls between eight corners: rectangular, wedge-shaped, tapered or crooked.
 *
 * @param whole the corners, in the order of a {@link Hexahedron}
 */
public record EightCorners(Hexahedron whole) implements BoxShape {
  /** Refuses corners out of order and walls that cross. */
  public EightCorners {
    for (int i = 0; i < 8; i++) {
      double xi = i % 4 == 0 || i % 4 == 3 ? -1 : 1;
      double eta = i % 4 < 2 ? -1 : 1;
      double zeta = i < 4 ? -1 : 1;
      double size = 1;
      for (double length : whole.lengths()) {
        size *= length / 2;
      }
      if (!(whole.jacobian(xi, eta, zeta) > 1e-6 * size)) {
        throw new ImpossibleShapeException(
            "the walls cross or lie flat at corner "
                + (i + 1)
                + ": corners 1 to 4 go round the bottom from front left to front right, 5 to 8 stand"
                + " above them");
      }
    }
  }

  /** A rectangular room from the origin on, m. */
  public static EightCorners rectangular(double width, double depth, double height) {
    List<Point> corners = new ArrayList<>();
    for (double z : new double[] {0, height}) {
      corners.add(new Point(0, 0, z));
      corners.add(new Point(width, 0, z));
      corners.add(new Point(width, depth, z));
      corners.add(new Point(0, depth, z));
    }
    return new EightCorners(new Hexahedron(corners));
  }

  @Override
  public double volume() {
    // the Jacobian of a trilinear map is of second degree along each axis: two Gauss points suffice
    double g = 1 / Math.sqrt(3);
    double sum = 0;
    for (double xi : new double[] {-g, g}) {
      for (double eta : new double[] {-g, g}) {
        sum += whole.jacobian(xi, eta, -g) + whole.jacobian(xi, eta, g);
      }
    }
    return sum;
  }
}
