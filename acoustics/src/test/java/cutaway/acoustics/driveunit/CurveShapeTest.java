package cutaway.acoustics.driveunit;

import static org.assertj.core.api.Assertions.assertThat;

import cutaway.acoustics.box.Loading;
import cutaway.acoustics.driveunit.CurveShape.Oddity;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class CurveShapeTest {
  private static final Mounting FREE = new Mounting.FreeAir();
  private static final Mounting VENTED =
      new Mounting.Boxed(new Loading.Vented(true, true, false), Optional.empty());

  @Test
  void findsNothingOddInAUsualCurve() {
    Bench b = new Bench(31);
    assertThat(CurveShape.of(b.freeAir().curve()).oddities(FREE)).isEmpty();
    Take box = b.inBox(new Loading.Vented(true, true, false), 0.018, 38, 40, 9);
    assertThat(CurveShape.of(box.curve()).oddities(VENTED)).isEmpty();
    assertThat(CurveShape.of(box.curve()).peakFrequencies()).hasSize(2);
  }

  @Test
  void seesATwoPeakedCurveThatShouldHaveOne() {
    Bench b = new Bench(32);
    Take box = b.inBox(new Loading.Vented(true, true, false), 0.018, 38, 40, 9);
    assertThat(CurveShape.of(box.curve()).oddities(FREE)).contains(Oddity.EXTRA_LOW_PEAK);
    assertThat(CurveShape.of(b.freeAir().curve()).oddities(VENTED))
        .contains(Oddity.MISSING_LOW_PEAK);
  }

  @Test
  void seesACapacitorInSeries() {
    Bench b = new Bench(33);
    ImpedanceCurve c = b.freeAir().curve();
    double[] f = c.frequencies();
    double[] r = new double[f.length];
    double[] x = new double[f.length];
    for (int i = 0; i < f.length; i++) {
      r[i] = c.re(i);
      x[i] = c.im(i) - 1 / (2 * Math.PI * f[i] * 47e-6);
    }
    assertThat(CurveShape.of(ImpedanceCurve.of(f, r, x)).oddities(FREE))
        .containsExactly(Oddity.SERIES_CAPACITOR);
  }

  @Test
  void seesThatNoPeakStandsOut() {
    double[] f = new double[80];
    double[] r = new double[80];
    double[] x = new double[80];
    for (int i = 0; i < 80; i++) {
      f[i] = 10 * Math.pow(2, i / 8.0);
      r[i] = 6;
      x[i] = 2 * Math.PI * f[i] * 2e-4;
    }
    assertThat(CurveShape.of(ImpedanceCurve.of(f, r, x)).oddities(FREE))
        .containsExactly(Oddity.NO_PEAK);
  }

  @Test
  void seesAPeakBelowTheFirstFrequency() {
    Bench b = new Bench(34);
    ImpedanceCurve upper = b.freeAir().curve().between(1.15 * b.fs, 20000);
    assertThat(CurveShape.of(upper).oddities(FREE)).containsExactly(Oddity.PEAK_BELOW_RANGE);
    Take box = b.inBox(new Loading.Vented(true, true, false), 0.018, 38, 40, 9);
    ImpedanceCurve cut = box.curve().between(30, 20000);
    assertThat(CurveShape.of(cut).oddities(VENTED)).contains(Oddity.PEAK_BELOW_RANGE);
  }

  @Test
  void seesSeveralWaysRepeatedRowsAndTooLittle() {
    Bench b = new Bench(35);
    ImpedanceCurve c = b.freeAir().curve();
    double[] f = c.frequencies();
    double[] r = new double[f.length];
    double[] x = new double[f.length];
    for (int i = 0; i < f.length; i++) {
      double v = Math.log(f[i] / 2500) / 0.5;
      r[i] = c.re(i) + 12 * Math.exp(-v * v);
      x[i] = c.im(i) * (f[i] < 1000 ? 1 : 0.2);
      if (i < 6) {
        r[i] = 7;
        x[i] = 1;
      }
    }
    assertThat(CurveShape.of(ImpedanceCurve.of(f, r, x)).oddities(FREE))
        .contains(Oddity.SEVERAL_WAYS, Oddity.REPEATED_ROWS);
    assertThat(CurveShape.of(c.between(100, 300)).oddities(FREE))
        .containsExactly(Oddity.TOO_LITTLE);
    assertThat(CurveShape.of(c).tallest()).hasValueSatisfying(t -> assertThat(t).isGreaterThan(3));
  }

  @Test
  void seesAPhaseUpsideDownAndANegativeResistance() {
    Bench b = new Bench(36);
    ImpedanceCurve c = b.freeAir().curve();
    double[] f = c.frequencies();
    double[] r = new double[f.length];
    double[] x = new double[f.length];
    for (int i = 0; i < f.length; i++) {
      r[i] = c.re(i);
      x[i] = -c.im(i);
    }
    assertThat(CurveShape.of(ImpedanceCurve.of(f, r, x)).oddities(FREE))
        .containsExactly(Oddity.PHASE_REVERSED);
    for (int i = 0; i < f.length; i++) {
      r[i] = -r[i];
    }
    assertThat(CurveShape.of(ImpedanceCurve.of(f, r, x)).oddities(FREE))
        .containsExactly(Oddity.NOT_PASSIVE);
    assertThat(c.sameAs(c.between(0, 1e9))).isTrue();
    assertThat(CurveShape.of(c).secondOverFirst()).isZero();
    assertThat(CurveShape.of(c).least()).isBetween(5.0, 7.0);
  }
}
