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
  /**
   * Over whole cycles about a moment.
   *
   * @param x samples of a band
   * @param rate samples per second
   * @param half about how long to either side, s
   */
  static CycleEnvelope of(double[] x, double rate, Tone tone, double time, double half) {
    double[] re = new double[3];
    double[] im = new double[3];
    double fourth = 0;
    double weights = 0;
    int first = (int) Math.max(0, Math.ceil((time - half) * rate));
    int last = (int) Math.min(x.length - 1.0, Math.floor((time + half) * rate));
    for (int i = first; i <= last; i++) {
      double t = i / rate;
      double w = 1 + Math.cos(Math.PI * (t - time) / half);
      double power = w * x[i] * x[i];
      double angle = 2 * Math.PI * tone.cycles(t);
      weights += w;
      fourth += power * x[i] * x[i];
      for (int h = 0; h < 3; h++) {
        re[h] += power * Math.cos(h * angle);
        im[h] += power * Math.sin(h * angle);
      }
    }
    double all = Math.max(1e-300, re[0]);
    return new CycleEnvelope(
        Math.hypot(re[1], im[1]) / all,
        turn(Math.atan2(im[1], re[1]) / (2 * Math.PI)),
        Math.hypot(re[2], im[2]) / all,
        turn(Math.atan2(im[2], re[2]) / (2 * Math.PI)) / 2,
        fourth * weights / (all * all));
  }

  private static double turn(double cycles) {
    return cycles - Math.floor(cycles);
  }
}
