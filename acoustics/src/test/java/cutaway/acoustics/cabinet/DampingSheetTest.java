package cutaway.acoustics.cabinet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.hipparchus.complex.Complex;
import org.junit.jupiter.api.Test;

/** Against beams of layers in closed form (first principles) and a sum over the thickness. */
class DampingSheetTest {
  private static final Board BOARD = Board.isotropic(0.016, 700, 3e9, 0.3);

  /** Oberst's formula for the loss of a free layer on a board without loss (from memory). */
  @Test
  void aFreeLayerLosesAsOberstSays() {
    DampingSheet sheet = new DampingSheet(2e9, 0.7e9, 0.3, 1700, 0, 0, 0);
    double h = 0.004 / 0.016;
    double e = 2.0 / 3;
    double expected =
        0.3
            * e
            * h
            * (3 + 6 * h + 4 * h * h + 2 * e * h * h * h + e * e * Math.pow(h, 4))
            / ((1 + e * h)
                * (1 + 4 * e * h + 6 * e * h * h + 4 * e * h * h * h + e * e * Math.pow(h, 4)));
    // his holds where the layer's loss is small, so that the axis does not turn complex
    DampingSheet mild = new DampingSheet(2e9, 0.7e9, 0.003, 1700, 0, 0, 0);
    assertThat(mild.loss(BOARD, 0, 0.004, 200)).isCloseTo(expected / 100, within(1e-6));
    assertThat(sheet.loss(BOARD, 0, 0.004, 200)).isCloseTo(expected, within(0.01 * expected));
  }

  /** A core too stiff to shear: the layers bend as one; one that gives way: each by itself. */
  @Test
  void aFoilBendsWithTheBoardOrByItself() {
    double core = 0.0015;
    double[] tops = {0.008, 0.008 + core, 0.008 + core + 0.001};
    double[] moduli = {3e9, 1e6, 70e9};
    double whole = rigid(tops, moduli);
    double plain = 3e9 * Math.pow(0.016, 3) / 12;
    DampingSheet stiff = new DampingSheet(1e6, 1e15, 0, 1500, 0.001, 70e9, 2700);
    assertThat(stiff.stiffening(BOARD, 0, core, 200).getReal())
        .isCloseTo(whole / plain, within(1e-3 * whole / plain));
    DampingSheet soft = new DampingSheet(1, 1e-3, 0, 1500, 0.001, 70e9, 2700);
    double apart = (plain + 70e9 * 1e-9 / 12) / plain;
    assertThat(soft.stiffening(BOARD, 0, core, 200).getReal()).isCloseTo(apart, within(1e-3));
  }

  /** ∫E(z − z₀)² dz of bonded layers from −8 mm up, z₀ where ∫E(z − z₀) dz is nought. */
  private static double rigid(double[] tops, double[] moduli) {
    double stretch = 0;
    double first = 0;
    double second = 0;
    double from = -0.008;
    for (int i = 0; i < tops.length; i++) {
      double to = tops[i];
      stretch += moduli[i] * (to - from);
      first += moduli[i] * (to * to - from * from) / 2;
      second += moduli[i] * (to * to * to - from * from * from) / 3;
      from = to;
    }
    return second - first * first / stretch;
  }

  /** Between them it shears, and loses most where stiffness and give are alike. */
  @Test
  void losesMostBetween() {
    double most = 0;
    double stiff = 0;
    double soft = 0;
    for (int i = -20; i <= 20; i++) {
      double shear = 1e6 * Math.pow(10, i / 5.0);
      DampingSheet sheet = new DampingSheet(3 * shear, shear, 0.7, 1500, 0.0005, 70e9, 2700);
      Complex k = sheet.stiffening(BOARD, 0, 0.0015, 200);
      double loss = k.getImaginary() / k.getReal();
      assertThat(loss).isPositive();
      most = Math.max(most, loss);
      soft = i == -20 ? loss : soft;
      stiff = i == 20 ? loss : stiff;
    }
    assertThat(most).isGreaterThan(5 * soft);
    assertThat(most).isBetween(0.02, 0.3);
    for (DampingSheet.Kind kind : DampingSheet.Kind.values()) {
      double loss = kind.sheet().loss(BOARD, 0.02, 0.002, 250);
      assertThat(loss).as(kind.name()).isBetween(0.02, 0.1);
    }
  }
}
