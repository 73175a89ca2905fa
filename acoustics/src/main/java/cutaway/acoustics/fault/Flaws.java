package cutaway.acoustics.fault;

import cutaway.acoustics.stimulus.Tone;
import java.util.List;
import java.util.Optional;

/**
 * What a recording itself suffers from.
 *
 * @param cutOff longest rest of a microphone next to its highest or lowest value, against the rest
 *     of a sine of the tone's frequency there; absent where no tone is played
 * @param frozen longest run of equal samples of a microphone
 */
record Flaws(Optional<Double> cutOff, int frozen) {
  /** As near to the extreme as this counts as resting there. */
  private static final double NEAR = 0.998;

  /** A sine's rest there, cycles. */
  private static final double SINE = Math.acos(NEAR) / Math.PI;

  static Flaws of(NoiseTake take, List<Tone> tones) {
    double cutOff = -1;
    int frozen = 0;
    for (Sensor s : take.microphones()) {
      double[] x = take.channel(s);
      frozen = Math.max(frozen, frozen(x));
      for (Tone tone : tones) {
        cutOff = Math.max(cutOff, cutOff(x, take.rate(), tone));
      }
    }
    return new Flaws(cutOff < 0 ? Optional.empty() : Optional.of(cutOff), frozen);
  }

  private static int frozen(double[] x) {
    int longest = 1;
    int run = 1;
    for (int i = 1; i < x.length; i++) {
      run = x[i] == x[i - 1] ? run + 1 : 1;
      longest = Math.max(longest, run);
    }
    return longest;
  }

  private static double cutOff(double[] x, double rate, Tone tone) {
    int from = (int) Math.max(0, tone.start() * rate);
    int to = (int) Math.min(x.length, tone.end() * rate);
    double high = 0;
    double low = 0;
    for (double v : x) {
      high = Math.max(high, v);
      low = Math.min(low, v);
    }
    double longest = 0;
    int[] run = new int[2];
    for (int i = from; i < to; i++) {
      run[0] = x[i] > NEAR * high ? run[0] + 1 : 0;
      run[1] = x[i] < NEAR * low ? run[1] + 1 : 0;
      int now = Math.max(run[0], run[1]);
      if (now > 2) {
        longest = Math.max(longest, now / rate * tone.frequency(i / rate) / SINE);
      }
    }
    return longest;
  }
}
