package cutaway.acoustics.cabinet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.Published;
import org.hipparchus.complex.Complex;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Worked numbers of 05_porous.csv (Delany and Bazley 1970, Miki 1990, from secondary copies). */
class LiningLawTest {
  @ParameterizedTest
  @CsvSource({
    "DELANY_BAZLEY,DB.e1,10000,500",
    "MIKI,Miki.e1,10000,500",
    "DELANY_BAZLEY,DB.e2,20000,200",
    "MIKI,Miki.e2,20000,200",
    "DELANY_BAZLEY,DB.e3,5000,1000",
    "MIKI,Miki.e3,5000,1000",
    "DELANY_BAZLEY,DB.e4,30000,1000",
    "MIKI,Miki.e4,30000,1000"
  })
  void agreesWithTheWorkedNumbers(LiningLaw law, String id, double sigma, double f) {
    Fluid fluid = law.fluid(sigma, f, 1.2041, 343.2);
    check(id + ".ReZc", fluid.impedance().getReal());
    check(id + ".ImZc", fluid.impedance().getImaginary());
    check(id + ".Rek", fluid.wavenumber(f).getReal());
    check(id + ".Imk", fluid.wavenumber(f).getImaginary());
    // a layer of 50 mm on a rigid wall: Z = −j Z_c cot kd
    Complex kd = fluid.wavenumber(f).multiply(0.05);
    Complex z = fluid.impedance().divide(kd.tan()).multiply(new Complex(0, -1));
    Complex back = z.subtract(1.2041 * 343.2).divide(z.add(1.2041 * 343.2));
    check(id + ".alpha50mm", 1 - back.norm() * back.norm());
    assertThat(law.holds(sigma, f)).isEqualTo(f / sigma > 0.01);
  }

  private static void check(String id, double found) {
    double value = Published.value("05_porous.csv", id);
    assertThat(found).as(id).isCloseTo(value, within(1e-8 * Math.max(1, Math.abs(value))));
  }
}
