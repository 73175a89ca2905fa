package cutaway.acoustics.cabinet;

/**
 * A mass without stiffness, spread over a rectangle of a panel.
 *
 * @param left lowest x, m
 * @param right highest x, m
 * @param front lowest y, m
 * @param back highest y, m
 * @param mass kg
 */
public record AddedMass(double left, double right, double front, double back, double mass) {
  /** Mass of a square metre, kg/m². */
  double surfaceMass() {
    return mass / ((right - left) * (back - front));
  }

  boolean holds(Point p) {
    double grain = 1e-9;
    return p.x() > left - grain
        && p.x() < right + grain
        && p.y() > front - grain
        && p.y() < back + grain;
  }
}
