package cutaway.acoustics.meter;

import java.util.Arrays;
import java.util.stream.IntStream;

/**
 * Loudness of a programme after ITU-R BS.1770: weighted power in blocks of 0.4 s, gated. The range
 * is that of EBU Tech 3342. It grows as blocks of sound come in and keeps one number for each tenth
 * of a second.
 */
public final class ProgrammeLoudness {
  /** Coefficients at 48 kHz as the recommendation lists them (seen in secondary copies). */
  private static final Biquad HEAD =
      new Biquad(
          1.53512485958697,
          -2.69169618940638,
          1.19839281085285,
          -1.69065929318241,
          0.73248077421585);

  private static final Biquad LOW = new Biquad(1, -2, 1, -1.99004745483398, 0.99007225036621);
  private static final double LISTED = 48000;
  private static final double OFFSET = -0.691;
  private static final double ABSOLUTE_GATE = -70;
  private static final int MOMENTARY = 4;
  private static final int SHORT_TERM = 30;

  /**
   * What the meter shows, in LUFS; −∞ where nothing was loud or long enough.
   *
   * @param integrated of the whole, gated
   * @param range from quiet to loud passages, LU
   * @param momentary loudest 0.4 s
   * @param shortTerm loudest 3 s
   * @param truePeak highest peak between samples, dB over full scale
   */
  public record Reading(
      double integrated, double range, double momentary, double shortTerm, double truePeak) {}

  private final Biquad head;
  private final Biquad low;
  private final double rate;
  private final double[] weight;
  private final double[][] states;
  private final TruePeak[] peaks;
  private double[] tenths = new double[64];
  private int tenthsDone;
  private long samples;
  private double sum;

  /**
   * For sound with so many channels: one or two in front, or five as left, right, centre, left and
   * right surround.
   *
   * @param rate samples per second
   */
  public ProgrammeLoudness(int channels, double rate) {
    this.rate = rate;
    this.head = HEAD.moved(LISTED, rate);
    this.low = LOW.moved(LISTED, rate);
    this.weight = new double[channels];
    this.states = new double[channels][4];
    this.peaks = new TruePeak[channels];
    for (int c = 0; c < channels; c++) {
      weight[c] = channels == 5 && c > 2 ? 1.41 : 1;
      peaks[c] = new TruePeak();
    }
  }

  /** Loudness of a whole, channel × sample. */
  public static Reading of(double[][] channels, double rate) {
    ProgrammeLoudness meter = new ProgrammeLoudness(channels.length, rate);
    meter.add(channels, channels[0].length);
    return meter.read();
  }

  /**
   * Takes in more sound.
   *
   * @param block channel × sample, full scale at 1; left as it is
   * @param n how many samples of it
   */
  public void add(double[][] block, int n) {
    double[] power = new double[n];
    double[] x = new double[n];
    double[] state = new double[2];
    for (int c = 0; c < weight.length; c++) {
      peaks[c].add(block[c], n);
      System.arraycopy(block[c], 0, x, 0, n);
      System.arraycopy(states[c], 0, state, 0, 2);
      head.run(x, n, state);
      System.arraycopy(state, 0, states[c], 0, 2);
      System.arraycopy(states[c], 2, state, 0, 2);
      low.run(x, n, state);
      System.arraycopy(state, 0, states[c], 2, 2);
      for (int i = 0; i < n; i++) {
        power[i] += weight[c] * x[i] * x[i];
      }
    }
    for (int i = 0; i < n; i++) {
      count(power[i]);
    }
  }

  private void count(double power) {
    sum += power;
    samples++;
    if (samples >= Math.rint((tenthsDone + 1) * rate / 10)) {
      if (tenthsDone == tenths.length) {
        tenths = Arrays.copyOf(tenths, 2 * tenthsDone);
      }
      tenths[tenthsDone++] = sum / (rate / 10);
      sum = 0;
    }
  }

  /** What has come in so far. */
  public Reading read() {
    double[] momentary = running(MOMENTARY);
    double[] shortTerm = running(SHORT_TERM);
    double peak = Arrays.stream(peaks).mapToDouble(TruePeak::highest).max().orElse(0);
    return new Reading(
        loudness(gated(momentary, -10)),
        range(shortTerm),
        loudness(Arrays.stream(momentary).max().orElse(0)),
        loudness(Arrays.stream(shortTerm).max().orElse(0)),
        20 * Math.log10(peak));
  }

  /** Mean power over so many tenths of a second, beginning at each. */
  private double[] running(int length) {
    return IntStream.rangeClosed(0, tenthsDone - length)
        .mapToDouble(i -> Arrays.stream(tenths, i, i + length).sum() / length)
        .toArray();
  }

  private static double loudness(double power) {
    return OFFSET + 10 * Math.log10(power);
  }

  /** Those over the absolute gate and no farther under their own mean than the relative one. */
  private static double[] heard(double[] power, double relative) {
    double[] loud = Arrays.stream(power).filter(p -> loudness(p) > ABSOLUTE_GATE).toArray();
    double gate = Arrays.stream(loud).average().orElse(0) * Math.pow(10, relative / 10);
    return Arrays.stream(loud).filter(p -> p > gate).toArray();
  }

  private static double gated(double[] power, double relative) {
    return Arrays.stream(heard(power, relative)).average().orElse(0);
  }

  private static double range(double[] shortTerm) {
    double[] sorted = heard(shortTerm, -20);
    if (sorted.length == 0) {
      return 0;
    }
    Arrays.sort(sorted);
    int last = sorted.length - 1;
    return loudness(sorted[(int) Math.rint(0.95 * last)])
        - loudness(sorted[(int) Math.rint(0.10 * last)]);
  }
}
