package cutaway.bench.exam;

import java.util.Arrays;

/**
 * What is left open in the standing waves of a room, beside how far its loss or its lining is
 * known: docs/methods/cavity.md.
 *
 * @param meeting whether linings of several walls meet
 */
record WaveUncertainty(boolean meeting) {
  /** What waves followed into a lining may be off in frequency, as a share. */
  private static final double LINED = 0.01;

  /** The same in Q. */
  private static final double LINED_Q = 0.1;

  /** Where linings meet, a wave may be off by this over Q², and its Q by the other. */
  private static final double MEETING = 0.2;

  private static final double MEETING_Q = 0.4;

  /** Rigid walls and a place known to a centimetre leave this open in a ripple, dB; judgement. */
  private static final double MODEL = 0.5;

  /**
   * Of a room.
   *
   * @param thickness of the lining on each wall, m
   */
  static WaveUncertainty of(double[] thickness) {
    return new WaveUncertainty(Arrays.stream(thickness).filter(t -> t > 0).count() > 1);
  }

  /** Of a frequency, as a share. */
  double frequency(double q) {
    return meeting ? Math.hypot(LINED, MEETING / (q * q)) : LINED;
  }

  /**
   * Of a Q.
   *
   * @param half how far Q lies off in the states with less and more loss
   */
  double q(double q, double half) {
    return Math.max(half, meeting ? Math.hypot(LINED_Q * q, MEETING_Q) : LINED_Q * q);
  }

  /**
   * Of a change of the output, dB.
   *
   * @param half how far it lies off in the states with less and more loss
   */
  double ripple(double half) {
    return Math.hypot(MODEL, half);
  }
}
