package cutaway.acoustics.fault;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;

/**
 * A tone in a channel that nothing is played to and that is no multiple of the mains: a converter,
 * a clock of a circuit, a supply that switches.
 *
 * @param frequency Hz
 * @param amplitude root mean square, in the unit of the channel; what its wander spreads is counted
 * @param over how far it stands over its neighbourhood, dB
 */
public record StrayTone(double frequency, double amplitude, double over) {
  /**
   * Length of the spectra that are laid over one another, s: a wander of a few Hz stays in a line.
   */
  private static final double LENGTH = 0.35;

  private static final double LOWEST = 150;
  private static final double CLEAR = 12;

  /** Lines to either side that belong to a tone, and how far its neighbourhood reaches. */
  private static final int OWN = 3;

  private static final int AROUND = 14;

  /** A multiple of the mains lies no farther from a line than so many of its widths. */
  private static final double NEAR = 1.5;

  /**
   * Those that stand out for most of the time, the strongest first.
   *
   * @param samples at least two seconds
   * @param rate samples per second
   * @param mains frequency of the mains, Hz; absent where no mains is heard
   */
  public static List<StrayTone> of(double[] samples, double rate, OptionalDouble mains) {
    int n = (int) (LENGTH * rate);
    double[] power = usual(samples, n);
    double spacing = rate / n;
    List<StrayTone> out = new ArrayList<>();
    for (int k = (int) (LOWEST / spacing); k + AROUND < power.length; k++) {
      boolean peak = power[k] >= power[k - 1] && power[k] > power[k + 1];
      boolean hum = mains.isPresent() && isMultiple(k * spacing, mains.getAsDouble(), spacing);
      if (!peak || hum) {
        continue;
      }
      double around = around(power, k);
      double over = 10 * Math.log10(power[k] / around);
      if (over > CLEAR) {
        out.add(new StrayTone(centre(power, k) * spacing, Math.sqrt(sum(power, k, around)), over));
      }
    }
    out.sort(Comparator.comparingDouble(StrayTone::amplitude).reversed());
    return List.copyOf(out);
  }

  private static boolean isMultiple(double frequency, double mains, double spacing) {
    double multiple = Math.rint(frequency / mains) * mains;
    return multiple <= MainsComb.ORDERS * mains + 1
        && Math.abs(frequency - multiple) < NEAR * spacing;
  }

  /**
   * Each line's median over stretches that overlap by half: what sounds now and then is no tone.
   */
  private static double[] usual(double[] samples, int n) {
    int stretches = Math.max(1, 2 * (samples.length / n) - 1);
    double[][] power = new double[n / 2][stretches];
    for (int s = 0; s < stretches; s++) {
      double[] lines = LinePower.of(samples, s * (n / 2), n, n);
      for (int k = 1; k < power.length; k++) {
        power[k][s] = lines[k];
      }
    }
    double[] out = new double[power.length];
    for (int k = 0; k < out.length; k++) {
      Arrays.sort(power[k]);
      out[k] = power[k][stretches / 2];
    }
    return out;
  }

  private static double around(double[] power, int k) {
    double[] beside = new double[2 * (AROUND - OWN)];
    for (int i = 0; i < AROUND - OWN; i++) {
      beside[2 * i] = power[k - OWN - 1 - i];
      beside[2 * i + 1] = power[k + OWN + 1 + i];
    }
    Arrays.sort(beside);
    return beside[beside.length / 2] + 1e-300;
  }

  private static double centre(double[] power, int k) {
    double sum = 0;
    double moment = 0;
    for (int i = k - 1; i <= k + 1; i++) {
      sum += power[i];
      moment += i * power[i];
    }
    return moment / sum;
  }

  /** Mean square of a tone spread over a few lines; a Hann window counts a steady one 1.5 times. */
  private static double sum(double[] power, int k, double around) {
    double out = 0;
    for (int i = k - OWN; i <= k + OWN; i++) {
      out += Math.max(0, power[i] - around / LinePower.MEDIAN);
    }
    return out / 1.5;
  }
}
