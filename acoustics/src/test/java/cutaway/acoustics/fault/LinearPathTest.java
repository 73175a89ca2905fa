package cutaway.acoustics.fault;

import static org.assertj.core.api.Assertions.assertThat;

import cutaway.acoustics.stimulus.Tone;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Against plain convolution with a path that is known: a delay, an echo, and a ringing. */
class LinearPathTest {
  static final double RATE = 48000;

  /** Response of 20 ms. */
  private static final double[] PATH = new double[960];

  static {
    PATH[60] = 0.3;
    PATH[310] = -0.08;
    for (int i = 60; i < PATH.length; i++) {
      double t = (i - 60) / RATE;
      PATH[i] += 0.01 * Math.exp(-t / 0.003) * Math.sin(2 * Math.PI * 900 * t);
    }
  }

  static double[] convolved(double[] x) {
    double[] out = new double[x.length];
    for (int i = 0; i < x.length; i++) {
      for (int k = 0; k < PATH.length && k <= i; k++) {
        out[i] += PATH[k] * x[i - k];
      }
    }
    return out;
  }

  /** A sweep from 15 Hz to 2 kHz, cut off at a share of its peak. */
  static double[] sweep(double cutOff) {
    Tone tone = ResidueTest.SWEEP.tones().get(0);
    double[] out = new double[(int) (RATE * (tone.end() + 0.6))];
    for (int i = 0; i < out.length; i++) {
      double t = i / RATE;
      if (t > tone.start() && t < tone.end()) {
        double v = Math.sin(2 * Math.PI * tone.cycles(t));
        out[i] = Math.max(-cutOff, Math.min(cutOff, v));
      }
    }
    return out;
  }

  static double[] noise(int length, double size, long seed) {
    Random random = new Random(seed);
    return random.doubles(length).map(v -> size * random.nextGaussian()).toArray();
  }

  private static double[] sum(double[] a, double[] b) {
    double[] out = a.clone();
    for (int i = 0; i < out.length; i++) {
      out[i] += b[i];
    }
    return out;
  }

  @Test
  void whatIsSentThroughArrivesAsByConvolution() {
    double[] from = sum(sweep(0.7), noise(sweep(1).length, 1e-6, 1));
    double[] to = sum(convolved(from), noise(from.length, 1e-6, 2));
    LinearPath path = new LinearPath(from, to, RATE, LinearPath.SWEEP, t -> 1);
    double[] other = noise(from.length, 1, 3);
    OctaveBands wanted = new OctaveBands(convolved(other), RATE);
    double[] off = convolved(other);
    double[] arrived = path.through(other);
    for (int i = 0; i < off.length; i++) {
      off[i] -= arrived[i];
    }
    OctaveBands wrong = new OctaveBands(off, RATE);
    for (int b = 1; OctaveBands.centre(b) < 8000; b++) {
      double share =
          wrong.power(b, 20000, from.length - 20000) / wanted.power(b, 20000, from.length - 20000);
      assertThat(share).as("%.0f Hz", OctaveBands.centre(b)).isLessThan(0.003);
    }
  }

  @Test
  void aPathIsKnownWhereSomethingCameAlongIt() {
    double[] from = sum(sweep(1), noise(sweep(1).length, 1e-4, 1));
    double[] to = sum(convolved(sweep(1)), noise(from.length, 1e-4, 2));
    LinearPath path = new LinearPath(from, to, RATE, LinearPath.SWEEP, t -> 1);
    assertThat(path.isKnown(500, 1000)).isTrue();
    assertThat(path.isKnown(4000, 8000)).isFalse();
    Tone tone = ResidueTest.SWEEP.tones().get(0);
    LinearPath low =
        new LinearPath(from, to, RATE, LinearPath.SWEEP, t -> tone.frequency(t) < 300 ? 1 : 0);
    assertThat(low.isKnown(150, 250)).isTrue();
    assertThat(low.isKnown(500, 1000)).isFalse();
  }
}
