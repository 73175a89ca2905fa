package cutaway.acoustics.signal;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** Known answers: a recording too long to be transformed whole, through an exact digital filter. */
class LongCaptureTest {
  private static final double RATE = 48000;
  private static final int FRAMES = 3_300_000;
  private static final double F0 = 40;
  private static final double Q = 8;

  /** A slow sweep, and the same through 0.5 + 0.4 of a resonance by the bilinear rule. */
  private static final class SlowSweep implements SoundSource {
    @Override
    public double rate() {
      return RATE;
    }

    @Override
    public long frames() {
      return FRAMES;
    }

    @Override
    public int channels() {
      return 2;
    }

    @Override
    public void stream(Sink sink) {
      double t = (FRAMES - 96000) / RATE;
      double l = t / Math.log(15000 / 5.0);
      double w = 2 * Math.PI * F0;
      double k = 2 * RATE;
      double a0 = k * k + k * w / Q + w * w;
      double a1 = 2 * (w * w - k * k);
      double a2 = k * k - k * w / Q + w * w;
      double b0 = k * w / Q;
      double x1 = 0;
      double x2 = 0;
      double y1 = 0;
      double y2 = 0;
      double[] first = new double[4096];
      double[] second = new double[4096];
      int filled = 0;
      for (int n = 0; n < FRAMES; n++) {
        double s = n / RATE;
        double fade = Math.min(1, Math.min(s / 0.1, Math.max(0, t - s) / 0.1));
        double x = 0.5 * fade * Math.sin(2 * Math.PI * 5 * l * (Math.exp(s / l) - 1));
        double y = (b0 * (x - x2) - a1 * y1 - a2 * y2) / a0;
        x2 = x1;
        x1 = x;
        y2 = y1;
        y1 = y;
        first[filled] = x;
        second[filled++] = 0.5 * x + 0.4 * y;
        if (filled == first.length) {
          sink.accept(new double[][] {first, second}, filled);
          filled = 0;
        }
      }
      sink.accept(new double[][] {first, second}, filled);
    }
  }

  /**
   * Windows of a quarter of the length would be off by 2 % at the resonance, for the cubic then
   * spans half of it, and windows that overlap by half by 0.5 % round it.
   */
  @Test
  void weighsTheRingingOfAResonanceAsWhatExcitesIt() {
    Transfer h = Capture.of(new SlowSweep(), new double[] {50}, 10, 5000).transfer();
    int near = 0;
    for (int i = 0; i < h.size(); i++) {
      double u = RATE / Math.PI / F0 * Math.tan(Math.PI * h.frequency(i) / RATE);
      double detuning = Q * (u - 1 / u);
      double inv = 0.4 / (1 + detuning * detuning);
      double error = Math.hypot(h.re(i) - 0.5 - inv, h.im(i) + detuning * inv);
      near += Math.abs(detuning) < 3 ? 1 : 0;
      assertThat(error / Math.hypot(0.5 + inv, detuning * inv))
          .as("at %f Hz", h.frequency(i))
          .isLessThan(1e-3);
    }
    assertThat(near).isGreaterThan(10);
  }
}
