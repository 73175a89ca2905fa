package cutaway.benchmarks.population;

import java.util.Random;

/** Noise whose strength follows an envelope, coloured by a wide hump and perhaps a pipe. */
final class Turbulence {
  private Turbulence() {}

  /**
   * Makes it.
   *
   * @param peak of the hump, Hz
   * @param pipe resonance that colours it too, Hz; 0 for none
   */
  static double[] of(double[] envelope, double peak, double pipe, long seed) {
    Random r = new Random(seed);
    double[] out = new double[envelope.length];
    double[] hump = new double[2];
    double[] tube = new double[2];
    for (int n = 0; n < out.length; n++) {
      double noise = envelope[n] == 0 ? 0 : envelope[n] * r.nextGaussian();
      out[n] = band(noise, peak, 0.7, hump) + (pipe > 0 ? band(noise, pipe, 8, tube) : 0);
    }
    return out;
  }

  /** Band-pass with so sharp a peak. */
  static double band(double x, double frequency, double q, double[] state) {
    double w = 2 * Math.PI * frequency;
    double a = x + Structure.AWAKE - w / q * state[1] - w * w * state[0];
    state[1] += a * Motion.STEP;
    state[0] += state[1] * Motion.STEP;
    return state[1] * w;
  }
}
