package cutaway.acoustics.cabinet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.driveunit.Network;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.hipparchus.complex.Complex;
import org.junit.jupiter.api.Test;

/** Against lines of air in closed form (first principles): a long box driven over its whole end. */
class UnitInBoxTest {
  private static final double RHO = 1.2;
  private static final double C = 344;
  private static final double LENGTH = 0.6;
  private static final double SIDE = 0.1;
  private static final double AREA = SIDE * SIDE;
  private static final double PIPE_RADIUS = 0.01;
  private static final Patch CONE = end(0);
  private static final Patch MOUTH = end(LENGTH);

  /** The whole of an end, along y. */
  private static Patch end(double y) {
    return Patch.parallelogram(
        new Point(SIDE / 2, y, SIDE / 2), new Point(SIDE, 0, 0), new Point(0, 0, SIDE));
  }

  private static EightCorners room() {
    return EightCorners.rectangular(SIDE, LENGTH, SIDE);
  }

  private static StandingWaves bare(Complex loss) {
    // only waves along the box meet both ends, and their sum falls with the fourth power
    Cavity cavity = Cavity.of(room(), 60);
    double[][] means = {
      StandingWaves.means(cavity, CONE).orElseThrow(),
      StandingWaves.means(cavity, MOUTH).orElseThrow()
    };
    double k = RHO * C * C;
    return StandingWaves.bare(
        cavity, means, AREA * LENGTH, new Fluid(new Complex(RHO), loss.multiply(k)));
  }

  /** −j cot x less −j/x and +jx/3; −j/sin x less −j/x. */
  @Test
  void standsAsInALine() {
    StandingWaves waves = bare(Complex.ONE);
    for (double f : new double[] {50, 150, 250, 320, 500, 700}) {
      double x = 2 * Math.PI * f / C * LENGTH;
      double z0 = RHO * C / AREA;
      double own = z0 * (-1 / Math.tan(x) + 1 / x - x / 3);
      double mutual = z0 * (-1 / Math.sin(x) + 1 / x);
      Complex[][] extra = waves.extra(f);
      assertThat(extra[0][0].getImaginary()).isCloseTo(own, within(2e-3 * Math.abs(own) + 2));
      // kept whole, its sum falls with the square only
      assertThat(extra[1][0].getImaginary()).isCloseTo(mutual, within(1e-2 * Math.abs(mutual) + 2));
      assertThat(extra[1][1].getImaginary()).isCloseTo(own, within(2e-3 * Math.abs(own) + 2));
    }
  }

  /**
   * A unit at one end, a pipe out of the other: its load, output and impedance as those of two
   * lines in series, once the first order that the spring and the fit hold is put back.
   */
  @Test
  void sendsOutWhatTwoLinesDo() {
    Complex bulk = new Complex(1, 0.02);
    StandingWaves waves = bare(bulk);
    double pipeArea = 0.0012;
    double pipe = 0.15;
    for (double f : new double[] {40, 120, 287, 400, 573, 650}) {
      double omega = 2 * Math.PI * f;
      Complex air = bulk.multiply(RHO * C * C);
      Complex k = new Complex(RHO).divide(air).sqrt().multiply(omega);
      Complex z0 = air.multiply(RHO).sqrt().divide(AREA);
      Complex x = k.multiply(LENGTH);
      Complex spring = air.reciprocal().multiply(new Complex(0, omega * AREA * LENGTH));
      double mass = RHO * pipe / pipeArea;
      double first = RHO * LENGTH / AREA;
      // the port's mass in the fit holds the room's first order at the mouth too: taken out here
      Network n =
          new Network(
              f,
              new Complex(2.83),
              new Complex(6, omega * 4e-4),
              0,
              7,
              new Complex(1.2, omega * 0.02 - 2000 / omega),
              AREA,
              spring,
              Complex.ZERO,
              new Complex(0, omega * mass).reciprocal());
      UnitInBox found =
          UnitInBox.of(
              n, waves.extra(f), Optional.of(new UnitInBox.Tube(pipeArea, PIPE_RADIUS, RHO, C)));

      Complex j = Complex.I;
      Complex own =
          j.negate().multiply(z0).divide(x.tan()).subtract(new Complex(0, omega * first / 3));
      Complex mutual = j.negate().multiply(z0).divide(x.sin());
      Complex y = new Complex(omega / C, -omega / C * 0.005).multiply(pipe);
      // a small piston in a wall: (ka)²/2 (Kinsler and Frey, from memory)
      double mouth = Math.pow(omega / C * PIPE_RADIUS, 2) / 2;
      Complex turn = y.tan().multiply(j);
      Complex tube =
          turn.add(mouth).divide(turn.multiply(mouth).add(1)).multiply(RHO * C / pipeArea);
      Complex share = mutual.divide(own.add(tube));
      Complex load = own.subtract(mutual.multiply(share));
      Complex mechanical = n.mechanical().add(load.multiply(AREA * AREA));
      Complex impedance = n.blocked().add(mechanical.reciprocal().multiply(49));
      Complex cone = n.voltage().multiply(7).divide(impedance).divide(mechanical).multiply(AREA);
      Complex port =
          cone.negate().multiply(share).divide(y.cos().add(y.sin().multiply(j).multiply(mouth)));
      near(found.impedance(), impedance, 2e-3);
      near(found.cone(), cone, 3e-3);
      near(found.port(), port, 5e-3);
    }
  }

  /** Taken out one after the other, no wave is left. */
  @Test
  void isASumOfWaves() {
    Cavity cavity = Cavity.of(room(), 6);
    double[] means = StandingWaves.means(cavity, CONE).orElseThrow();
    Fluid air = Fluid.air(RHO, C, 0.02);
    StandingWaves waves = StandingWaves.bare(cavity, new double[][] {means}, AREA * LENGTH, air);
    Complex[][] left = waves.extra(400);
    double whole = left[0][0].norm();
    for (int wave = 0; wave < 6; wave++) {
      Complex omega = air.bulk().divide(air.density()).sqrt().multiply(cavity.wavenumber(wave));
      double[] its = {means[wave]};
      left = StandingWaves.without(left, 400, omega, its, AREA * LENGTH, air);
    }
    assertThat(left[0][0].norm()).isLessThan(1e-9 * whole);
  }

  private static void near(Complex found, Complex expected, double relative) {
    assertThat(found.subtract(expected).norm()).isLessThan(relative * expected.norm());
  }

  /**
   * Lining that is air changes nothing; of fibre at one end it rings as the line's equation says.
   */
  @Test
  void ringsAsALinedLineDoes() {
    Map<Face, Double> lining = new EnumMap<>(Map.of(Face.BACK, 0.05));
    CavityResponse room =
        CavityResponse.of(room(), lining, List.of(CONE, MOUTH), 2 * Math.PI * 800 / C);
    Fluid air = Fluid.air(RHO, C, 0.02);
    StandingWaves same = StandingWaves.lined(room, air, f -> air);
    StandingWaves bare = bare(new Complex(1, 0.02));
    for (double f : new double[] {150, 287, 400}) {
      Complex a = same.extra(f)[0][0];
      Complex b = bare.extra(f)[0][0];
      // the first order is taken at 40 Hz there, and at 0 Hz here
      assertThat(a.subtract(b).norm()).isLessThan(0.02 * b.norm() + 0.01 * RHO * C / AREA);
    }
    near(room.compliance(air, air), air.bulk().reciprocal().multiply(AREA * LENGTH), 1e-9);
    StandingWaves.Lining fibre = f -> LiningLaw.MIKI.fluid(8000, f, RHO, C);
    double[] ends = {C / (2 * LENGTH), C / LENGTH};
    for (Complex omega : room.resonances(ends, air, fibre)) {
      // k0/z0 tan(k0 L0) + k1/z1 tan(k1 d) = 0 in terms of admittances from the middle
      Fluid f = fibre.at(omega.getReal() / (2 * Math.PI));
      Complex k0 = air.density().divide(air.bulk()).sqrt().multiply(omega);
      Complex k1 = f.density().divide(f.bulk()).sqrt().multiply(omega);
      Complex y0 = k0.multiply(LENGTH - 0.05).tan().divide(air.impedance());
      Complex y1 = k1.multiply(0.05).tan().divide(f.impedance());
      assertThat(y0.add(y1).norm()).isLessThan(5e-3 * y1.norm());
      assertThat(omega.getImaginary()).isBetween(0.01 * omega.getReal(), 0.2 * omega.getReal());
    }
  }
}
