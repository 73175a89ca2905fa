package cutaway.acoustics.signal;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.jtransforms.fft.DoubleFFT_1D;

/**
 * The law by which a swept tone runs, read from the recording itself: ln f or f linear in time.
 *
 * @param logarithmic whether ln f, rather than f, is linear in time
 * @param intercept ln(f/Hz), or f in Hz, at time 0
 * @param slope its change for each second
 * @param start when the sweep is first heard, s
 * @param end when it is last heard, s
 */
public record Sweep(boolean logarithmic, double intercept, double slope, double start, double end) {
  private static final int FRAME = 4096;

  /** Frequency at a time in seconds, Hz. */
  public double frequency(double time) {
    double x = intercept + slope * time;
    return logarithmic ? Math.exp(x) : x;
  }

  /** Time at which a frequency in Hz is passed, s. */
  public double time(double frequency) {
    return ((logarithmic ? Math.log(frequency) : frequency) - intercept) / slope;
  }

  private record Tone(double time, double frequency, double purity, double power) {}

  /**
   * Recognises a sweep in a channel.
   *
   * @param x samples, with or without room after them
   * @param frames how many samples there are
   * @param rate samples per second
   * @return the law, absent where the signal is no rising swept tone
   */
  public static Optional<Sweep> of(double[] x, int frames, double rate) {
    List<Tone> tones = tones(x, frames, rate);
    double loudest = tones.stream().mapToDouble(Tone::power).max().orElse(0);
    List<Tone> clear =
        tones.stream()
            .filter(t -> t.power() > 1e-4 * loudest && t.frequency() > 8 * rate / FRAME)
            .toList();
    long pure = clear.stream().filter(t -> t.purity() > 0.7).count();
    if (clear.size() < 6 || pure < 0.7 * clear.size()) {
      return Optional.empty();
    }
    List<Tone> used = clear.stream().filter(t -> t.purity() > 0.7).toList();
    double[] log = line(used, true);
    double[] lin = line(used, false);
    boolean logarithmic = log[2] <= lin[2];
    double[] best = logarithmic ? log : lin;
    if (best[2] > 0.05 || best[1] <= 0) {
      return Optional.empty();
    }
    double hop = FRAME / (2 * rate);
    List<Tone> heard = tones.stream().filter(t -> t.power() > 1e-5 * loudest).toList();
    double start = heard.get(0).time() - hop;
    double end = heard.get(heard.size() - 1).time() + hop;
    return Optional.of(
        new Sweep(logarithmic, best[0], best[1], Math.max(0, start), Math.min(end, frames / rate)));
  }

  private static List<Tone> tones(double[] x, int frames, double rate) {
    DoubleFFT_1D fft = new DoubleFFT_1D(FRAME);
    double[] window = CrossSpectrum.hann(FRAME);
    int hop = FRAME;
    return IntStream.range(0, frames < FRAME ? 0 : (frames - FRAME) / hop + 1)
        .parallel()
        .mapToObj(
            n -> {
              double[] frame = new double[FRAME];
              for (int i = 0; i < FRAME; i++) {
                frame[i] = x[n * hop + i] * window[i];
              }
              fft.realForward(frame);
              return tone(frame, (n * hop + FRAME / 2.0) / rate, rate);
            })
        .toList();
  }

  private static Tone tone(double[] spectrum, double time, double rate) {
    int best = 1;
    double most = power(spectrum, 1);
    double total = 0;
    for (int k = 2; k < FRAME / 2; k++) {
      double p = power(spectrum, k);
      total += p;
      if (p > most) {
        most = p;
        best = k;
      }
    }
    double near = 0;
    double moment = 0;
    int reach = Math.max(4, best / 6);
    for (int k = Math.max(1, best - reach); k <= Math.min(FRAME / 2 - 1, best + reach); k++) {
      double p = power(spectrum, k);
      near += p;
      moment += k * p;
    }
    return new Tone(
        time, near > 0 ? moment / near * rate / FRAME : 0, total > 0 ? near / total : 0, total);
  }

  private static double power(double[] spectrum, int k) {
    return spectrum[2 * k] * spectrum[2 * k] + spectrum[2 * k + 1] * spectrum[2 * k + 1];
  }

  /** Robust line through y against time: intercept, slope, median relative frequency error. */
  private static double[] line(List<Tone> tones, boolean logarithmic) {
    List<Tone> used = tones;
    double[] fit = {0, 0, Double.POSITIVE_INFINITY};
    for (int pass = 0; pass < 4; pass++) {
      double a = regress(used, logarithmic, fit);
      double b = fit[1];
      List<Tone> ordered =
          tones.stream()
              .sorted(Comparator.comparingDouble(t -> error(t, a, b, logarithmic)))
              .toList();
      fit[0] = a;
      fit[2] = error(ordered.get(ordered.size() / 2), a, b, logarithmic);
      used = ordered.subList(0, Math.max(4, ordered.size() * 3 / 4));
    }
    return fit;
  }

  private static double error(Tone t, double a, double b, boolean logarithmic) {
    double x = a + b * t.time();
    double f = logarithmic ? Math.exp(x) : x;
    return Math.abs(f / t.frequency() - 1);
  }

  /** Returns the intercept, writes the slope to fit[1]. */
  private static double regress(List<Tone> tones, boolean logarithmic, double[] fit) {
    double st = 0;
    double sy = 0;
    double stt = 0;
    double sty = 0;
    for (Tone tone : tones) {
      double y = logarithmic ? Math.log(tone.frequency()) : tone.frequency();
      st += tone.time();
      sy += y;
      stt += tone.time() * tone.time();
      sty += tone.time() * y;
    }
    int n = tones.size();
    fit[1] = (n * sty - st * sy) / (n * stt - st * st);
    return (sy - fit[1] * st) / n;
  }
}
