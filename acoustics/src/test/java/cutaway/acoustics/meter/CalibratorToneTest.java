package cutaway.acoustics.meter;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;

class CalibratorToneTest {
  private static double[] recording(
      double seconds, double from, double frequency, double amplitude, double hum) {
    Random random = new Random(1);
    double[] x = new double[(int) (48000 * seconds)];
    for (int i = 0; i < x.length; i++) {
      double t = i / 48000.0;
      x[i] = 1e-3 * random.nextGaussian() + hum * Math.sin(2 * Math.PI * 50 * t + 1);
      if (t > from) {
        x[i] += amplitude * Math.sqrt(2) * Math.sin(2 * Math.PI * frequency * t);
      }
    }
    return x;
  }

  @Test
  void readsTheToneBesideHumAndALateStart() {
    for (double[] c :
        new double[][] {{1001.455, 1000, 0}, {249.152, 250, 2.3}, {1003.3, 1000, 1}}) {
      CalibratorTone tone =
          CalibratorTone.of(recording(5, c[2], c[0], 0.05, 0.02), 48000, c[1]).orElseThrow();
      assertThat(tone.frequency()).isCloseTo(c[0], within(0.002));
      assertThat(20 * Math.log10(tone.amplitude() / 0.05)).isCloseTo(0, within(0.01));
      assertThat(tone.uncertainty()).isLessThan(1e-3);
    }
  }

  @Test
  void noToneIsNone() {
    assertThat(CalibratorTone.of(recording(5, 9, 1000, 0, 0.02), 48000, 1000)).isEmpty();
    assertThat(CalibratorTone.of(recording(0.5, 0, 1000, 0.1, 0), 48000, 1000)).isEmpty();
    assertThat(CalibratorTone.of(recording(5, 0, 1200, 0.1, 0), 48000, 1000)).isEmpty();
    assertThat(CalibratorTone.of(recording(5, 4.6, 1000, 0.1, 0), 48000, 1000)).isEmpty();
  }
}
