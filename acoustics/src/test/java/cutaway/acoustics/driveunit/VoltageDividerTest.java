package cutaway.acoustics.driveunit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.driveunit.VoltageDivider.Listening;
import cutaway.acoustics.driveunit.VoltageDivider.Trouble;
import cutaway.acoustics.estimate.Estimate;
import cutaway.acoustics.signal.Capture;
import cutaway.acoustics.signal.SoundSource;
import cutaway.acoustics.signal.Stretch;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Known answers: captures over a resistor and an inductance, integrated in the time domain. */
class VoltageDividerTest {
  private static final double RATE = 48000;
  private static final double R = 4.7;
  private static final double RE = 6.2;
  private static final double L = 4e-4;

  /** Samples in memory. */
  static final class Recording implements SoundSource {
    final double[] first;
    final double[] second;

    Recording(int frames) {
      first = new double[frames];
      second = new double[frames];
    }

    @Override
    public double rate() {
      return RATE;
    }

    @Override
    public long frames() {
      return first.length;
    }

    @Override
    public int channels() {
      return 2;
    }

    @Override
    public void stream(Sink sink) {
      for (int from = 0; from < first.length; from += 5000) {
        int n = Math.min(5000, first.length - from);
        sink.accept(
            new double[][] {
              java.util.Arrays.copyOfRange(first, from, from + n),
              java.util.Arrays.copyOfRange(second, from, from + n)
            },
            n);
      }
    }
  }

  /** A sweep from 5 Hz to 20 kHz, 3 s, in silence. */
  static double[] sweep() {
    double t = 3;
    double f1 = 5;
    double rise = Math.log(20000 / f1);
    int lead = 9600;
    double[] x = new double[(int) (t * RATE) + lead + 19200];
    for (int i = 0; i < t * RATE; i++) {
      double s = i / RATE;
      double fade = Math.min(1, Math.min(s / 0.1, (t - s) / 0.01));
      x[lead + i] =
          0.5
              * Math.sin(2 * Math.PI * f1 * t / rise * (Math.exp(s * rise / t) - 1))
              * 0.5
              * (1 - Math.cos(Math.PI * fade));
    }
    return x;
  }

  static double[] noise(int frames) {
    Random random = new Random(4);
    double[] x = new double[frames];
    for (int i = 0; i < frames; i++) {
      x[i] = 0.15 * random.nextGaussian();
    }
    return x;
  }

  /**
   * The voltage over RE + L in series with R by the bilinear rule, whose exact discrete load is an
   * inductance seen at the warped frequency.
   */
  private static Recording over(double[] x, boolean unit, double load, double inductance) {
    Recording out = new Recording(x.length);
    double k = 2 * RATE * inductance;
    double i = 0;
    double before = 0;
    for (int n = 0; n < x.length; n++) {
      double next = ((k - R - load) * i + x[n] + before) / (k + R + load);
      before = x[n];
      i = next;
      out.first[n] = x[n];
      out.second[n] = unit ? x[n] - R * i : R * i;
    }
    return out;
  }

  private static double warped(double f) {
    return 2 * RATE * Math.tan(Math.PI * f / RATE) * L;
  }

  private static void check(VoltageDivider divider, double tolerance) {
    ImpedanceCurve z = divider.impedance();
    assertThat(z.size()).isGreaterThan(100);
    for (int i = 0; i < z.size(); i++) {
      double x = warped(z.frequency(i));
      double error = Math.hypot(z.re(i) - RE, z.im(i) - x) / Math.hypot(RE, x);
      assertThat(error).as("at %f Hz", z.frequency(i)).isLessThan(tolerance);
    }
  }

  private static Capture read(Recording r) {
    return Capture.of(r, new double[] {50}, 10, 10000);
  }

  @Test
  void measuresOverDriveUnitAndOverResistor() {
    Capture a = read(over(sweep(), true, RE, L));
    assertThat(a.sweep()).isPresent();
    check(VoltageDivider.of(a, Listening.DRIVE_UNIT, R, Optional.empty(), 0).orElseThrow(), 1e-3);
    Capture b = read(over(sweep(), false, RE, L));
    check(VoltageDivider.of(b, Listening.RESISTOR, R, Optional.empty(), 0).orElseThrow(), 1e-3);
  }

  @Test
  void averagesNoise() {
    Capture c = read(over(noise(48000 * 30), true, RE, L));
    assertThat(c.sweep()).isEmpty();
    check(VoltageDivider.of(c, Listening.DRIVE_UNIT, R, Optional.empty(), 0).orElseThrow(), 0.02);
  }

  @Test
  void leavesHumOutOfNoise() {
    Recording r = over(noise(48000 * 30), true, RE, L);
    for (int i = 0; i < r.first.length; i++) {
      double turn = 2 * Math.PI * 59.97 * i / RATE;
      r.second[i] += 0.02 * Math.sin(turn) + 0.003 * Math.sin(3 * turn + 1);
    }
    Capture c = Capture.of(r, new double[] {60}, 10, 10000);
    assertThat(c.hum().orElseThrow().frequency()).isCloseTo(59.97, within(0.02));
    assertThat(c.hum().orElseThrow().strongest()).isCloseTo(0.02, within(0.001));
    assertThat(c.hum().orElseThrow().harmonics()).hasSize(2);
    ImpedanceCurve z =
        VoltageDivider.of(c, Listening.DRIVE_UNIT, R, Optional.empty(), 0)
            .orElseThrow()
            .impedance();
    for (int i = 0; i < z.size(); i++) {
      double f = z.frequency(i);
      double error = Math.hypot(z.re(i) - RE, z.im(i) - warped(f)) / Math.hypot(RE, warped(f));
      // what still leaks from a line near by is counted in the uncertainty
      assertThat(error).as("at %f Hz", f).isLessThan(3 * z.sigma(i));
      assertThat(Math.abs(f - 60) > 5 && Math.abs(f - 180) > 5 ? error : 0).isLessThan(2e-3);
    }
    assertThat(Capture.of(over(noise(48000 * 30), true, RE, L), new double[] {60}, 10, 10000).hum())
        .isEmpty();
  }

  @Test
  void findsOutTheMainsWhereNobodySaidThem() {
    double[] both = {50, 60};
    for (double mains : both) {
      for (double[] signal : java.util.List.of(sweep(), noise(48000 * 30))) {
        Recording r = over(signal, true, RE, L);
        for (int i = 0; i < r.first.length; i++) {
          double turn = 2 * Math.PI * (mains + 0.03) * i / RATE;
          r.second[i] += 0.01 * Math.sin(turn) + 0.003 * Math.sin(5 * turn + 1);
        }
        assertThat(Capture.of(r, both, 10, 10000).hum().orElseThrow().frequency())
            .isCloseTo(mains + 0.03, within(0.05));
      }
    }
    assertThat(Capture.of(over(sweep(), true, RE, L), both, 10, 10000).hum()).isEmpty();
  }

  private static void distort(Recording r, double gain, double delay) {
    double whole = Math.floor(delay);
    double part = delay - whole;
    double[] y = r.second.clone();
    for (int i = 2; i < y.length - 2; i++) {
      // third-order Lagrange, exact to 1e-4 for what a test of the correction needs below 2 kHz
      double d = part;
      double c0 = -d * (d - 1) * (d - 2) / 6;
      double c1 = (d + 1) * (d - 1) * (d - 2) / 2;
      double c2 = -(d + 1) * d * (d - 2) / 2;
      double c3 = (d + 1) * d * (d - 1) / 6;
      r.second[i] = gain * (c0 * y[i + 1] + c1 * y[i] + c2 * y[i - 1] + c3 * y[i - 2]);
    }
  }

  @Test
  void takesOutGainAndDelayBetweenChannels() {
    Recording unit = over(sweep(), true, RE, L);
    Recording known = over(sweep(), true, 10, 0);
    distort(unit, 1.07, 0.3);
    distort(known, 1.07, 0.3);
    VoltageDivider divider =
        VoltageDivider.of(
                Capture.of(unit, new double[] {50}, 10, 2000),
                Listening.DRIVE_UNIT,
                R,
                Optional.of(Capture.of(known, new double[] {50}, 10, 2000)),
                10)
            .orElseThrow();
    assertThat(divider.correction().gain()).isCloseTo(1.07, within(1e-3));
    assertThat(divider.correction().delay() * RATE).isCloseTo(0.3, within(0.01));
    check(divider, 2e-3);
  }

  @Test
  void putsSwappedAndReversedPlugsRight() {
    Recording r = over(sweep(), true, RE, L);
    Recording swapped = new Recording(r.first.length);
    for (int i = 0; i < r.first.length; i++) {
      swapped.first[i] = r.second[i];
      swapped.second[i] = -r.first[i];
    }
    VoltageDivider divider =
        VoltageDivider.of(read(swapped), Listening.DRIVE_UNIT, R, Optional.empty(), 0)
            .orElseThrow();
    assertThat(divider.troubles()).containsExactly(Trouble.SWAPPED, Trouble.REVERSED);
    check(divider, 1e-3);
  }

  @Test
  void takesOutHumAndOffset() {
    Recording r = over(sweep(), true, RE, L);
    for (int i = 0; i < r.first.length; i++) {
      double t = i / RATE;
      r.second[i] +=
          0.004 * Math.cos(2 * Math.PI * 50.03 * t)
              + 0.002 * Math.sin(2 * Math.PI * 150.09 * t)
              + 0.01;
    }
    Capture c = read(r);
    assertThat(c.hum().orElseThrow().frequency()).isCloseTo(50.03, within(0.02));
    assertThat(c.hum().orElseThrow().strongest()).isCloseTo(0.004, within(0.0004));
    assertThat(c.check().offset(2)).isCloseTo(0.01, within(0.002));
    check(VoltageDivider.of(c, Listening.DRIVE_UNIT, R, Optional.empty(), 0).orElseThrow(), 6e-3);
  }

  @Test
  void dropsWhatWasClippedOrLost() {
    Recording r = over(sweep(), true, RE, L);
    for (int i = 60000; i < 61000; i++) {
      r.first[i] = 0;
      r.second[i] = 0;
    }
    for (int i = 100000; i < 103000; i++) {
      r.second[i] = Math.max(-1, Math.min(1, 8 * r.second[i]));
    }
    Capture c = read(r);
    assertThat(c.check().stretches())
        .extracting(Stretch::kind)
        .containsExactly(Stretch.Kind.DROPPED, Stretch.Kind.CLIPPED);
    assertThat(c.dropped()).hasSize(2);
    assertThat(c.check().clippedSamples()).isGreaterThan(100);
    VoltageDivider divider =
        VoltageDivider.of(c, Listening.DRIVE_UNIT, R, Optional.empty(), 0).orElseThrow();
    double lost = c.dropped().get(0).low();
    assertThat(divider.impedance().between(lost, c.dropped().get(0).high()).size()).isZero();
    check(divider, 6e-3);
  }

  @Test
  void seesASweepCutShort() {
    Recording whole = over(sweep(), true, RE, L);
    Recording cut = new Recording(100000);
    System.arraycopy(whole.first, 0, cut.first, 0, 100000);
    System.arraycopy(whole.second, 0, cut.second, 0, 100000);
    Capture c = read(cut);
    assertThat(c.cutShort()).isTrue();
    VoltageDivider divider =
        VoltageDivider.of(c, Listening.DRIVE_UNIT, R, Optional.empty(), 0).orElseThrow();
    assertThat(divider.impedance().frequency(divider.impedance().size() - 1)).isLessThan(1500);
    check(divider, 6e-3);
  }

  @Test
  void saysNothingOfSilence() {
    Capture c = read(new Recording(60000));
    assertThat(c.check().rms(1)).isZero();
    assertThat(c.check().peak(2)).isZero();
    assertThat(VoltageDivider.of(c, Listening.DRIVE_UNIT, R, Optional.empty(), 0)).isEmpty();
  }

  /** What a wrong resistor does to the impedance, against what the rig errors say it does. */
  @Test
  void aWrongResistorBendsTheCurveAsDerived() {
    double known = 8.2;
    double wrong = 1e-3;
    for (Listening listening : Listening.values()) {
      boolean unit = listening == Listening.DRIVE_UNIT;
      Capture take = read(over(sweep(), unit, RE, L));
      Optional<Capture> calibration = Optional.of(read(over(sweep(), unit, known, 0)));
      ImpedanceCurve right = curve(take, listening, R, calibration, known);
      var errors =
          VoltageDivider.rigErrors(
              listening, Estimate.relative(R, 0.01), Optional.of(Estimate.relative(known, 0.01)));
      bends(right, curve(take, listening, R * (1 + wrong), calibration, known), errors.get(0));
      bends(right, curve(take, listening, R, calibration, known * (1 + wrong)), errors.get(1));
      Recording louder = over(sweep(), unit, RE, L);
      for (int i = 0; i < louder.second.length; i++) {
        louder.second[i] *= 1 + wrong;
      }
      var bare = VoltageDivider.rigErrors(listening, Estimate.relative(R, 0.01), Optional.empty());
      bends(
          curve(take, listening, R, Optional.empty(), 0),
          curve(read(louder), listening, R, Optional.empty(), 0),
          bare.get(1));
    }
  }

  @Test
  void aDelayBendsTheCurveAsDerived() {
    for (Listening listening : Listening.values()) {
      boolean unit = listening == Listening.DRIVE_UNIT;
      double samples = 0.002;
      Recording late = over(sweep(), unit, RE, L);
      distort(late, 1, samples);
      ImpedanceCurve right =
          curve(read(over(sweep(), unit, RE, L)), listening, R, Optional.empty(), 0);
      ImpedanceCurve wrong = curve(read(late), listening, R, Optional.empty(), 0);
      RigError delay =
          VoltageDivider.rigErrors(listening, Estimate.relative(R, 0.01), Optional.empty()).get(2);
      double[][] along = delay.along(right);
      double seconds = samples / RATE;
      double sign = Math.signum(along[1][0]) * Math.signum(wrong.phase(0) - right.phase(0));
      for (int i = 0; i < right.size() && right.frequency(i) < 2000; i += 5) {
        // later or earlier is the same unknown
        double x = sign * seconds;
        assertThat(Math.log(wrong.magnitude(i) / right.magnitude(i)))
            .isCloseTo(along[0][i] * x, within(3e-5));
        assertThat(wrong.phase(i) - right.phase(i)).isCloseTo(along[1][i] * x, within(3e-5));
      }
    }
  }

  @Test
  void seesByTheCalibrationThatChannelTwoHearsTheOtherPart() {
    for (Listening listening : Listening.values()) {
      boolean unit = listening == Listening.DRIVE_UNIT;
      Capture take = read(over(sweep(), !unit, RE, L));
      Optional<Capture> calibration = Optional.of(read(over(sweep(), !unit, 8.2, 0)));
      assertThat(VoltageDivider.of(take, listening, R, calibration, 8.2).orElseThrow().troubles())
          .containsExactly(Trouble.OTHER_PART);
    }
  }

  private static ImpedanceCurve curve(
      Capture take, Listening listening, double r, Optional<Capture> calibration, double known) {
    return VoltageDivider.of(take, listening, r, calibration, known).orElseThrow().impedance();
  }

  private static void bends(ImpedanceCurve right, ImpedanceCurve wrong, RigError error) {
    double[][] along = error.along(right);
    assertThat(wrong.size()).isEqualTo(right.size());
    for (int i = 0; i < right.size(); i += 7) {
      double magnitude = Math.log(wrong.magnitude(i) / right.magnitude(i)) / 1e-3;
      double angle = (wrong.phase(i) - right.phase(i)) / 1e-3;
      double f = right.frequency(i);
      // second order in the error of one thousandth
      assertThat(magnitude).as("%s at %f Hz", error, f).isCloseTo(along[0][i], within(0.03));
      assertThat(angle).as("%s at %f Hz", error, f).isCloseTo(along[1][i], within(0.03));
    }
  }
}
