package cutaway.acoustics.driveunit;

import cutaway.acoustics.estimate.Estimate;
import cutaway.acoustics.signal.Capture;
import cutaway.acoustics.signal.Transfer;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * From two voltages around a known resistor to impedance.
 *
 * <p>Drive unit and resistor stand in series. Channel 1 hears the voltage over both, channel 2 that
 * over the drive unit or over the resistor. With H their ratio, Z = R H/(1 − H) or Z = R (1 − H)/H.
 * A calibration capture with a second known resistor in the drive unit's place shows by how much
 * the channels differ in gain and delay.
 */
public final class VoltageDivider {
  private static final double MOST_LEAKAGE = 4e-3;

  /** No interface and resistor repeat a ratio better than this from one minute to the next. */
  private static final double REPEATABILITY = 3e-4;

  /** Two channels of one interface differ by some 0.1 dB (common practice, no source). */
  private static final double MISMATCH = 0.0115;

  /** And by some microseconds, s (common practice, no source). */
  private static final double SKEW = 2e-6;

  /** Name of what errs in gain where there is no calibration. */
  public static final String GAIN = "gain between the channels";

  /** Name of what errs in time where there is no calibration. */
  public static final String DELAY = "delay between the channels";

  /** Gains of one interface are alike within this, dB, unless its knobs stand apart. */
  private static final double ALIKE = 3;

  /** Frequency above which a drive unit's coil makes it inductive, Hz. */
  private static final double COIL_RULES = 2000;

  private final ImpedanceCurve impedance;
  private final List<Trouble> troubles;
  private final Correction correction;

  /**
   * What channel 2 was found to differ by.
   *
   * @param gain factor on channel 2
   * @param delay how much later channel 2 is, s
   */
  public record Correction(double gain, double delay) {
    /** Channels that do not differ. */
    public static final Correction NONE = new Correction(1, 0);

    /** How far the gains are apart, dB, above zero. */
    double decibels() {
      return Math.abs(20 * Math.log10(gain));
    }
  }

  /** What was wrong with a capture and put right. */
  public enum Trouble {
    /** Channel 1 is the smaller voltage: the plugs were swapped. */
    SWAPPED,
    /** Channel 2 is upside down. */
    REVERSED,
    /** By the calibration, channel 2 listens to the other part than was said. */
    OTHER_PART
  }

  /** Where channel 2 listens. */
  public enum Listening {
    /** Over the drive unit. */
    DRIVE_UNIT,
    /** Over the series resistor. */
    RESISTOR;

    private Listening other() {
      return this == RESISTOR ? DRIVE_UNIT : RESISTOR;
    }
  }

  private VoltageDivider(ImpedanceCurve impedance, List<Trouble> troubles, Correction correction) {
    this.impedance = impedance;
    this.troubles = List.copyOf(troubles);
    this.correction = correction;
  }

  private VoltageDivider with(Trouble trouble) {
    List<Trouble> all = new ArrayList<>(troubles);
    all.add(trouble);
    return new VoltageDivider(impedance, all, correction);
  }

  /** Works out gain and delay from a capture with a known resistor in the drive unit's place. */
  private static Correction calibrate(
      Capture capture, Listening listening, double resistor, double known, boolean swapped) {
    double expected = (listening == Listening.DRIVE_UNIT ? known : resistor) / (resistor + known);
    Transfer h = capture.transfer();
    Upright upright = new Upright(h, swapped);
    double sw = 0;
    double gain = 0;
    double sff = 0;
    double sfp = 0;
    for (int i = 0; i < h.size(); i++) {
      double f = h.frequency(i);
      if (f < 20 || dropped(capture, f)) {
        continue;
      }
      double re = upright.re(i) / expected;
      double im = upright.im(i) / expected;
      double w = 1 / Math.max(1e-14, upright.relativeVariance(i));
      sw += w;
      gain += w * Math.log(Math.hypot(re, im));
      sff += w * f * f;
      sfp += w * f * Math.atan2(im, re);
    }
    if (!(sw > 0)) {
      return Correction.NONE;
    }
    return new Correction(Math.exp(gain / sw), -sfp / sff / (2 * Math.PI));
  }

  private static boolean dropped(Capture capture, double f) {
    return capture.dropped().stream().anyMatch(b -> b.holds(f));
  }

  /** H, inverted where the plugs are taken as swapped, with its sign put right. */
  private static final class Upright {
    private final Transfer h;
    private final boolean swapped;
    private final double sign;

    Upright(Transfer h, boolean swapped) {
      this.h = h;
      this.swapped = swapped;
      int negative = 0;
      for (int i = 0; i < h.size(); i++) {
        negative += h.re(i) < 0 ? 1 : 0;
      }
      sign = negative > 0.8 * h.size() ? -1 : 1;
    }

    boolean reversed() {
      return sign < 0;
    }

    double re(int i) {
      double square = h.re(i) * h.re(i) + h.im(i) * h.im(i);
      return sign * (swapped ? h.re(i) / square : h.re(i));
    }

    double im(int i) {
      double square = h.re(i) * h.re(i) + h.im(i) * h.im(i);
      return sign * (swapped ? -h.im(i) / square : h.im(i));
    }

    double relativeVariance(int i) {
      return h.sd(i) * h.sd(i) / (h.re(i) * h.re(i) + h.im(i) * h.im(i));
    }
  }

  /**
   * Impedance from a capture.
   *
   * @param resistor the series resistor, Ω
   * @param calibration a capture with a known resistor in the drive unit's place, absent where the
   *     channels are taken as equal
   * @param known that resistor, Ω
   * @return absent where nothing usable is left; points within 1.5 Hz of hum are left out
   */
  public static Optional<VoltageDivider> of(
      Capture capture,
      Listening listening,
      double resistor,
      Optional<Capture> calibration,
      double known) {
    Optional<VoltageDivider> asWired =
        wired(capture, listening, resistor, calibration, known, false);
    if (asWired.isPresent() && plausible(asWired.get().impedance)) {
      return asWired;
    }
    Optional<VoltageDivider> swapped =
        wired(capture, listening, resistor, calibration, known, true)
            .filter(d -> plausible(d.impedance));
    Optional<VoltageDivider> other =
        calibration.isEmpty()
            ? Optional.empty()
            : wired(capture, listening.other(), resistor, calibration, known, false)
                .filter(d -> plausible(d.impedance) && d.correction.decibels() < ALIKE);
    if (other.isPresent()
        && swapped
            .map(d -> d.correction.decibels() > other.get().correction.decibels())
            .orElse(true)) {
      return other.map(d -> d.with(Trouble.OTHER_PART));
    }
    return swapped.isPresent() ? swapped : asWired;
  }

  /** A passive load has a resistance above zero, and a coil is inductive at the top. */
  private static boolean plausible(ImpedanceCurve curve) {
    // a short sweep ends where the suspension or the cone's mass still rules
    boolean coil = curve.frequency(curve.size() - 1) > COIL_RULES;
    int passive = 0;
    double top = 0;
    double last = curve.frequency(curve.size() - 1);
    for (int i = 0; i < curve.size(); i++) {
      passive += curve.re(i) > 0 ? 1 : 0;
      top += curve.frequency(i) > last / 4 ? curve.phase(i) : 0;
    }
    return passive > 0.9 * curve.size() && (top >= 0 || !coil);
  }

  private static Optional<VoltageDivider> wired(
      Capture capture,
      Listening listening,
      double resistor,
      Optional<Capture> calibration,
      double known,
      boolean swapped) {
    Correction correction =
        calibration
            .map(c -> calibrate(c, listening, resistor, known, swapped))
            .orElse(Correction.NONE);
    Transfer h = capture.transfer();
    Upright upright = new Upright(h, swapped);
    Points points = new Points(h.size());
    for (int i = 0; i < h.size(); i++) {
      double f = h.frequency(i);
      if (dropped(capture, f) || onHum(capture, f) || !(h.sd(i) < Double.POSITIVE_INFINITY)) {
        continue;
      }
      double turn = 2 * Math.PI * f * correction.delay();
      double c = Math.cos(turn) / correction.gain();
      double s = Math.sin(turn) / correction.gain();
      double re = upright.re(i) * c - upright.im(i) * s;
      double im = upright.re(i) * s + upright.im(i) * c;
      double leakage = capture.dropped().stream().mapToDouble(b -> b.leakage(f)).sum();
      if (leakage > MOST_LEAKAGE) {
        continue;
      }
      double relative = Math.hypot(Math.sqrt(upright.relativeVariance(i)), leakage);
      points.add(f, re, im, relative, resistor, listening);
    }
    if (points.n < 2) {
      return Optional.empty();
    }
    List<Trouble> troubles = new ArrayList<>();
    if (swapped) {
      troubles.add(Trouble.SWAPPED);
    }
    if (upright.reversed()) {
      troubles.add(Trouble.REVERSED);
    }
    return Optional.of(new VoltageDivider(points.curve(), troubles, correction));
  }

  private static boolean onHum(Capture capture, double f) {
    return capture
        .hum()
        .map(
            hum ->
                hum.harmonics().stream()
                    .anyMatch(x -> Math.abs(f - x.order() * hum.frequency()) < 1.5))
        .orElse(false);
  }

  /** Collects Z. */
  private static final class Points {
    private final double[] f;
    private final double[] re;
    private final double[] im;
    private final double[] sigma;
    private int n;

    Points(int capacity) {
      f = new double[capacity];
      re = new double[capacity];
      im = new double[capacity];
      sigma = new double[capacity];
    }

    void add(
        double frequency,
        double hRe,
        double hIm,
        double relative,
        double resistor,
        Listening listening) {
      double dRe = 1 - hRe;
      double dIm = -hIm;
      boolean unit = listening == Listening.DRIVE_UNIT;
      double nRe = unit ? hRe : dRe;
      double nIm = unit ? hIm : dIm;
      double mRe = unit ? dRe : hRe;
      double mIm = unit ? dIm : hIm;
      double inv = resistor / (mRe * mRe + mIm * mIm);
      double zRe = (nRe * mRe + nIm * mIm) * inv;
      double zIm = (nIm * mRe - nRe * mIm) * inv;
      // |∂Z/Z| = |∂H/H| / |1 − H| either way
      double error = relative / Math.hypot(dRe, dIm);
      if (error < 0.5 && Double.isFinite(zRe) && Double.isFinite(zIm)) {
        f[n] = frequency;
        re[n] = zRe;
        im[n] = zIm;
        sigma[n++] = Math.hypot(error, REPEATABILITY);
      }
    }

    ImpedanceCurve curve() {
      return ImpedanceCurve.of(
          java.util.Arrays.copyOf(f, n),
          java.util.Arrays.copyOf(re, n),
          java.util.Arrays.copyOf(im, n),
          java.util.Arrays.copyOf(sigma, n));
    }
  }

  /**
   * What the resistors' uncertainties, or the want of a calibration, do to every point at once.
   *
   * @param resistor the series resistor, Ω
   * @param known the resistor of the calibration, Ω, absent without one
   */
  public static List<RigError> rigErrors(
      Listening listening, Estimate resistor, Optional<Estimate> known) {
    double r = resistor.value();
    boolean unit = listening == Listening.DRIVE_UNIT;
    if (known.isEmpty()) {
      double constant = unit ? 1 : -1;
      double byImpedance = unit ? 1 / r : 0;
      double byAdmittance = unit ? 0 : -r;
      return List.of(
          new RigError("series resistor", sd(resistor), 1, 0, 0),
          new RigError(GAIN, MISMATCH, constant, byImpedance, byAdmittance),
          new RigError(DELAY, SKEW, constant, byImpedance, byAdmittance, true));
    }
    double k = known.get().value();
    double share = 1 / (r + k);
    String calibration = "calibration resistor " + k + " Ω";
    return unit
        ? List.of(
            new RigError("series resistor", sd(resistor), k * share, -share, 0),
            new RigError(calibration, sd(known.get()), r * share, share, 0))
        : List.of(
            new RigError("series resistor", sd(resistor), r * share, 0, -r * k * share),
            new RigError(calibration, sd(known.get()), k * share, 0, r * k * share));
  }

  /** A reading without any uncertainty would leave the fit a parameter it cannot move. */
  private static double sd(Estimate resistor) {
    return Math.max(1e-7, resistor.relativeSd());
  }

  /** The impedance with its uncertainty at each point. */
  public ImpedanceCurve impedance() {
    return impedance;
  }

  /** What was wrong with the plugs. */
  public List<Trouble> troubles() {
    return troubles;
  }

  /** Gain and delay that were taken out. */
  public Correction correction() {
    return correction;
  }
}
