package cutaway.acoustics.stimulus;

import java.util.List;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;

/** Recordings of tones whose content is known exactly, sample by sample from a formula. */
public final class Recorded {
  public static final double RATE = 48000;

  private Recorded() {}

  /**
   * What a second-order high-pass of Q 0.8 does to a steady sine, and the same with a late echo.
   */
  static double[] response(double frequency, double resonance, double echo) {
    double x = frequency / resonance;
    double re = 1 - x * x;
    double im = x / 0.8;
    double size = -x * x / (re * re + im * im);
    double a = size * re;
    double b = -size * im;
    double turn = 2 * Math.PI * frequency * 0.004;
    return new double[] {
      a + echo * (a * Math.cos(turn) + b * Math.sin(turn)),
      b + echo * (b * Math.cos(turn) - a * Math.sin(turn))
    };
  }

  /**
   * A sweep or tones through a loudspeaker with harmonics.
   *
   * @param levels of the orders 1, 2, …, as amplitude
   * @param extra whatever else there is at a time in seconds
   */
  public static double[] of(
      List<Tone> tones,
      double seconds,
      double[] levels,
      double echo,
      double noise,
      DoubleUnaryOperator extra) {
    Random random = new Random(4);
    double[] out = new double[(int) (seconds * RATE)];
    for (int i = 0; i < out.length; i++) {
      out[i] = noise * random.nextGaussian() + extra.applyAsDouble(i / RATE);
    }
    for (Tone tone : tones) {
      for (int i = (int) Math.ceil(tone.start() * RATE); i < tone.end() * RATE; i++) {
        double t = i / RATE;
        double edge = Math.min(1, Math.min(t - tone.start(), tone.end() - t) / 0.02);
        double angle = 2 * Math.PI * tone.cycles(t);
        for (int h = 1; h <= levels.length; h++) {
          double[] r = response(h * tone.frequency(t), 45, echo);
          out[i] +=
              tone.amplitude()
                  * edge
                  * levels[h - 1]
                  * (r[0] * Math.sin(h * angle) + r[1] * Math.cos(h * angle));
        }
      }
    }
    return out;
  }
}
