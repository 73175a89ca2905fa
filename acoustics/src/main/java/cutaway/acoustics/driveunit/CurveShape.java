package cutaway.acoustics.driveunit;

import cutaway.acoustics.driveunit.Peaks.Peak;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;

/**
 * What an impedance curve looks like before any model is forced on it.
 *
 * <p>A plain drive unit shows one low peak, a vented box two. Other shapes mean that something else
 * was measured, or not enough of it. The thresholds are common practice, no source; they are wide
 * enough for curves of real drive units.
 */
public final class CurveShape {
  private static final double CLEAR = 1.12;
  private static final double CAPACITIVE_SLOPE = -0.45;

  private final ImpedanceCurve curve;
  private final List<Peak> peaks;
  private final double least;

  private CurveShape(ImpedanceCurve curve, List<Peak> peaks, double least) {
    this.curve = curve;
    this.peaks = peaks;
    this.least = least;
  }

  /** What may be odd about a curve. */
  public enum Oddity {
    /** Under eight points or under three octaves: nothing can be fitted. */
    TOO_LITTLE,
    /** The impedance rises towards low frequencies as that of a capacitor does. */
    SERIES_CAPACITOR,
    /** The resistance is negative, which no drive unit's is. */
    NOT_PASSIVE,
    /** The phase is upside down: capacitive where a coil is inductive. */
    PHASE_REVERSED,
    /** No motional peak stands out. */
    NO_PEAK,
    /** The curve begins on the upper flank of a peak that lies below it. */
    PEAK_BELOW_RANGE,
    /** More low peaks than the mounting explains. */
    EXTRA_LOW_PEAK,
    /** Fewer low peaks than the mounting should show. */
    MISSING_LOW_PEAK,
    /** Peaks far above the resonance, as crossover filters make. */
    SEVERAL_WAYS,
    /** The same value stands in row after row at low frequencies. */
    REPEATED_ROWS
  }

  /** Looks at a curve. */
  public static CurveShape of(ImpedanceCurve curve) {
    if (curve.size() < 8) {
      return new CurveShape(curve, List.of(), Double.NaN);
    }
    Peaks found = Peaks.of(curve);
    return new CurveShape(
        curve, found.above(CLEAR), found.leastBetween(0, Double.POSITIVE_INFINITY)[0]);
  }

  /** Frequencies of the clear peaks, ascending, Hz. */
  public List<Double> peakFrequencies() {
    return peaks.stream().map(Peak::frequency).sorted().toList();
  }

  /** Least magnitude, Ω. */
  public double least() {
    return least;
  }

  /** Everything odd for a curve taken in a mounting. */
  public List<Oddity> oddities(Mounting mounting) {
    List<Oddity> out = new ArrayList<>();
    if (curve.size() < 8 || curve.frequency(curve.size() - 1) < 8 * curve.frequency(0)) {
      out.add(Oddity.TOO_LITTLE);
      return out;
    }
    if (curve.phaseKnown() && share(i -> curve.re(i) < 0) > 0.05) {
      out.add(Oddity.NOT_PASSIVE);
      return out;
    }
    if (repeatedRows() > 2) {
      out.add(Oddity.REPEATED_ROWS);
    }
    if (seriesCapacitor()) {
      out.add(Oddity.SERIES_CAPACITOR);
      return out;
    }
    if (phaseReversed()) {
      out.add(Oddity.PHASE_REVERSED);
      return out;
    }
    int expected = expectedPeaks(mounting);
    List<Peak> low = lowPeaks();
    if (low.isEmpty()) {
      out.add(fallsFromBelow() ? Oddity.PEAK_BELOW_RANGE : Oddity.NO_PEAK);
      return out;
    }
    if (low.size() > expected) {
      out.add(Oddity.EXTRA_LOW_PEAK);
    } else if (low.size() < expected) {
      out.add(fallsFromBelow() ? Oddity.PEAK_BELOW_RANGE : Oddity.MISSING_LOW_PEAK);
    }
    if (highPeaks().size() > 0) {
      out.add(Oddity.SEVERAL_WAYS);
    }
    return out;
  }

  private static int expectedPeaks(Mounting mounting) {
    return mounting instanceof Mounting.Boxed boxed && boxed.load().ownFrequency() ? 2 : 1;
  }

  /** Peaks within three octaves above the lowest one. */
  private List<Peak> lowPeaks() {
    double first = lowest();
    return peaks.stream().filter(p -> p.frequency() <= 8 * first).toList();
  }

  private List<Peak> highPeaks() {
    double first = lowest();
    return peaks.stream().filter(p -> p.frequency() > 8 * first).toList();
  }

  private double lowest() {
    return peaks.stream().mapToDouble(Peak::frequency).min().orElse(0);
  }

  /** Height of the tallest low peak over the least magnitude. */
  public Optional<Double> tallest() {
    return lowPeaks().stream()
        .max(Comparator.comparingDouble(Peak::height))
        .map(p -> p.height() / least);
  }

  /** Rise of the second strongest peak over that of the strongest, in ln |Z|; 0 with under two. */
  public double secondOverFirst() {
    return peaks.size() < 2
        ? 0
        : Math.log(peaks.get(1).prominence()) / Math.log(peaks.get(0).prominence());
  }

  /** Length of the longest run of identical rows in the lowest third of the curve. */
  public int repeatedRows() {
    int longest = 0;
    int run = 1;
    for (int i = 1; i < curve.size() / 3; i++) {
      boolean same = curve.re(i) == curve.re(i - 1) && curve.im(i) == curve.im(i - 1);
      run = same ? run + 1 : 1;
      longest = Math.max(longest, run);
    }
    return longest;
  }

  private boolean seriesCapacitor() {
    double low = curve.frequency(0);
    ImpedanceCurve octave = curve.between(low, 2 * low);
    if (octave.size() < 3) {
      return false;
    }
    double slope = slope(octave);
    boolean steep = slope < CAPACITIVE_SLOPE && octave.magnitude(0) > 2 * least;
    // the upper flank of a resonance falls like a capacitor too, but there the real part is high
    boolean lowResistance = octave.re(0) < 1.4 * least;
    return curve.phaseKnown()
        ? steep && octave.phase(0) < -0.7 && lowResistance
        : steep && slope < -0.8;
  }

  private double share(IntPredicate odd) {
    return (double) IntStream.range(0, curve.size()).filter(odd).count() / curve.size();
  }

  /**
   * Whether most of the points at the top are capacitive although the magnitude rises there, as
   * only an inductance makes it.
   */
  private boolean phaseReversed() {
    double last = curve.frequency(curve.size() - 1);
    ImpedanceCurve top = curve.between(last / 4, last);
    if (!curve.phaseKnown() || top.size() < 5 || last < 1000 || slope(top) < 0.1) {
      return false;
    }
    long capacitive = IntStream.range(0, top.size()).filter(i -> top.phase(i) < -0.05).count();
    return capacitive > 0.8 * top.size();
  }

  /** Whether the curve starts well above its minimum and falls. */
  private boolean fallsFromBelow() {
    double low = curve.frequency(0);
    ImpedanceCurve octave = curve.between(low, 1.5 * low);
    return octave.size() >= 3 && slope(octave) < -0.08 && octave.magnitude(0) > 1.1 * least;
  }

  /** Slope of ln |Z| against ln f by least squares. */
  private static double slope(ImpedanceCurve part) {
    double sx = 0;
    double sy = 0;
    double sxx = 0;
    double sxy = 0;
    int n = part.size();
    for (int i = 0; i < n; i++) {
      double x = Math.log(part.frequency(i));
      double y = Math.log(part.magnitude(i));
      sx += x;
      sy += y;
      sxx += x * x;
      sxy += x * y;
    }
    return (n * sxy - sx * sy) / (n * sxx - sx * sx);
  }
}
