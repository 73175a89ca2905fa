package cutaway.acoustics.signal;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * A two-channel recording turned into the transfer function from channel 1 to channel 2.
 *
 * <p>A swept recording that fits in memory is transformed whole, so that nothing of a resonance's
 * ringing is cut off; hum is taken out first, and bad stretches are faded out of both channels, the
 * frequencies that passed meanwhile being dropped. Anything longer, and noise, is averaged over
 * Hann-windowed segments, those with bad samples left out.
 */
public final class Capture {
  /** Recordings up to this many samples are transformed whole, 64 MiB for both channels. */
  private static final int WHOLE = 3 << 20;

  /** 80 MiB for both channels, their spectra and the transform. */
  private static final int LONGEST_SEGMENT = 1 << 20;

  /**
   * How many bins and segments count as one: 1.5 neighbouring bins under a Hann window, and 1.92
   * segments that overlap by three quarters (P. D. Welch, IEEE Trans. Audio Electroacoust. 15
   * (1967), from memory: 1 + 2 Σ ρ², with ρ = 0.659 and 0.167).
   */
  private static final double ALIKE = 1.5 * 1.92;

  /** Room above the highest frequency for the polynomial about it. */
  private static final double SPARE = 1.05;

  private static final double LEAST_FADE = 0.012;

  /** How long a drive unit rings after a gap, s. */
  private static final double RINGING = 0.1;

  private final CaptureCheck check;
  private final Optional<Sweep> sweep;
  private final Optional<Hum> hum;
  private final Transfer transfer;
  private final List<Stretch> flattened;
  private final List<Band> dropped;
  private final boolean cutShort;

  /**
   * A range of frequencies.
   *
   * @param low Hz
   * @param high Hz
   */
  public record Band(double low, double high) {
    /**
     * A relative uncertainty for what leaks out of a dropped band: 2 % at its edge, falling by e
     * with every sixth of an octave (bound on simulated captures with known answers).
     */
    public double leakage(double f) {
      double octaves = f < low ? Math.log(low / f) : f > high ? Math.log(f / high) : 0;
      return 0.02 * Math.exp(-6 * octaves / Math.log(2));
    }

    /** Whether f lies within. */
    public boolean holds(double f) {
      return f >= low && f <= high;
    }
  }

  private Capture(
      CaptureCheck check,
      Optional<Sweep> sweep,
      Optional<Hum> hum,
      Transfer transfer,
      List<Stretch> flattened,
      List<Band> dropped,
      boolean cutShort) {
    this.check = check;
    this.sweep = sweep;
    this.hum = hum;
    this.transfer = transfer;
    this.flattened = flattened;
    this.dropped = dropped;
    this.cutShort = cutShort;
  }

  /**
   * Reads a capture.
   *
   * @param source the samples
   * @param mains frequencies the mains may have, Hz
   * @param low lowest frequency wanted, Hz
   * @param high highest frequency wanted, Hz; held below 0.46 of the sample rate
   */
  public static Capture of(SoundSource source, double[] mains, double low, double high) {
    double top = Math.min(high, 0.46 * source.rate());
    Optional<Samples> whole =
        source.frames() <= WHOLE ? Optional.of(Samples.of(source)) : Optional.empty();
    CaptureCheck check = CaptureCheck.of(whole.<SoundSource>map(s -> s).orElse(source));
    if (whole.isPresent()) {
      Samples samples = whole.get();
      samples.shift(-check.offset(1), -check.offset(2));
      Optional<Sweep> sweep = Sweep.of(samples.first, samples.frames, source.rate());
      if (sweep.isPresent()) {
        return swept(samples, sweep.get(), check, mains, low, top);
      }
    }
    return averaged(source, check, mains, low, top);
  }

  /** Both channels in memory. */
  private static final class Samples implements SoundSource {
    private final double rate;
    private final int frames;

    /** The samples and, after them, zeros up to a length that is transformed fast. */
    private final double[] first;

    private final double[] second;
    private int at;

    private Samples(double rate, int frames) {
      this.rate = rate;
      this.frames = frames;
      int room = CrossSpectrum.roomyLength(frames);
      this.first = new double[room];
      this.second = new double[room];
    }

    static Samples of(SoundSource source) {
      Samples out = new Samples(source.rate(), (int) source.frames());
      source.stream(
          (block, count) -> {
            System.arraycopy(block[0], 0, out.first, out.at, count);
            System.arraycopy(block[1], 0, out.second, out.at, count);
            out.at += count;
          });
      return out;
    }

    @Override
    public double rate() {
      return rate;
    }

    @Override
    public long frames() {
      return frames;
    }

    @Override
    public int channels() {
      return 2;
    }

    @Override
    public void stream(Sink sink) {
      sink.accept(new double[][] {first, second}, frames);
    }

    void shift(double a, double b) {
      for (int i = 0; i < frames; i++) {
        first[i] += a;
        second[i] += b;
      }
    }

    /** Fades a stretch out over one time and back in over another, s. */
    void fadeOut(long from, long to, double before, double after) {
      double rampIn = before * rate;
      double rampOut = after * rate;
      int begin = (int) Math.max(0, (double) from - rampIn);
      int end = (int) Math.min(frames - 1.0, (double) to + rampOut);
      for (int i = begin; i <= end; i++) {
        double outside = i < from ? (double) (from - i) / rampIn : (double) (i - to) / rampOut;
        double w = outside <= 0 ? 0 : 0.5 * (1 - Math.cos(Math.PI * Math.min(1, outside)));
        first[i] *= w;
        second[i] *= w;
      }
    }
  }

  private static Capture swept(
      Samples samples, Sweep sweep, CaptureCheck check, double[] mains, double low, double high) {
    List<Stretch> flattened =
        FlatTops.of(samples.first, samples.second, samples.frames, samples.rate, sweep);
    List<Optional<Hum>> hums =
        List.of(samples.second, samples.first).parallelStream()
            .map(x -> withoutHum(x, samples, sweep, mains))
            .toList();
    Optional<Hum> hum = Hum.joined(hums.get(0), hums.get(1));
    int frames = samples.frames;
    boolean cutShort = loudAtEnd(samples);
    List<Band> dropped = new ArrayList<>();
    for (Stretch bad : spoilt(check.stretches(), flattened)) {
      double begin = (double) bad.first() / samples.rate;
      double end = (double) bad.last() / samples.rate;
      double before = fade(sweep.frequency(begin));
      double after = fade(sweep.frequency(end));
      samples.fadeOut(bad.first(), bad.last(), before, after);
      dropped.add(
          new Band(
              sweep.frequency(begin - 2 * before - 0.02),
              sweep.frequency(end + 1.2 * after + RINGING)));
    }
    if (cutShort) {
      samples.fadeOut(frames - 1L, frames, LEAST_FADE, LEAST_FADE);
    }
    int length = samples.first.length;
    CrossSpectrum spectrum = new CrossSpectrum(length, samples.rate, SPARE * high);
    spectrum.add(samples.first, samples.second);
    double from = Math.max(low, sweep.frequency(sweep.start()) * 1.05);
    double to = Math.min(high, sweep.frequency(sweep.end()) / (cutShort ? 1.15 : 1.02));
    // the zeros that fill up the length make neighbouring bins alike
    Transfer transfer = Transfer.of(spectrum, from, to, (double) length / frames);
    return new Capture(
        check, Optional.of(sweep), hum, transfer.trimmed(), flattened, merged(dropped), cutShort);
  }

  /** Where both channels are flattened it was the amplifier, and their ratio still holds. */
  private static List<Stretch> spoilt(List<Stretch> found, List<Stretch> flattened) {
    List<Stretch> out = new ArrayList<>(found);
    flattened.stream().filter(s -> s.channel() != 0).forEach(out::add);
    return out;
  }

  private static Optional<Hum> withoutHum(
      double[] x, Samples samples, Sweep sweep, double[] mains) {
    Optional<Hum> hum = Hum.of(x, samples.frames, samples.rate, sweep, mains);
    hum.ifPresent(h -> h.subtractFrom(x, samples.frames, samples.rate));
    return hum;
  }

  private static boolean loudAtEnd(Samples samples) {
    int n = samples.frames;
    int tail = Math.max(1, (int) (0.02 * samples.rate));
    double end = 0;
    double all = 0;
    for (int i = 0; i < n; i++) {
      double square = samples.first[i] * samples.first[i];
      all += square;
      if (i >= n - tail) {
        end += square;
      }
    }
    return end / tail > 0.05 * all / n;
  }

  /** A few periods, so that what fades spreads no further than its neighbours in frequency. */
  private static double fade(double frequency) {
    return Math.max(LEAST_FADE, 4 / Math.max(frequency, 1));
  }

  private static List<Band> merged(List<Band> bands) {
    List<Band> out = new ArrayList<>();
    bands.sort((a, b) -> Double.compare(a.low(), b.low()));
    for (Band band : bands) {
      int last = out.size() - 1;
      if (last >= 0 && band.low() <= out.get(last).high()) {
        double high = Math.max(band.high(), out.get(last).high());
        out.set(last, new Band(out.get(last).low(), high));
      } else {
        out.add(band);
      }
    }
    return List.copyOf(out);
  }

  private static Capture averaged(
      SoundSource source, CaptureCheck check, double[] mains, double low, double high) {
    int length = segmentLength(source.frames(), source.rate());
    Segments segments = new Segments(length, source.rate(), check);
    source.stream((block, count) -> segments.accept(block[0], block[1], count));
    Optional<Hum> hum = HumLines.takeOut(segments.spectrum, mains);
    Transfer transfer = Transfer.of(segments.spectrum, low, high, ALIKE);
    return new Capture(
        check, Optional.empty(), hum, transfer.trimmed(), List.of(), List.of(), false);
  }

  /**
   * Some ten seconds, so that the polynomial spans little of a sharp resonance, but at least a
   * dozen segments where there is room.
   */
  private static int segmentLength(long frames, double rate) {
    double wanted = Math.min(Math.min(12 * rate, LONGEST_SEGMENT), frames / 4.0);
    return Math.max(1024, Integer.highestOneBit((int) Math.max(1024, wanted)));
  }

  /**
   * Cuts a stream into Hann windows that overlap by three quarters. The squares of such windows add
   * up to a constant: where a sweep passes does not matter then, while with half of an overlap the
   * ringing of a resonance would be weighed more or less than what excites it.
   */
  private static final class Segments {
    private final CrossSpectrum spectrum;
    private final CaptureCheck check;
    private final int length;
    private final double[] window;
    private final double[] first;
    private final double[] second;
    private final double[] a;
    private final double[] b;
    private int filled;
    private long begin;

    Segments(int length, double rate, CaptureCheck check) {
      this.length = length;
      this.check = check;
      this.spectrum = new CrossSpectrum(length, rate, rate / 2);
      this.window = CrossSpectrum.hann(length);
      this.first = new double[length];
      this.second = new double[length];
      this.a = new double[length];
      this.b = new double[length];
    }

    void accept(double[] x, double[] y, int count) {
      int used = 0;
      while (used < count) {
        int n = Math.min(count - used, length - filled);
        System.arraycopy(x, used, first, filled, n);
        System.arraycopy(y, used, second, filled, n);
        filled += n;
        used += n;
        if (filled == length) {
          flush();
        }
      }
    }

    private void flush() {
      long end = begin + length - 1;
      boolean bad = check.stretches().stream().anyMatch(s -> s.first() <= end && s.last() >= begin);
      if (!bad) {
        double meanA = check.offset(1);
        double meanB = check.offset(2);
        for (int i = 0; i < length; i++) {
          a[i] = (first[i] - meanA) * window[i];
          b[i] = (second[i] - meanB) * window[i];
        }
        spectrum.add(a, b);
      }
      int hop = length / 4;
      filled = length - hop;
      System.arraycopy(first, hop, first, 0, filled);
      System.arraycopy(second, hop, second, 0, filled);
      begin += hop;
    }
  }

  /** What the first pass found. */
  public CaptureCheck check() {
    return check;
  }

  /** The sweep's law, absent for noise and music. */
  public Optional<Sweep> sweep() {
    return sweep;
  }

  /** Hum that was found and taken out. */
  public Optional<Hum> hum() {
    return hum;
  }

  /** The transfer function from channel 1 to channel 2. */
  public Transfer transfer() {
    return transfer;
  }

  /** Where peaks were flattened below full scale, in order of time; not known for noise. */
  public List<Stretch> flattened() {
    return flattened;
  }

  /** Frequencies lost to bad stretches. */
  public List<Band> dropped() {
    return dropped;
  }

  /** Whether the recording stops before the sweep does. */
  public boolean cutShort() {
    return cutShort;
  }
}
