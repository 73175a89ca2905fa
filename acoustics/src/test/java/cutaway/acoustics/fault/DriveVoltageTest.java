package cutaway.acoustics.fault;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.stimulus.ExponentialSweep;
import cutaway.acoustics.stimulus.SteadyTone;
import cutaway.acoustics.stimulus.TestSignal;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;

class DriveVoltageTest {
  private static final double RATE = 48000;
  private static final TestSignal SWEEP = ExponentialSweep.of(15, 2000, 5, 0.25);
  private static final TestSignal TONE = new SteadyTone(45, List.of(0.316, 1.0), 1.6, 0.2, 0.25);

  /** What an amplifier makes of a voltage at a time. */
  private interface Amplifier {
    double at(double volts, double time);
  }

  private static DriveVoltage through(TestSignal signal, Amplifier amplifier) {
    double[] played = signal.samples(RATE);
    double[] volts = new double[played.length + 4800];
    Random random = new Random(6);
    for (int i = 0; i < volts.length; i++) {
      double in = i < 960 || i - 960 >= played.length ? 0 : 8 * played[i - 960];
      volts[i] = amplifier.at(in, i / RATE) + 1e-4 * random.nextGaussian();
    }
    NoiseTake take =
        new NoiseTake(
            Optional.of(signal),
            Intervention.NONE,
            RATE,
            Map.of(Sensor.VOLTAGE, volts, Sensor.CONE, volts.clone()));
    return DriveVoltage.of(take, Residue.of(take).orElseThrow()).orElseThrow();
  }

  @Test
  void aSoundAmplifierDoesAsItIsTold() {
    for (TestSignal signal : List.of(SWEEP, TONE)) {
      DriveVoltage v = through(signal, (u, t) -> u + 1e-5 * u * u);
      assertThat(v.wavering()).isLessThan(0.02);
      assertThat(v.silent()).isZero();
      assertThat(v.odd()).isLessThan(-80);
      // a u² of amplitude a makes a second order of 1e-5 a/2
      assertThat(v.even()).isCloseTo(20 * Math.log10(1e-5 * 8 / 2), within(3.0));
    }
    assertThat(through(TONE, (u, t) -> u).compression().orElseThrow()).isCloseTo(0, within(0.01));
    assertThat(through(SWEEP, (u, t) -> u).compression()).isEmpty();
  }

  /** Hum of a hundredth of the tone, its even multiples too, is there at rest and no distortion. */
  @Test
  void humIsNoDistortion() {
    TestSignal tone = new SteadyTone(55, List.of(0.316, 1.0), 1.6, 0.8, 0.25);
    DriveVoltage v =
        through(
            tone,
            (u, t) ->
                u
                    + 0.06 * Math.sin(2 * Math.PI * 55.4 * t)
                    + 0.05 * Math.sin(2 * Math.PI * 110.3 * t));
    assertThat(v.even()).isLessThan(-60);
    assertThat(v.wavering()).isLessThan(0.01);
    DriveVoltage bent = through(tone, (u, t) -> u + 0.01 * u * u);
    assertThat(bent.even()).isCloseTo(20 * Math.log10(0.01 * 8 / 2), within(1.0));
  }

  /** A sine of 8 cut off at 6: the third order by Fourier's integral, −17.4 dB. */
  @Test
  void clippingShowsInOddOrdersAndInTheGain() {
    DriveVoltage v = through(TONE, (u, t) -> Math.max(-6, Math.min(6, u)));
    double a = Math.asin(6 / 8.0);
    double first = 2 / Math.PI * (a + 0.75 * Math.cos(a));
    assertThat(v.compression().orElseThrow()).isCloseTo(-20 * Math.log10(first), within(0.02));
    assertThat(v.odd()).isBetween(-25.0, -15.0);
    assertThat(v.even()).isLessThan(-60);
  }

  @Test
  void huntingAndMutesAreTold() {
    DriveVoltage hunting =
        through(TONE, (u, t) -> u * (0.75 + 0.25 * Math.sin(2 * Math.PI * 2 * t)));
    assertThat(hunting.wavering()).isGreaterThan(1);
    assertThat(hunting.silent()).isZero();
    DriveVoltage muted = through(TONE, (u, t) -> t % 0.5 < 0.2 ? 0 : u);
    assertThat(muted.silent()).isBetween(0.25, 0.5);
  }

  /** Limited to the slope of a full tone at 700 Hz, a sweep turns into triangles above. */
  @Test
  void slewingGrowsWithFrequency() {
    double[] out = new double[1];
    double step = 8 * 2 * Math.PI * 700 / RATE;
    DriveVoltage v =
        through(
            SWEEP,
            (u, t) -> {
              out[0] += Math.max(-step, Math.min(step, u - out[0]));
              return out[0];
            });
    // of a triangle the third order is a ninth
    assertThat(v.odd()).isCloseTo(20 * Math.log10(1 / 9.0), within(1.5));
    assertThat(v.rise().orElseThrow()).isGreaterThan(30);
    DriveVoltage clipped = through(SWEEP, (u, t) -> Math.max(-6, Math.min(6, u)));
    assertThat(clipped.rise().orElseThrow()).isCloseTo(0, within(6.0));
  }
}
