package cutaway.acoustics.fault;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;

/** Against the power of a sine, ½, and that of noise, its variance by the share of the width. */
class OctaveBandsTest {
  private static final double RATE = 48000;

  @Test
  void aSineLiesInTheBandsAboutItAndInNoOther() {
    double[] x = new double[50000];
    for (int i = 0; i < x.length; i++) {
      x[i] = Math.sin(2 * Math.PI * 1000 * i / RATE);
    }
    OctaveBands bands = new OctaveBands(x, RATE);
    for (int b = 0; b < bands.size(); b++) {
      double off = Math.abs(Math.log(OctaveBands.centre(b) / 1000) / Math.log(2));
      double power = bands.power(b, 10000, 40000);
      if (off < 0.4) {
        assertThat(power).isCloseTo(0.5, within(5e-4));
      } else if (off > 0.6) {
        assertThat(power).isLessThan(1e-6);
      }
    }
  }

  @Test
  void noiseIsSharedOutByWidth() {
    Random random = new Random(1);
    double[] x = random.doubles(400000).map(v -> random.nextGaussian()).toArray();
    OctaveBands bands = new OctaveBands(x, RATE);
    for (int b = 0; b < bands.size(); b++) {
      // a raised-cosine edge lets through three eighths of the power, not half
      double edge = Math.pow(2, 1 / 24.0) - Math.pow(2, -1 / 24.0);
      double share = (1 - 3 * edge / 8) * OctaveBands.lowerEdge(b) / (RATE / 2);
      double samples = 2 * OctaveBands.lowerEdge(b) * x.length / RATE;
      assertThat(bands.power(b, 0, x.length) / share)
          .isCloseTo(1, within(4 * Math.sqrt(2 / samples) + 0.005));
    }
  }

  /** Power that comes and goes quickly is not blurred into stretches beside it. */
  @Test
  void aBurstStaysWhereItIs() {
    double[] x = new double[48000];
    for (int i = 20000; i < 24000; i++) {
      x[i] = Math.sin(2 * Math.PI * 3000 * i / RATE);
    }
    OctaveBands bands = new OctaveBands(x, RATE);
    int b = OctaveBands.at(3000);
    assertThat(bands.power(b, 20200, 23800)).isCloseTo(0.5, within(0.01));
    assertThat(bands.power(b, 10000, 19000)).isLessThan(1e-6);
    assertThat(bands.power(b, 25000, 40000)).isLessThan(1e-6);
  }

  @Test
  void lowBandsAreTakenAway() {
    double[] x = new double[48000];
    for (int i = 0; i < x.length; i++) {
      x[i] = Math.sin(2 * Math.PI * 50 * i / RATE) + 0.1 * Math.sin(2 * Math.PI * 2000 * i / RATE);
    }
    double[] above = OctaveBands.above(x, RATE);
    for (int i = 10000; i < 40000; i += 7) {
      assertThat(above[i]).isCloseTo(0.1 * Math.sin(2 * Math.PI * 2000 * i / RATE), within(2e-3));
    }
  }

  /** Blows a millisecond and a bit apart in two channels; by how far does not hang on the step. */
  @Test
  void whichOfTwoChannelsHearsBlowsFirst() {
    for (double later : new double[] {0, 0.0004, 0.00113, -0.0021}) {
      OctaveBands first = new OctaveBands(blows(0), RATE);
      OctaveBands second = new OctaveBands(blows(later), RATE);
      for (int b = OctaveBands.at(1000); b <= OctaveBands.at(4000); b += 3) {
        assertThat(first.later(second, b, 24000, 72000, 0.004)).isCloseTo(later, within(1e-4));
      }
    }
  }

  private static double[] blows(double later) {
    double[] out = new double[96000];
    for (int i = 0; i < out.length; i++) {
      double since = (i / RATE - later + 1) % 0.0213;
      for (double f : new double[] {900, 1300, 2100, 3300, 4700}) {
        out[i] += Math.exp(-since / 0.001) * Math.sin(2 * Math.PI * f * since);
      }
    }
    return out;
  }
}
