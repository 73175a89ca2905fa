package cutaway.acoustics.cabinet;

import cutaway.acoustics.box.PistonRadiation;
import cutaway.acoustics.driveunit.Network;
import java.util.Optional;
import org.hipparchus.complex.Complex;

/**
 * What a drive unit in a box sends out and how it loads its source, with the waves inside the box
 * and inside the port. Derived in {@code docs/methods/cavity.md}.
 *
 * @param cone volume velocity of the cone outwards, m³/s rms
 * @param port that of the port's outer mouth
 * @param leak that of the leaks
 * @param impedance what the source sees, Ω
 */
public record UnitInBox(Complex cone, Complex port, Complex leak, Complex impedance) {
  /** Loss of the air in a port, η (common practice, no source); the fit's loss comes on top. */
  private static final double TUBE_LOSS = 0.01;

  /**
   * A straight port whose outer mouth radiates like a piston in a wall.
   *
   * @param area its cross-section, m²; of all where they are several
   * @param radius of one, m
   * @param density of air, kg/m³
   * @param soundSpeed of air, m/s
   */
  public record Tube(double area, double radius, double density, double soundSpeed) {
    /** Length that makes the port's mass, m. */
    double length(Network n) {
      double omega = 2 * Math.PI * n.frequency();
      return n.port().reciprocal().getImaginary() / omega * area / density;
    }

    private Complex turn(Network n) {
      double k = 2 * Math.PI * n.frequency() / soundSpeed;
      return new Complex(k, -k * TUBE_LOSS / 2).multiply(length(n));
    }

    /** Resistance of the outer mouth over the line's impedance. */
    private double mouth(Network n) {
      return PistonRadiation.resistance(4 * Math.PI * n.frequency() / soundSpeed * radius);
    }

    Complex impedance(Network n) {
      Complex turn = turn(n).tan().multiply(Complex.I);
      double mouth = mouth(n);
      Complex line = turn.add(mouth).divide(turn.multiply(mouth).add(1));
      return line.multiply(density * soundSpeed / area).add(n.port().reciprocal().getReal());
    }

    /** What comes out over what goes in. */
    Complex passed(Network n) {
      Complex turn = turn(n);
      return turn.cos().add(turn.sin().multiply(new Complex(0, mouth(n)))).reciprocal();
    }

    /** Lowest frequency at which the port sounds as a pipe open at both ends, Hz. */
    public double pipe(Network n) {
      return soundSpeed / (2 * length(n));
    }
  }

  /**
   * With waves.
   *
   * @param extra what they add to the pressures at cone and port's mouth, Pa·s/m³; one by one where
   *     the mouth's place is not known
   * @param tube the port, where its size is known
   */
  public static UnitInBox of(Network n, Complex[][] extra, Optional<Tube> tube) {
    Complex spring = n.spring().add(n.leak()).reciprocal();
    Complex acrossCone = spring.add(extra[0][0]);
    Complex share = Complex.ZERO;
    Complex passed = Complex.ONE;
    boolean port = n.port().norm() > 0;
    Complex mutual = spring;
    if (port) {
      boolean placed = extra.length > 1;
      mutual = placed ? spring.add(extra[0][1]) : spring;
      Complex atMouth = placed ? spring.add(extra[1][1]) : spring;
      Complex own = tube.map(t -> t.impedance(n)).orElseGet(() -> n.port().reciprocal());
      share = mutual.divide(own.add(atMouth));
      passed = tube.map(t -> t.passed(n)).orElse(Complex.ONE);
    }
    Complex load = acrossCone.subtract(mutual.multiply(share));
    Complex mechanical = n.mechanical().add(load.multiply(n.area() * n.area()));
    Complex electrical = n.blocked().add(mechanical.reciprocal().multiply(n.motor() * n.motor()));
    Complex velocity = n.voltage().multiply(n.motor()).divide(electrical).divide(mechanical);
    Complex cone = velocity.multiply(n.area());
    Complex out = cone.negate().multiply(share);
    // what goes into the spring and the leak with one pressure
    Complex pressure = spring.multiply(cone.negate().subtract(out));
    return new UnitInBox(
        cone, out.multiply(passed), pressure.multiply(n.leak()), electrical.subtract(n.source()));
  }

  /** All that comes out, as if from one place, m³/s. */
  public Complex output() {
    return cone.add(port).add(leak);
  }
}
