package cutaway.acoustics.driveunit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.box.Loading;
import cutaway.acoustics.estimate.Estimate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** Known answers: invented drive units whose truth the fit must find. */
class JointFitTest {

  @Test
  void findsEveryParameterOfAUsualBench() {
    Bench b = new Bench(11);
    JointFit fit = JointFit.of(b.usual(), b.readings(0.004));
    assertThat(fit.best().coil()).isInstanceOf(CoilLoss.OneLoop.class);
    assertThat(fit.best().suspension()).isInstanceOf(Suspension.Plain.class);
    near(fit.best().re(), b.re);
    near(fit.best().fs(), b.fs);
    near(fit.best().qms(), b.qms);
    near(fit.best().qes(), b.qes);
    near(fit.best().mms().orElseThrow(), b.mms);
    near(fit.best().cms().orElseThrow(), b.cms());
    near(fit.best().bl().orElseThrow(), b.bl());
    near(fit.best().sd().orElseThrow(), b.area());
    near(fit.best().vas().orElseThrow(), b.vas());
    near(fit.best().rms().orElseThrow(), 2 * Math.PI * b.fs * b.mms / b.qms);
    near(fit.best().motorDamping().orElseThrow(), b.bl() * b.bl() / b.re);
    double eta = 1.2 / (2 * Math.PI * 343) * Math.pow(b.bl() * b.area() / b.mms, 2) / b.re;
    near(fit.best().efficiency().orElseThrow(), eta);
    double p = 1.2 * b.bl() * b.area() * 2.83 / (2 * Math.PI * b.re * b.mms);
    near(fit.best().pressure(2.83).orElseThrow(), p);
  }

  private static void near(Estimate found, double truth) {
    assertThat(found.disagreement(Estimate.exact(truth)))
        .as("%s against %s", found, truth)
        .isLessThan(3.5);
    assertThat(found.relativeSd()).isLessThan(0.03);
  }

  @Test
  void saysNothingOfMassWhereNoReadingTellsIt() {
    Bench b = new Bench(12);
    JointFit fit = JointFit.of(List.of(b.freeAir()), Readings.of(Bench.AIR));
    near(fit.best().fs(), b.fs);
    assertThat(fit.best().mms()).isEmpty();
    assertThat(fit.best().bl()).isEmpty();
    assertThat(fit.best().vas()).isEmpty();
    assertThat(fit.best().pressure(1)).isEmpty();
    assertThat(fit.best().efficiency()).isEmpty();
    assertThat(fit.predict(0, Drive.of(1), new double[] {100}, List.of(SmallSignal::level)))
        .isEmpty();
    assertThat(fit.scaleCheck().opinions()).isEmpty();
  }

  @Test
  void namesTheWrongReadingAmongThree() {
    Bench b = new Bench(13);
    Take honest = b.withMass(0.8, 0.004);
    Take wrong =
        new Take(
            "mislabelled",
            b.withMass(0.6, 0.004).curve(),
            new Mounting.AddedMass(Estimate.relative(0.6 * b.mms * 1.3, 0.004)));
    Readings readings = b.readings(0.004).withMovingMass(Estimate.relative(b.mms, 0.01));
    JointFit fit = JointFit.of(List.of(b.freeAir(), honest, wrong), readings);
    assertThat(fit.scaleCheck().guilty()).contains("added mass of mislabelled");
    near(fit.best().mms().orElseThrow(), b.mms);
  }

  @Test
  void namesThePairWhereOnlyTwoDisagree() {
    Bench b = new Bench(14);
    Take wrong =
        new Take(
            "mislabelled",
            b.withMass(0.6, 0.004).curve(),
            new Mounting.AddedMass(Estimate.relative(0.6 * b.mms * 1.3, 0.004)));
    Take box = b.inTestBox(new Loading.Closed(false, false), b.vas() / 2, 0.01);
    JointFit fit = JointFit.of(List.of(b.freeAir(), wrong, box), b.readings(0.004));
    ScaleCheck.Conflict conflict = fit.scaleCheck().conflict().orElseThrow();
    assertThat(conflict.first()).isEqualTo("added mass of mislabelled");
    assertThat(conflict.second()).isEqualTo("test volume of test-box");
    // labels of mass 0.4 %, volume 1 % and diameter squared 1.6 %, three sigmas
    assertThat(conflict.ratio()).isCloseTo(1.3, within(3 * 0.02 * 1.3));
    assertThat(fit.scaleCheck().guilty()).isEmpty();
    // wide enough to cover both
    assertThat(fit.best().mms().orElseThrow().disagreement(Estimate.exact(b.mms))).isLessThan(2);
  }

  @Test
  void findsAVentedBoxFromItsTwoPeaks() {
    Bench b = new Bench(15);
    Take box = b.inBox(new Loading.Vented(true, true, true), 0.018, 38, 40, 9, 25);
    JointFit fit =
        JointFit.of(List.of(b.freeAir(), b.withMass(0.7, 0.004), box), b.readings(0.004));
    near(fit.best().box(2).value("f_b").orElseThrow(), 38);
    near(fit.best().box(2).volume().orElseThrow(), 0.018);
    near(fit.best().box(2).alpha().orElseThrow(), b.vas() / 0.018);
    near(fit.best().box(2).value("Q_L").orElseThrow(), 9);
    near(fit.best().box(2).fc().orElseThrow(), b.fs * Math.sqrt(1 + b.vas() / 0.018));
    assertThat(fit.best().box(2).airMassRatio()).isEmpty();
    assertThat(fit.best().box(0).load()).isEmpty();
    assertThat(fit.best().box(2).load().orElseThrow().words()).isEqualTo("vented");
  }

  @Test
  void takesThatDisagreeOnTheResonanceWidenEveryResult() {
    Bench b = new Bench(26);
    Take first = b.freeAir();
    double truth = b.fs;
    double mms = b.mms;
    b.fs *= 0.95;
    b.qms *= 0.95;
    b.qes *= 0.95;
    Take later = new Take("later", b.freeAir().curve(), new Mounting.FreeAir());
    Take weighted = b.withMass(0.7, 0.004);
    JointFit fit = JointFit.of(List.of(first, later, weighted), b.readings(0.004));
    assertThat(fit.drift().orElseThrow().takes()).containsExactly("free-air", "later");
    Estimate fs = fit.averaged(Fitted::fs);
    assertThat(fs.disagreement(Estimate.exact(truth))).isLessThan(2.2);
    assertThat(fs.disagreement(Estimate.exact(0.95 * truth))).isLessThan(2.2);
    assertThat(fs.relativeSd()).isBetween(0.015, 0.05);
    Estimate mass = fit.averagedIfShown(Fitted::mms).orElseThrow();
    assertThat(mass.disagreement(Estimate.exact(mms))).isLessThan(2);
    // mass moves f_s and Q_es in another proportion than stiffness: it stays well known
    assertThat(mass.relativeSd()).isBetween(0.003, 0.05);
    JointFit quiet =
        JointFit.of(
            List.of(later, new Take("x", b.freeAir().curve(), new Mounting.FreeAir())),
            b.readings(0.004));
    assertThat(quiet.drift()).isEmpty();
    assertThat(quiet.averaged(Fitted::fs).relativeSd()).isLessThan(1e-3);
  }

  @Test
  void takesOfOneBoxShareItsAir() {
    Bench b = new Bench(25);
    Loading vented = new Loading.Vented(true, true, false);
    Take open = b.inBox(vented, 0.018, 38, 40, 9);
    Take blocked = b.inBox(new Loading.Closed(true, false), 0.018, 9);
    List<Take> alone = List.of(b.freeAir(), b.withMass(0.7, 0.004), open);
    Take plugged = new Take("plugged", blocked.curve(), blocked.mounting());
    List<Take> both = new ArrayList<>(alone);
    both.add(plugged);
    JointFit one = JointFit.of(alone, b.readings(0.004));
    JointFit two = JointFit.of(both, b.readings(0.004));
    assertThat(two.best().box(3).ownVolume()).isFalse();
    assertThat(two.best().box(3).alpha()).isEqualTo(two.best().box(2).alpha());
    near(two.best().box(2).alpha().orElseThrow(), b.vas() / 0.018);
    near(two.best().box(2).value("f_b").orElseThrow(), 38);
    assertThat(two.best().box(2).alpha().orElseThrow().sd())
        .isLessThan(one.best().box(2).alpha().orElseThrow().sd());
    Take stuffed = b.inBox(new Loading.Closed(true, false), 0.021, 9);
    both.set(3, new Take("stuffed", stuffed.curve(), stuffed.mounting()));
    JointFit other = JointFit.of(both, b.readings(0.004));
    assertThat(other.best().box(3).ownVolume()).isTrue();
    near(other.best().box(3).volume().orElseThrow(), 0.021);
    near(other.best().box(2).volume().orElseThrow(), 0.018);
  }

  @Test
  void findsTheTuningOfAPassiveRadiator() {
    Bench b = new Bench(16);
    Take box = b.inBox(new Loading.PassiveRadiator(true, true, false), 0.02, 34, 30, 0.35, 12);
    JointFit fit =
        JointFit.of(List.of(b.freeAir(), b.withMass(0.7, 0.004), box), b.readings(0.004));
    near(fit.best().box(2).value("f_b").orElseThrow(), 34);
    near(fit.best().box(2).value("δ").orElseThrow(), 0.35);
  }

  @Test
  void noticesAWarmCoil() {
    Bench b = new Bench(17);
    Take cold = b.freeAir();
    double mass = b.mms * 0.7;
    b.re *= 1.08;
    b.qes *= 1.08;
    Take warm = b.withMass(0.7, 0.004);
    b.re /= 1.08;
    JointFit fit = JointFit.of(List.of(cold, warm), b.readings(0.004));
    assertThat(mass).isPositive();
    assertThat(fit.best().ownResistance(1)).isTrue();
    assertThat(fit.best().re(1).value() / fit.best().re(0).value()).isCloseTo(1.08, within(0.005));
  }

  @Test
  void findsCreepAndDampingThatFallsWithFrequency() {
    Bench b = new Bench(18);
    b.suspension = new Suspension.Creep(0.12);
    JointFit creep = JointFit.of(b.usual(), b.readings(0.004));
    assertThat(creep.best().suspension()).isInstanceOf(Suspension.Creep.class);
    assertThat(creep.best().suspensionShape().orElseThrow().disagreement(Estimate.exact(0.12)))
        .isLessThan(3.5);
    b.suspension = new Suspension.DampingSlope(0.5);
    JointFit slope = JointFit.of(b.usual(), b.readings(0.004));
    assertThat(slope.best().suspension()).isInstanceOf(Suspension.DampingSlope.class);
  }

  @Test
  void readsACurveWithoutPhase() {
    Bench b = new Bench(19);
    Take full = b.freeAir();
    ImpedanceCurve magnitude =
        ImpedanceCurve.ofMagnitude(full.curve().frequencies(), full.curve().magnitudes());
    JointFit fit =
        JointFit.of(
            List.of(new Take("m", magnitude, new Mounting.FreeAir())), Readings.of(Bench.AIR));
    near(fit.best().fs(), b.fs);
    near(fit.best().qts(), 1 / (1 / b.qms + 1 / b.qes));
    assertThat(fit.best().residual(0)).hasSize(b.points);
  }

  @Test
  void fitsLongCurvesOnAllTheirPoints() {
    Bench b = new Bench(20);
    b.points = 3200;
    JointFit fit = JointFit.of(List.of(b.freeAir()), Readings.of(Bench.AIR));
    near(fit.best().fs(), b.fs);
    assertThat(fit.best().residual(0)).hasSize(6400);
  }

  @Test
  void refusesAnEmptyBench() {
    assertThatThrownBy(() -> JointFit.of(List.of(), Readings.of(Bench.AIR)))
        .hasMessageContaining("no take");
  }

  @Test
  void drawsItsModelThroughTheData() {
    Bench b = new Bench(21);
    Take take = b.freeAir();
    JointFit fit = JointFit.of(List.of(take), Readings.of(Bench.AIR));
    double[] f = {30, b.fs, 200};
    double[][] z = fit.best().impedance(0, f);
    double[][] band = fit.impedanceBand(0, f);
    for (int i = 0; i < 3; i++) {
      // the band averages over rivals of the best model, which lies within it
      assertThat(Math.hypot(z[0][i], z[1][i])).isCloseTo(band[0][i], within(0.5 * band[1][i]));
      assertThat(band[1][i]).isBetween(1e-5 * band[0][i], 0.01 * band[0][i]);
    }
    Estimate peak = fit.best().extremum(0, 0.7 * b.fs, 1.4 * b.fs, true);
    assertThat(peak.value()).isCloseTo(b.fs, within(0.3));
    Optional<Estimate> ratio = fit.best().addedMassRatio(0);
    assertThat(ratio).isEmpty();
    assertThat(fit.best().supportResonance()).isEmpty();
    assertThat(fit.best().inductance(1000).value()).isPositive();
    assertThat(fit.best().coilValues()).hasSize(3);
    assertThat(fit.best().noise(0).sigma()).isCloseTo(b.noise, within(0.3 * b.noise));
  }

  @Test
  void proposesTheStepThatTellsMost() {
    Bench b = new Bench(22);
    JointFit alone = JointFit.of(List.of(b.freeAir()), b.readings(0.02));
    List<Plan.Proposal> next = alone.proposals();
    assertThat(next.get(0).before()).isInfinite();
    assertThat(next)
        .extracting(Plan.Proposal::step)
        .contains(Plan.Step.ADDED_MASS, Plan.Step.TEST_VOLUME);
    // a mass known to 0.4 % tells M_ms to little worse
    assertThat(next.get(0).after()).isBetween(0.003, 0.02);
    JointFit full = JointFit.of(b.usual(), b.readings(0.02));
    // V_as goes with the fourth power of the diameter: a volume to 1 % tells it a little better
    // than
    // a diameter to 0.3 %
    assertThat(full.proposals())
        .extracting(Plan.Proposal::step)
        .startsWith(Plan.Step.TEST_VOLUME, Plan.Step.PISTON_DIAMETER);
    assertThat(full.proposals().get(0).target()).isEqualTo("V_as");
    assertThat(full.proposals().get(0).after()).isCloseTo(0.01, within(0.0005));
    assertThat(full.proposals().get(1).after()).isCloseTo(0.0127, within(0.0006));
  }

  @Test
  void averagesOverModelsTheDataCannotTellApart() {
    Bench b = new Bench(23);
    Take box = b.inBox(new Loading.Vented(true, true, true), 0.02, 38, 40, 12, 30);
    JointFit fit = JointFit.of(List.of(box), Readings.of(Bench.AIR));
    Estimate own = fit.best().qms();
    Estimate averaged = fit.averaged(Fitted::qms);
    assertThat(averaged.sd()).isGreaterThan(0.9 * own.sd());
    assertThat(averaged.disagreement(Estimate.exact(b.qms))).isLessThan(3.5);
    for (String loss : fit.undecidedLosses(0)) {
      assertThat(fit.averagedIfShown(f -> f.box(0).value(loss))).isEmpty();
    }
  }

  @Test
  void predictsWithUncertainty() {
    Bench b = new Bench(24);
    Take box = b.inBox(new Loading.Closed(true, true), 0.012, 30, 40);
    JointFit fit =
        JointFit.of(List.of(b.freeAir(), b.withMass(0.7, 0.004), box), b.readings(0.004));
    double[][] level =
        fit.predict(2, Drive.of(2.83), new double[] {40, 200}, List.of(SmallSignal::level)).get(0);
    assertThat(level[0][1]).isGreaterThan(level[0][0]);
    assertThat(level[1][1]).isBetween(0.001, 0.5);
    Estimate reference =
        fit.best().derived(2, Drive.of(2.83), SmallSignal::referenceLevel).orElseThrow();
    assertThat(fit.best().system(2, Drive.of(2.83)).orElseThrow().referenceLevel())
        .isEqualTo(reference.value());
    double fc = fit.best().box(2).fc().orElseThrow().value();
    double lossless = fc / b.fs / (1 / b.qms + 1 / b.qes);
    assertThat(fit.best().box(2).qtc().orElseThrow().value()).isBetween(0.6 * lossless, lossless);
    assertThat(fit.best().box(2).value("Q_L").or(() -> fit.best().box(2).value("Q_A"))).isPresent();
    assertThat(fit.best().box(2).value("f_b")).isEmpty();
  }
}
