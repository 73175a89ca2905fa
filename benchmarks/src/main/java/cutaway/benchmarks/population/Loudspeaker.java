package cutaway.benchmarks.population;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/**
 * An invented drive unit in a box.
 *
 * @param size how large it is
 * @param vented with a port, or sealed
 * @param coil electrical side
 * @param cone mechanical side
 * @param box air inside
 * @param panels two modes of a side wall
 */
record Loudspeaker(Size size, boolean vented, Coil coil, Cone cone, Box box, List<Panel> panels) {
  static final double DENSITY = 1.19;
  static final double SOUND_SPEED = 344;

  enum Size {
    SMALL,
    MIDDLE,
    BASS
  }

  /** Resistance, inductance and its slope over displacement, and the eddy branch, SI. */
  record Coil(double re, double le, double leSlope, double l2, double r2) {}

  /**
   * Motor, suspension, mass.
   *
   * @param b1 slope of the force factor, Bl(x) = bl (1 + b₁x + b₂x²)
   * @param k1 slope of the stiffness, likewise
   * @param reach displacement at which both have changed by what a maker would call the limit, m
   */
  record Cone(
      double bl,
      double b1,
      double b2,
      double stiffness,
      double k1,
      double k2,
      double mass,
      double resistance,
      double area,
      double reach) {
    double resonance() {
      return Math.sqrt(stiffness / mass) / (2 * Math.PI);
    }

    double radius() {
      return Math.sqrt(area / Math.PI);
    }
  }

  /** Compliance, leak; mass, friction, eddy loss (Pa s²/m⁶) and area of the port. */
  record Box(
      double compliance,
      double leak,
      double portMass,
      double portFriction,
      double portLoss,
      double portArea,
      double portLength) {
    double tuning() {
      return 1 / Math.sqrt(compliance * portMass) / (2 * Math.PI);
    }
  }

  /**
   * One mode of a wall: mass, stiffness, loss, area that the pressure pushes, area that radiates.
   */
  record Panel(double mass, double stiffness, double resistance, double driven, double radiating) {
    double frequency() {
      return Math.sqrt(stiffness / mass) / (2 * Math.PI);
    }
  }

  /** One at random, all proportions of the usual sort (common practice, no source). */
  static Loudspeaker draw(Random r) {
    Size size = Size.values()[r.nextInt(3)];
    boolean vented = r.nextDouble() < 0.6;
    double radius = 0.5 * in(r, pick(size, 0.082, 0.13, 0.2), pick(size, 0.105, 0.16, 0.26));
    double area = Math.PI * radius * radius;
    double resonance = in(r, pick(size, 52, 34, 22), pick(size, 78, 46, 32));
    double mass = in(r, pick(size, 1.0, 1.15, 1.5), pick(size, 1.5, 1.5, 2.6)) * area;
    double omega = 2 * Math.PI * resonance;
    double re = in(r, 3.2, 6.6);
    double bl = Math.sqrt(omega * mass * re / in(r, 0.32, 0.6));
    double reach = in(r, pick(size, 2.5e-3, 4e-3, 7e-3), pick(size, 4.5e-3, 7.5e-3, 12e-3));
    double bend = r.nextDouble() < 0.15 ? in(r, 1.5, 2.5) : in(r, 0.6, 1.2);
    double le = in(r, 0.2e-3, 0.9e-3) * pick(size, 0.6, 1, 1.8);
    Cone cone =
        new Cone(
            bl,
            bend * in(r, -0.08, 0.08) / reach,
            -bend * in(r, 0.1, 0.22) / reach / reach,
            omega * omega * mass,
            bend * in(r, -0.15, 0.15) / reach,
            bend * in(r, 0.2, 0.5) / reach / reach,
            mass,
            omega * mass / in(r, 3, 8),
            area,
            reach);
    Coil coil =
        new Coil(
            re, le, -bend * in(r, 0.05, 0.25) * le / reach, le * in(r, 0.6, 1.2), in(r, 5, 25));
    return new Loudspeaker(size, vented, coil, cone, box(r, vented, cone), panels(r, size, area));
  }

  private static Box box(Random r, boolean vented, Cone cone) {
    double suspension = cone.area() * cone.area() / cone.stiffness();
    double compliance = suspension * (vented ? in(r, 0.5, 1.4) : in(r, 0.35, 0.9));
    double tuning = cone.resonance() * in(r, 0.8, 1.15);
    double omega = 2 * Math.PI * tuning;
    double portMass = 1 / (omega * omega * compliance);
    double area = Math.PI / 4 * Math.pow(2 * cone.radius() * in(r, 0.28, 0.45), 2);
    return new Box(
        compliance,
        in(r, 8, 20) / (omega * compliance),
        portMass,
        omega * portMass / in(r, 25, 60),
        0.5 * DENSITY * in(r, 0.6, 1.4) / (area * area),
        area,
        portMass * area / DENSITY);
  }

  private static List<Panel> panels(Random r, Size size, double area) {
    double first = in(r, pick(size, 260, 180, 120), pick(size, 480, 380, 300));
    List<Panel> out = new ArrayList<>();
    for (int i = 0; i < 2; i++) {
      double frequency = i == 0 ? first : first * in(r, 1.2, 1.6);
      double mass = in(r, 0.3, 0.8) * pick(size, 0.5, 1, 2);
      double omega = 2 * Math.PI * frequency;
      double driven = area * in(r, 0.7, 1.3);
      out.add(
          new Panel(
              mass, omega * omega * mass, omega * mass * in(r, 0.015, 0.05), driven, driven * 1.5));
    }
    return out;
  }

  private static double pick(Size size, double small, double middle, double bass) {
    return size == Size.SMALL ? small : size == Size.MIDDLE ? middle : bass;
  }

  /** Evenly between two values. */
  static double in(Random r, double low, double high) {
    return low + (high - low) * r.nextDouble();
  }

  /** Evenly in the logarithm. */
  static double over(Random r, double low, double high) {
    return low * Math.pow(high / low, r.nextDouble());
  }

  /** Impedance-free peak displacement for each volt at a frequency, linear, m/V. */
  double displacement(double frequency) {
    double w = 2 * Math.PI * frequency;
    // box as an impedance p/U: compliance beside port and leak
    double[] admittance = {1 / box.leak(), w * box.compliance()};
    if (vented) {
      double den = box.portFriction() * box.portFriction() + sq(w * box.portMass());
      admittance[0] += box.portFriction() / den;
      admittance[1] -= w * box.portMass() / den;
    }
    double size = sq(admittance[0]) + sq(admittance[1]);
    double s2 = sq(cone.area());
    double re = cone.resistance() + sq(cone.bl()) / coil.re() + s2 * admittance[0] / size;
    double im = w * cone.mass() - cone.stiffness() / w - s2 * admittance[1] / size;
    return cone.bl() / coil.re() / Math.sqrt(re * re + im * im) / w;
  }

  private static double sq(double x) {
    return x * x;
  }

  /** Peak speed of the air in the port for each volt, linear, m/(s V); 0 where there is none. */
  private double portSpeed(double frequency) {
    if (!vented) {
      return 0;
    }
    double w = 2 * Math.PI * frequency;
    double reactance = w * box.portMass() - 1 / (w * box.compliance());
    // what the cone pushes is shared by box and port
    double share = 1 / (w * box.compliance()) / Math.sqrt(sq(reactance) + sq(box.portFriction()));
    return cone.area() * w * displacement(frequency) * share / box.portArea();
  }

  /**
   * Peak voltage at which a sweep from 15 Hz moves the cone no farther and the port's air no
   * faster.
   *
   * @param displacement m
   * @param speed m/s
   */
  double voltageFor(double displacement, double speed) {
    double farthest = 0;
    double fastest = 0;
    for (double f = 15; f < 400; f *= 1.03) {
      farthest = Math.max(farthest, displacement(f));
      fastest = Math.max(fastest, portSpeed(f));
    }
    return Math.min(displacement / farthest, vented ? speed / fastest : Double.POSITIVE_INFINITY);
  }
}
