package cutaway.acoustics.fault;

import cutaway.acoustics.signal.CrossSpectrum;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;

/**
 * Multiples of the mains in a channel that nothing is played to.
 *
 * @param frequency of the mains as found, Hz
 * @param amplitude root mean square of each order, from 1, in the unit of the channel
 * @param over how far each stands over its neighbourhood, dB
 */
@SuppressWarnings("ArrayRecordComponent") // never compared
public record MainsComb(double frequency, double[] amplitude, double[] over) {
  /** Orders that are looked for. */
  public static final int ORDERS = 40;

  /** An order is heard when it stands so far over its neighbourhood, dB: noise hardly ever does. */
  public static final double CLEAR = 13;

  /** Orders of which one alone may be all that is heard. */
  private static final int LOWEST = 3;

  /** Mains frequency may be off by so much, relative (EN 50160 allows 1 %, from memory). */
  private static final double OFF = 0.01;

  private static final double[] NOMINAL = {50, 60};

  /** About a line, Hz: what belongs to it, and how far its neighbourhood reaches. */
  private static final double OWN = 1.2;

  private static final double AROUND = 9;

  /**
   * Looks for it in one channel.
   *
   * @param samples at least two seconds
   * @param rate samples per second
   * @param known mains frequency to within 1 %, Hz; both usual ones are tried where it is not known
   */
  public static MainsComb of(double[] samples, double rate, OptionalDouble known) {
    return of(List.of(samples), rate, known).get(0);
  }

  /**
   * Looks for it in channels recorded at once, which have one mains frequency.
   *
   * @param channels samples of each, all as long
   * @param rate samples per second
   * @param known mains frequency to within 1 %, Hz; both usual ones are tried where it is not known
   * @return of each channel
   */
  public static List<MainsComb> of(List<double[]> channels, double rate, OptionalDouble known) {
    if (channels.isEmpty() || channels.get(0).length < 2 * rate) {
      throw new IllegalArgumentException("hum is told from two seconds of silence, no less");
    }
    List<Spectrum> spectra = channels.stream().map(x -> Spectrum.of(x, rate)).toList();
    double best = known.orElse(NOMINAL[0]);
    double highest = Double.NEGATIVE_INFINITY;
    for (double nominal : known.isPresent() ? new double[] {known.getAsDouble()} : NOMINAL) {
      List<double[]> around = spectra.stream().map(s -> s.around(nominal)).toList();
      double step = spectra.get(0).spacing / 20;
      for (double f = nominal * (1 - OFF); f <= nominal * (1 + OFF); f += step) {
        double score = 0;
        for (int c = 0; c < spectra.size(); c++) {
          score += spectra.get(c).score(f, around.get(c));
        }
        if (score > highest) {
          highest = score;
          best = f;
        }
      }
    }
    double mains = refined(spectra, best);
    return spectra.stream().map(s -> s.comb(mains)).toList();
  }

  /** By the peaks of the orders that stand out, the higher the finer. */
  private static double refined(List<Spectrum> spectra, double frequency) {
    double[] sums = new double[2];
    for (Spectrum spectrum : spectra) {
      spectrum.addPeaks(frequency, sums);
    }
    return sums[1] > 0 ? sums[0] / sums[1] : frequency;
  }

  /**
   * Whether it is to be believed: two orders or more are clear, or one of the lowest; a lone high
   * line is some other tone to which the frequency was bent.
   */
  public boolean isBelieved() {
    return clear(1, ORDERS) > 1 || clear(1, LOWEST) > 0;
  }

  /** How many orders stand out clearly between two, both counted. */
  public int clear(int from, int to) {
    int out = 0;
    for (int k = from; k <= to; k++) {
      out += over[k - 1] > CLEAR ? 1 : 0;
    }
    return out;
  }

  /** Mean square in the orders from one on in steps, those that are clear. */
  public double power(int from, int step) {
    double sum = 0;
    for (int k = from; k <= ORDERS; k += step) {
      sum += over[k - 1] > CLEAR ? amplitude[k - 1] * amplitude[k - 1] : 0;
    }
    return sum;
  }

  /** Power of a tone that each line would stand for, under a Hann window over the whole. */
  private record Spectrum(double spacing, double[] power) {
    static Spectrum of(double[] samples, double rate) {
      // twice as long as it must be, so that a line between two of the grid loses little
      int size = 2 * CrossSpectrum.roomyLength(samples.length);
      return new Spectrum(rate / size, LinePower.of(samples, 0, samples.length, size));
    }

    MainsComb comb(double mains) {
      double[] around = around(mains);
      double[] amplitude = new double[ORDERS];
      double[] over = new double[ORDERS];
      for (int k = 0; k < ORDERS; k++) {
        double power = at((k + 1) * mains);
        amplitude[k] = Math.sqrt(power);
        over[k] = 10 * Math.log10(power / around[k]);
      }
      return new MainsComb(mains, amplitude, over);
    }

    /** Of the higher of the two lines next to a frequency. */
    double at(double frequency) {
      int below = (int) Math.floor(frequency / spacing);
      return Math.max(power[below], power[below + 1]) + 1e-300;
    }

    /** Adds what each clear order's peak says of the mains, weighted by k², and the weights. */
    void addPeaks(double frequency, double[] sums) {
      double[] around = around(frequency);
      for (int k = 1; k <= ORDERS; k++) {
        int top = (int) Math.rint(k * frequency / spacing);
        for (int i = top - 2; i <= top + 2; i++) {
          top = power[i] > power[top] ? i : top;
        }
        if (10 * Math.log10(power[top] / around[k - 1]) > CLEAR) {
          double before = Math.log(power[top - 1]);
          double after = Math.log(power[top + 1]);
          double bend = before - 2 * Math.log(power[top]) + after;
          double peak = top + (bend < 0 ? 0.5 * (before - after) / bend : 0);
          double weight = (double) k * k;
          sums[0] += weight * peak * spacing / k;
          sums[1] += weight;
        }
      }
    }

    /** Of noise about each order. */
    double[] around(double frequency) {
      double[] out = new double[ORDERS];
      int reach = (int) (AROUND / spacing);
      int own = (int) (OWN / spacing);
      for (int k = 0; k < ORDERS; k++) {
        int centre = (int) Math.rint((k + 1) * frequency / spacing);
        double[] beside = new double[2 * (reach - own)];
        for (int i = 0; i < reach - own; i++) {
          beside[2 * i] = power[centre - own - 1 - i];
          beside[2 * i + 1] = power[centre + own + 1 + i];
        }
        Arrays.sort(beside);
        out[k] = beside[beside.length / 2] / LinePower.MEDIAN + 1e-300;
      }
      return out;
    }

    /** How well a comb of this frequency fits. */
    double score(double frequency, double[] around) {
      double sum = 0;
      for (int k = 0; k < ORDERS; k++) {
        sum += Math.log1p(at((k + 1) * frequency) / around[k]);
      }
      return sum;
    }
  }
}
