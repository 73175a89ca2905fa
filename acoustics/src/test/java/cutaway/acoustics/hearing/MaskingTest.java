package cutaway.acoustics.hearing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.Published;
import cutaway.acoustics.meter.PowerSpectrum;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class MaskingTest {
  private static final double RATE = 48000;

  private static CriticalBands tone(double frequency, double level) {
    double[] x = new double[48000];
    double peak = 20e-6 * Math.pow(10, level / 20) * Math.sqrt(2);
    for (int i = 0; i < x.length; i++) {
      x[i] = peak * Math.sin(2 * Math.PI * frequency * i / RATE);
    }
    return CriticalBands.of(PowerSpectrum.averaged(x, 0, x.length, RATE, 16384));
  }

  /** White noise of a level in each Hz. */
  private static CriticalBands noise(double perHertz) {
    Random random = new Random(1);
    double sd = 20e-6 * Math.pow(10, perHertz / 20) * Math.sqrt(RATE / 2);
    double[] x = new double[96000];
    for (int i = 0; i < x.length; i++) {
      x[i] = sd * random.nextGaussian();
    }
    return CriticalBands.of(PowerSpectrum.averaged(x, 0, x.length, RATE, 16384));
  }

  private static CriticalBands silence() {
    return CriticalBands.of(PowerSpectrum.of(new double[16], RATE));
  }

  @Test
  void criticalBandRatesAreAsComputed() {
    for (Map<String, String> row : Published.rows("09_critical_bands.csv")) {
      String id = row.getOrDefault("id", "");
      double value = Double.parseDouble(row.getOrDefault("value", ""));
      if (id.startsWith("bark.")) {
        double f = Double.parseDouble(id.substring(5));
        assertThat(CriticalBands.rate(f)).isCloseTo(value, within(1e-8));
        assertThat(CriticalBands.frequency(value)).isCloseTo(f, within(1e-6 * f));
      } else if (id.startsWith("spread.up.")) {
        String[] at = id.split("\\.", 4);
        assertThat(Masking.slope(Double.parseDouble(at[2]), Double.parseDouble(at[3])))
            .isCloseTo(value, within(1e-9));
      }
    }
  }

  @Test
  void inSilenceTheThresholdInQuietCounts() {
    for (double f : new double[] {63, 250, 1000, 4000}) {
      double threshold = HearingThreshold.at(f);
      assertThat(Masking.of(tone(f, threshold), silence()).over()).isCloseTo(0, within(1.5));
      assertThat(Masking.of(tone(f, threshold + 12), silence()).likelihood()).isGreaterThan(0.98);
      assertThat(Masking.of(tone(f, threshold - 12), silence()).likelihood()).isLessThan(0.02);
    }
    assertThat(Masking.of(silence(), silence()).likelihood()).isLessThan(1e-6);
  }

  /**
   * A tone in white noise is just heard some 17 dB over the noise's level in a Hz at 500 Hz and
   * below, 18 at 1 kHz, 10 dB more a decade above (H. Fastl and E. Zwicker, Psychoacoustics, fig.
   * 4.1, from memory, within a few dB).
   */
  @ParameterizedTest
  @CsvSource({"250, 17", "500, 17", "1000, 18", "4000, 23"})
  void tonesInWhiteNoise(double frequency, double over) {
    CriticalBands noise = noise(20);
    assertThat(Masking.of(tone(frequency, 20 + over), noise).over()).isCloseTo(0, within(3.0));
  }

  /** Loud deep sound hides what lies above it better than what lies below. */
  @Test
  void maskingReachesUpwards() {
    CriticalBands masker = tone(500, 85);
    assertThat(Masking.of(tone(900, 40), masker).over())
        .isLessThan(Masking.of(tone(900, 40), tone(500, 65)).over());
    assertThat(Masking.of(tone(900, 40), masker).over())
        .isLessThan(Masking.of(tone(250, 40), masker).over());
  }

  @Test
  void farAwayTheRoomCoversIt() {
    CriticalBands rattle = tone(2000, 35);
    CriticalBands music = tone(60, 85);
    double quiet = Masking.reach(rattle, music, noise(-20));
    double loud = Masking.reach(rattle, music, noise(0));
    assertThat(quiet).isGreaterThan(2 * loud);
    assertThat(
            Masking.of(rattle.scaled(1 / quiet), music.scaled(1 / quiet).with(noise(-20))).over())
        .isCloseTo(0, within(0.1));
  }
}
