package cutaway.acoustics.fault;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;

class RestSpectrumTest {
  private static final double RATE = 48000;

  /** A tone of 40 dB SPL over white noise of 20 dB SPL. */
  private static RestSpectrum of(double frequency, double seconds) {
    Random random = new Random(3);
    double[] x = new double[(int) (seconds * RATE)];
    for (int i = 0; i < x.length; i++) {
      x[i] =
          2e-3 * Math.sqrt(2) * Math.sin(2 * Math.PI * frequency * i / RATE)
              + 2e-4 * random.nextGaussian();
    }
    return RestSpectrum.of(x, RATE);
  }

  @Test
  void aToneStandsAtItsFrequencyAndLevel() {
    for (double frequency : new double[] {50, 997, 8000}) {
      RestSpectrum s = of(frequency, 5);
      int best = 0;
      for (int i = 0; i < s.levels().length; i++) {
        best = s.levels()[i] > s.levels()[best] ? i : best;
      }
      assertThat(s.frequencies()[best]).isCloseTo(frequency, within(1.0));
      assertThat(s.levels()[best]).isCloseTo(40, within(0.3));
    }
  }

  /** Frequencies rise, from where ears begin; a line of noise is 1.5 Hz wide under the window. */
  @Test
  void noiseLiesLow() {
    RestSpectrum s = of(997, 5);
    assertThat(s.frequencies()[0]).isBetween(19.5, 21.5);
    assertThat(s.frequencies()).isSorted();
    double line = 20 + 10 * Math.log10(1.5 / (RATE / 2));
    assertThat(s.levels()[2]).isCloseTo(line, within(4.0));
  }

  /** A recording of two seconds at 8 kHz gives what it holds. */
  @Test
  void slowAndShortRecordings() {
    double[] x = new Random(1).doubles(16000, -0.01, 0.01).toArray();
    RestSpectrum s = RestSpectrum.of(x, 8000);
    assertThat(s.frequencies()[s.frequencies().length - 1]).isBetween(3800.0, 4000.0);
    assertThat(s.levels()).hasSameSizeAs(s.frequencies());
  }
}
