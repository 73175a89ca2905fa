package cutaway.benchmarks.population;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.hipparchus.complex.Complex;
import org.junit.jupiter.api.Test;

class MotionTest {
  /** Displacement for each volt of the linear network, in closed form. */
  private static Complex displacement(Loudspeaker u, double frequency) {
    Complex s = new Complex(0, 2 * Math.PI * frequency);
    Complex eddy = s.multiply(u.coil().l2()).reciprocal().add(1 / u.coil().r2()).reciprocal();
    Complex electrical = s.multiply(u.coil().le()).add(u.coil().re()).add(eddy);
    Complex air = s.multiply(u.box().compliance()).add(1 / u.box().leak());
    if (u.vented()) {
      air = air.add(s.multiply(u.box().portMass()).add(u.box().portFriction()).reciprocal());
    }
    for (Loudspeaker.Panel p : u.panels()) {
      Complex own =
          s.multiply(p.mass()).add(p.resistance()).add(s.reciprocal().multiply(p.stiffness()));
      air = air.add(own.reciprocal().multiply(p.driven() * p.driven()));
    }
    double area = u.cone().area();
    Complex mechanical =
        s.multiply(u.cone().mass())
            .add(u.cone().resistance())
            .add(s.reciprocal().multiply(u.cone().stiffness()))
            .add(air.reciprocal().multiply(area * area))
            .add(electrical.reciprocal().multiply(u.cone().bl() * u.cone().bl()));
    return electrical.reciprocal().multiply(u.cone().bl()).divide(mechanical).divide(s);
  }

  /** At levels so low that nothing bends, the steps follow the closed form. */
  @Test
  void isTheNetworkWhenQuiet() {
    for (int seed = 0; seed < 6; seed++) {
      Loudspeaker unit = Loudspeaker.draw(new Random(seed));
      for (double f : new double[] {25, 48, 90, 310}) {
        int n = (int) (Motion.RATE * (1 + Math.ceil(f) / f));
        double[] u = new double[n];
        for (int i = 0; i < n; i++) {
          u[i] = 1e-3 * Math.sin(2 * Math.PI * f * i * Motion.STEP);
        }
        Motion motion = Motion.of(unit, u, Amplifier.clean(), true, false);
        int period = (int) Math.rint(40 * Motion.RATE / f);
        double re = 0;
        double im = 0;
        int from = Math.max(0, n - Math.min(period, n / 2));
        int whole = (int) Math.rint(Math.floor((n - from) * f * Motion.STEP) / f * Motion.RATE);
        for (int i = n - whole; i < n; i++) {
          double angle = 2 * Math.PI * f * i * Motion.STEP;
          re += motion.displacement[i] * Math.sin(angle) * 2 / whole;
          im += motion.displacement[i] * Math.cos(angle) * 2 / whole;
        }
        double want = displacement(unit, f).norm() * 1e-3;
        assertThat(Math.hypot(re, im))
            .as("seed %s at %s Hz", seed, f)
            .isCloseTo(want, within(0.01 * want));
      }
    }
  }

  /** A box shut by a large leak moves as the drive unit alone; pressure is gone out of the box. */
  @Test
  void outOfTheBoxThereIsNoPressure() {
    Loudspeaker unit = Loudspeaker.draw(new Random(1));
    double[] u = new double[20000];
    java.util.Arrays.fill(u, 1);
    Motion motion = Motion.of(unit, u, Amplifier.clean(), false, false);
    assertThat(motion.pressure).containsOnly(0);
    assertThat(motion.displacement[19999]).isPositive();
  }
}
