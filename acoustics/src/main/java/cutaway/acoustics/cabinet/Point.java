package cutaway.acoustics.cabinet;

/**
 * A point in the box, or a vector; m. x to the right, y from the front to the back, z upwards.
 *
 * @param x to the right
 * @param y to the back
 * @param z upwards
 */
public record Point(double x, double y, double z) {
  /** Sum. */
  public Point plus(Point o) {
    return new Point(x + o.x, y + o.y, z + o.z);
  }

  /** Difference. */
  public Point minus(Point o) {
    return new Point(x - o.x, y - o.y, z - o.z);
  }

  /** Multiple. */
  public Point times(double f) {
    return new Point(f * x, f * y, f * z);
  }

  /** Scalar product. */
  public double dot(Point o) {
    return x * o.x + y * o.y + z * o.z;
  }

  /** Vector product. */
  public Point cross(Point o) {
    return new Point(y * o.z - z * o.y, z * o.x - x * o.z, x * o.y - y * o.x);
  }

  /** Length. */
  public double length() {
    return Math.sqrt(dot(this));
  }

  /** The same direction at length one. */
  public Point unit() {
    return times(1 / length());
  }

  /** The place a share t of the way to another point. */
  public Point towards(Point o, double t) {
    return new Point(x + t * (o.x - x), y + t * (o.y - y), z + t * (o.z - z));
  }
}
