package cutaway.acoustics.fault;

import java.util.Arrays;

/**
 * A moment of a driven take, and what is left over then in the band where it stands out most.
 *
 * @param tone which of the tones, counted from 0
 * @param time s
 * @param half of its window, s
 * @param frequency of the tone, Hz
 * @param played peak of the tone as it was played
 * @param band octave band, counted from {@link OctaveBands#LOWEST}
 * @param levels left over in it by microphone, in the take's order, dB SPL; −∞ where it cannot be
 *     judged
 * @param margins over the silent background
 */
@SuppressWarnings("ArrayRecordComponent") // never compared
record Cell(
    int tone,
    double time,
    double half,
    double frequency,
    double played,
    int band,
    double[] levels,
    double[] margins) {
  /** Which microphone hears it loudest, by its place in the take. */
  int loudest() {
    int best = 0;
    for (int m = 1; m < levels.length; m++) {
      if (levels[m] > levels[best]) {
        best = m;
      }
    }
    return best;
  }

  /**
   * What is left over at a microphone, dB SPL, the silent background taken off; of what hardly
   * stands out of it the tenth part is told, as no more is known.
   */
  double level(int microphone) {
    double share = 1 - Math.pow(10, -margins[microphone] / 10);
    return levels[microphone] + 10 * Math.log10(Math.max(0.1, share));
  }

  /** Where it stands out most, dB. */
  double margin() {
    double out = Double.NEGATIVE_INFINITY;
    for (double m : margins) {
      out = Math.max(out, m);
    }
    return out;
  }

  /** The same moment with no more left over than others say, dB over silence. */
  Cell believed(double most) {
    double[] less = Arrays.stream(margins).map(m -> Math.min(m, most)).toArray();
    return new Cell(tone, time, half, frequency, played, band, levels, less);
  }
}
