package cutaway.acoustics.driveunit;

import java.util.Arrays;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;

/** Terminal impedance against frequency, with or without phase, ascending. */
public final class ImpedanceCurve {
  private final double[] frequency;
  private final double[] re;
  private final double[] im;
  private final double[] sigma;
  private final boolean phaseKnown;

  private ImpedanceCurve(
      double[] frequency, double[] re, double[] im, double[] sigma, boolean phaseKnown) {
    this.frequency = frequency;
    this.re = re;
    this.im = im;
    this.sigma = sigma;
    this.phaseKnown = phaseKnown;
  }

  /**
   * A complex impedance.
   *
   * @param frequency Hz, strictly ascending, above zero
   * @param re real part, Ω
   * @param im imaginary part, Ω
   */
  public static ImpedanceCurve of(double[] frequency, double[] re, double[] im) {
    return of(frequency, re, im, new double[0]);
  }

  /**
   * A complex impedance with the relative standard uncertainty of each point.
   *
   * @param sigma standard uncertainty of real and imaginary part, each divided by |Z|; empty where
   *     it is not known
   */
  public static ImpedanceCurve of(double[] frequency, double[] re, double[] im, double[] sigma) {
    check(frequency, re.length, im.length);
    for (int i = 0; i < re.length; i++) {
      if (!(Math.hypot(re[i], im[i]) > 0) || Double.isInfinite(re[i]) || Double.isInfinite(im[i])) {
        throw new IllegalArgumentException(
            "impedance at " + frequency[i] + " Hz is " + re[i] + " + j" + im[i] + " Ω");
      }
    }
    return new ImpedanceCurve(frequency.clone(), re.clone(), im.clone(), sigma.clone(), true);
  }

  /**
   * A magnitude alone.
   *
   * @param magnitude |Z|, Ω, above zero
   */
  public static ImpedanceCurve ofMagnitude(double[] frequency, double[] magnitude) {
    check(frequency, magnitude.length, magnitude.length);
    for (double m : magnitude) {
      if (!(m > 0) || Double.isInfinite(m)) {
        throw new IllegalArgumentException("impedance magnitude " + m + " Ω is not above zero");
      }
    }
    return new ImpedanceCurve(
        frequency.clone(), magnitude.clone(), new double[magnitude.length], new double[0], false);
  }

  private static void check(double[] frequency, int re, int im) {
    if (frequency.length != re || re != im) {
      throw new IllegalArgumentException("frequencies and values differ in number");
    }
    for (int i = 0; i < frequency.length; i++) {
      if (!(frequency[i] > (i == 0 ? 0 : frequency[i - 1])) || Double.isInfinite(frequency[i])) {
        throw new IllegalArgumentException(
            "frequency " + frequency[i] + " Hz at index " + i + " is not above the one before");
      }
    }
  }

  /** Number of points. */
  public int size() {
    return frequency.length;
  }

  /** Frequency of a point, Hz. */
  public double frequency(int i) {
    return frequency[i];
  }

  /** Real part, Ω; the magnitude where the phase is not known. */
  public double re(int i) {
    return re[i];
  }

  /** Imaginary part, Ω; zero where the phase is not known. */
  public double im(int i) {
    return im[i];
  }

  /** Magnitude, Ω. */
  public double magnitude(int i) {
    return Math.hypot(re[i], im[i]);
  }

  /** Phase, rad, from −π to π. */
  public double phase(int i) {
    return Math.atan2(im[i], re[i]);
  }

  /** Relative standard uncertainty of a point, or 0 where none was given. */
  public double sigma(int i) {
    return sigma.length == 0 ? 0 : sigma[i];
  }

  /** Whether each point carries an uncertainty of its own. */
  public boolean sigmaKnown() {
    return sigma.length > 0;
  }

  /** Whether the phase was measured. */
  public boolean phaseKnown() {
    return phaseKnown;
  }

  /** Frequencies, Hz, a copy. */
  public double[] frequencies() {
    return frequency.clone();
  }

  /** Magnitudes, Ω. */
  public double[] magnitudes() {
    double[] out = new double[size()];
    Arrays.setAll(out, this::magnitude);
    return out;
  }

  /** The points whose frequency lies within the bounds, both included, Hz. */
  public ImpedanceCurve between(double low, double high) {
    int from = 0;
    while (from < size() && frequency[from] < low) {
      from++;
    }
    int to = size();
    while (to > from && frequency[to - 1] > high) {
      to--;
    }
    return new ImpedanceCurve(
        Arrays.copyOfRange(frequency, from, to),
        Arrays.copyOfRange(re, from, to),
        Arrays.copyOfRange(im, from, to),
        sigma.length == 0 ? sigma : Arrays.copyOfRange(sigma, from, to),
        phaseKnown);
  }

  /** Whether another curve has the very same points. */
  public boolean sameAs(ImpedanceCurve other) {
    return Arrays.equals(frequency, other.frequency)
        && Arrays.equals(re, other.re)
        && Arrays.equals(im, other.im);
  }

  /** The points left when no two may lie closer together than a fraction of an octave. */
  public ImpedanceCurve thinned(int perOctave) {
    double ratio = Math.pow(2, 1.0 / perOctave);
    return where(new Spacing(ratio)::keeps);
  }

  /** The points whose index is kept; asked in ascending order. */
  public ImpedanceCurve where(IntPredicate keeps) {
    int[] kept = IntStream.range(0, size()).filter(keeps).toArray();
    return new ImpedanceCurve(
        pick(frequency, kept),
        pick(re, kept),
        pick(im, kept),
        sigma.length == 0 ? sigma : pick(sigma, kept),
        phaseKnown);
  }

  private static double[] pick(double[] from, int[] at) {
    return Arrays.stream(at).mapToDouble(i -> from[i]).toArray();
  }

  /** Remembers the last point kept. */
  private final class Spacing {
    private final double ratio;
    private double last;

    Spacing(double ratio) {
      this.ratio = ratio;
    }

    boolean keeps(int i) {
      boolean far = frequency[i] >= last * ratio;
      if (far) {
        last = frequency[i];
      }
      return far;
    }
  }
}
