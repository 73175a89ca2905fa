package cutaway.acoustics.meter;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;

class ThirdOctaveTest {
  /**
   * Class 1 of IEC 61260-1:2014, table 1, for octaves: relative frequency as a power of two, least
   * and greatest attenuation, dB (from memory; the narrower of two editions where they differ).
   */
  private static final double[][] CLASS_1 = {
    {0, -0.3, 0.3},
    {1.0 / 8, -0.3, 0.4},
    {1.0 / 4, -0.3, 0.6},
    {3.0 / 8, -0.3, 1.3},
    {0.5 - 1e-9, -0.3, 5},
    {0.5 + 1e-9, 2, 5},
    {1, 17.5, 1e9},
    {2, 42, 1e9},
    {3, 61, 1e9},
    {4, 70, 1e9}
  };

  @Test
  void staysWithinClassOne() {
    ThirdOctave band = new ThirdOctave(30);
    double octave = Math.pow(10, 0.3);
    for (double[] limit : CLASS_1) {
      // how the standard carries octave limits over to thirds
      double far = Math.pow(octave, limit[0]);
      double ratio = 1 + (Math.pow(octave, 1.0 / 6) - 1) / (Math.pow(octave, 0.5) - 1) * (far - 1);
      for (double f : new double[] {1000 * ratio, 1000 / ratio}) {
        assertThat(-20 * Math.log10(band.gain(f)))
            .as("attenuation at %.1f Hz", f)
            .isBetween(limit[1], limit[2]);
      }
    }
  }

  /**
   * As wide as the standard's band, so that noise reads as a filter with steep edges would read.
   */
  @Test
  void passesTheBandsPowerOfNoise() {
    ThirdOctave band = new ThirdOctave(27);
    double sum = 0;
    double step = 0.01;
    for (double f = step / 2; f < 40000; f += step) {
      sum += band.gain(f) * band.gain(f) * step;
    }
    assertThat(sum).isCloseTo(band.high() - band.low(), within(1e-3 * sum));
  }

  @Test
  void standsAtExactMiddles() {
    List<ThirdOctave> bands = ThirdOctave.between(25, 12590);
    assertThat(bands).hasSize(28);
    assertThat(bands.get(16).centre()).isCloseTo(1000, within(1e-9));
    assertThat(bands.get(0).high()).isCloseTo(bands.get(1).low(), within(1e-9));
  }
}
