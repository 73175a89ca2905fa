package cutaway.benchmarks.demo;

/** The loudspeaker of the demo: a drive unit of 20 cm in a vented box. Every figure is invented. */
final class InventedLoudspeaker {
  static final double DENSITY = 1.1932;
  static final double SOUND_SPEED = 344.06;
  static final double DIAMETER = 0.1662;
  static final double RESISTANCE = 3.42;
  private static final double L1 = 3.1e-4;
  private static final double L2 = 9.4e-4;
  private static final double R2 = 3.9;
  private static final double BL = 8.35;
  static final double MASS = 0.0421;
  private static final double DAMPING = 2.05;
  private static final double COMPLIANCE = 5.6e-4;
  static final double BOX = 0.02483;
  private static final double PORT_AREA = Math.PI * 0.034 * 0.034;
  private static final double PORT_LENGTH = 0.190 + (0.8216 + 0.6133) * 0.034;
  private static final double PORT_Q = 38;
  private static final double LEAK_Q = 11;

  private InventedLoudspeaker() {}

  private static double area() {
    return Math.PI * DIAMETER * DIAMETER / 4;
  }

  /**
   * The drive unit behind a series resistor, in free air or over a closed volume.
   *
   * <p>State: coil current, current in L₂, velocity, displacement. Input: the voltage over resistor
   * and drive unit.
   *
   * @param added mass on the diaphragm, kg
   * @param volume closed behind it, m³, infinite in free air
   */
  static LinearSystem closed(double added, double volume, double resistor, double h) {
    double m = MASS + added;
    double k = 1 / COMPLIANCE + DENSITY * SOUND_SPEED * SOUND_SPEED * area() * area() / volume;
    double[][] a = new double[4][4];
    electrical(a, resistor);
    a[2][0] = BL / m;
    a[2][2] = -DAMPING / m;
    a[2][3] = -k / m;
    a[3][2] = 1;
    return new LinearSystem(a, new double[] {1 / L1, 0, 0, 0}, h);
  }

  /**
   * The drive unit in its vented box, behind a series resistor.
   *
   * <p>State as above, then box pressure and volume velocity of the port.
   */
  static LinearSystem vented(double resistor, double h) {
    double c = BOX / (DENSITY * SOUND_SPEED * SOUND_SPEED);
    double portMass = DENSITY * PORT_LENGTH / PORT_AREA;
    double wb = 1 / Math.sqrt(portMass * c);
    double portResistance = wb * portMass / PORT_Q;
    double leak = LEAK_Q / (wb * c);
    double[][] a = new double[6][6];
    electrical(a, resistor);
    a[2][0] = BL / MASS;
    a[2][2] = -DAMPING / MASS;
    a[2][3] = -1 / (COMPLIANCE * MASS);
    a[2][4] = area() / MASS;
    a[3][2] = 1;
    a[4][2] = -area() / c;
    a[4][4] = -1 / (leak * c);
    a[4][5] = -1 / c;
    a[5][4] = 1 / portMass;
    a[5][5] = -portResistance / portMass;
    return new LinearSystem(a, new double[] {1 / L1, 0, 0, 0, 0, 0}, h);
  }

  private static void electrical(double[][] a, double resistor) {
    a[0][0] = -(RESISTANCE + resistor + R2) / L1;
    a[0][1] = R2 / L1;
    a[0][2] = -BL / L1;
    a[1][0] = R2 / L2;
    a[1][1] = -R2 / L2;
  }
}
