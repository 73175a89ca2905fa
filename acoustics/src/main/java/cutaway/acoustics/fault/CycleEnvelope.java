package cutaway.acoustics.fault;

import cutaway.acoustics.stimulus.Tone;

/**
 * How the power of what is left over goes round with the cycle of the tone.
 *
 * @param once share of it that comes and goes once a cycle, 0 to 1
 * @param oncePhase where in the cycle that is strongest, cycles
 * @param twice share that comes and goes twice
 * @param twicePhase where the first of both is, cycles
 * @param peakedness fourth moment over the squared second: 3 for noise, more for strikes
 */
record CycleEnvelope(
    double once, double oncePhase, double twice, double twicePhase, double peakedness) {
  /** Of a sine, fourth moment over squared second; its envelope has 1. */
  private static final double CARRIER = 1.5;

  /**
   * Over whole cycles about a moment.
   *
   * @param power of a band, at steps
   * @param rate steps per second
   * @param start time of the first, s
   * @param half about how long to either side, s
   */
  static CycleEnvelope of(
      double[] power, double rate, double start, Tone tone, double time, double half) {
    double[] re = new double[3];
    double[] im = new double[3];
    double fourth = 0;
    double weights = 0;
    for (int i = 0; i < power.length; i++) {
      double t = start + i / rate;
      double w = 1 + Math.cos(Math.PI * (t - time) / half);
      double angle = 2 * Math.PI * tone.cycles(t);
      weights += w;
      fourth += w * power[i] * power[i];
      for (int h = 0; h < 3; h++) {
        re[h] += w * power[i] * Math.cos(h * angle);
        im[h] += w * power[i] * Math.sin(h * angle);
      }
    }
    double all = Math.max(1e-300, re[0]);
    return new CycleEnvelope(
        Math.hypot(re[1], im[1]) / all,
        turn(Math.atan2(im[1], re[1]) / (2 * Math.PI)),
        Math.hypot(re[2], im[2]) / all,
        turn(Math.atan2(im[2], re[2]) / (2 * Math.PI)) / 2,
        CARRIER * fourth * weights / (all * all));
  }

  private static double turn(double cycles) {
    return cycles - Math.floor(cycles);
  }
}
