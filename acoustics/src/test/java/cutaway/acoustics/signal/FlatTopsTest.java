package cutaway.acoustics.signal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;

/** Known answers: sweeps through stages that clip below full scale, over a broad resonance. */
class FlatTopsTest {
  private static final double RATE = 48000;
  private static final int FRAMES = 6 * (int) RATE;
  private static final double SPAN = 5;
  private static final double L = SPAN / Math.log(15000 / 10.0);

  private static double[] sweep(double peak) {
    double[] x = new double[FRAMES];
    for (int i = 0; i < FRAMES; i++) {
      double t = i / RATE - 0.3;
      double fade = Math.max(0, Math.min(1, Math.min(t / 0.1, (SPAN - t) / 0.02)));
      x[i] = peak * fade * Math.sin(2 * Math.PI * 10 * L * (Math.exp(Math.max(0, t) / L) - 1));
    }
    return x;
  }

  /** Through 0.4 + 0.5 of a resonance at 100 Hz with Q 3, by the bilinear rule. */
  private static double[] resonant(double[] in) {
    double w = 2 * Math.PI * 100;
    double k = 2 * RATE;
    double q = 3;
    double a0 = k * k + k * w / q + w * w;
    double a1 = 2 * (w * w - k * k);
    double a2 = k * k - k * w / q + w * w;
    double[] y = new double[in.length];
    double[] out = new double[in.length];
    for (int n = 0; n < in.length; n++) {
      double x2 = n < 2 ? 0 : in[n - 2];
      double y1 = n < 1 ? 0 : y[n - 1];
      double y2 = n < 2 ? 0 : y[n - 2];
      y[n] = (k * w / q * (in[n] - x2) - a1 * y1 - a2 * y2) / a0;
      out[n] = 0.4 * in[n] + 0.5 * y[n];
    }
    return out;
  }

  private static double[] each(double[] in, DoubleUnaryOperator stage) {
    double[] out = new double[in.length];
    for (int i = 0; i < in.length; i++) {
      out[i] = stage.applyAsDouble(in[i]);
    }
    return out;
  }

  private static DoubleUnaryOperator clip(double at) {
    return x -> Math.max(-at, Math.min(at, x));
  }

  private static Capture capture(double[] first, double[] second) {
    return Capture.of(SoundSource.of(RATE, first, second), new double[] {50}, 20, 10000);
  }

  @Test
  void namesTheInputThatWasOverloadedAndLeavesItsFrequenciesOut() {
    double[] first = sweep(0.5);
    Capture found = capture(first, each(resonant(first), clip(0.4)));
    List<Stretch> flat = found.flattened();
    assertThat(flat).isNotEmpty().allMatch(s -> s.channel() == 2);
    Sweep law = found.sweep().orElseThrow();
    assertThat(law.frequency(flat.get(0).first() / RATE)).isBetween(78.0, 95.0);
    assertThat(law.frequency(flat.get(flat.size() - 1).last() / RATE)).isBetween(105.0, 130.0);
    assertThat(found.dropped()).anyMatch(b -> b.holds(100));
    assertThat(found.check().stretches()).isEmpty();
  }

  @Test
  void tellsAnOverloadedAmplifierFromAnInput() {
    double[] first = each(sweep(0.5), clip(0.47));
    Capture found = capture(first, each(first, x -> 0.6 * x));
    assertThat(found.flattened()).isNotEmpty().allMatch(s -> s.channel() == 0);
    assertThat(found.dropped()).isEmpty();
  }

  /**
   * The current of a drive unit driven far: least at its resonance, and with a tenth of third
   * harmonic there, which flattens its peaks as much as an overload would.
   */
  @Test
  void takesADistortedCurrentForNoOverload() {
    double[] first = sweep(0.5);
    double[] second = new double[FRAMES];
    for (int i = 0; i < FRAMES; i++) {
      double s = first[i] / 0.5;
      double octaves = Math.abs(Math.log(10 * Math.exp((i / RATE - 0.3) / L) / 100) / Math.log(2));
      // within half an octave of 100 Hz a fifth is left, with a tenth of sin 3θ = 3s − 4s³
      double depth = Math.max(0, Math.min(1, 2 - 2 * octaves));
      second[i] = 0.4 * ((1 - 0.8 * depth) * s + 0.02 * depth * (3 * s - 4 * s * s * s));
    }
    assertThat(capture(first, second).flattened()).isEmpty();
  }

  @Test
  void leavesSinesAloneHowCoarseOrNoisyTheyMayBe() {
    for (double peak : new double[] {0.999, 0.3, 0.035}) {
      double[] first = each(sweep(peak), x -> Math.rint(x * 32767) / 32768);
      assertThat(
              capture(first, each(resonant(first), x -> Math.rint(x * 32767) / 32768)).flattened())
          .isEmpty();
      java.util.Random random = new java.util.Random(5);
      double[] noisy = each(sweep(peak), x -> x + 1e-3 * peak * random.nextGaussian());
      assertThat(capture(noisy, resonant(noisy)).flattened()).isEmpty();
    }
  }
}
