package cutaway.acoustics.driveunit;

import cutaway.acoustics.driveunit.Peaks.Peak;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Closed-form guesses from which the joint fit starts.
 *
 * <p>Resonance and Q from the peak's height and its width at √(R_max R_e); α and f_b of a vented
 * box from the two peaks and the minimum between them, exact without losses (A. N. Thiele, R. H.
 * Small, from memory); masses and volumes from the shift of the peak.
 */
final class StartingValues {
  private final List<Take> bench;
  private final double re;
  private final double fs;
  private final double qms;
  private final double qes;

  private StartingValues(List<Take> bench, double re, double fs, double qms, double qes) {
    this.bench = bench;
    this.re = re;
    this.fs = fs;
    this.qms = qms;
    this.qes = qes;
  }

  /** The strongest resonance of a curve, or its highest point where no peak stands out. */
  private static Peak mainPeak(ImpedanceCurve curve, Peaks peaks) {
    return peaks.above(1.02).stream()
        .findFirst()
        .orElseGet(
            () -> {
              double mid = Math.sqrt(curve.frequency(0) * curve.frequency(curve.size() - 1));
              return new Peak(mid, curve.magnitude(curve.size() / 2), 1);
            });
  }

  static StartingValues of(List<Take> bench) {
    Take reference =
        bench.stream()
            .filter(t -> t.mounting() instanceof Mounting.FreeAir)
            .findFirst()
            .orElse(bench.get(0));
    ImpedanceCurve curve = reference.curve();
    Peaks peaks = Peaks.of(curve);
    Peak peak = mainPeak(curve, peaks);
    double low = peaks.leastBetween(0, peak.frequency())[0];
    double high = peaks.leastBetween(peak.frequency(), Double.POSITIVE_INFINITY)[0];
    double re = 0.98 * Math.min(low, high);
    double r0 = Math.max(1.05, peak.height() / re);
    double level = re * Math.sqrt(r0);
    double below = peaks.crossing(peak.frequency(), level, -1);
    double above = peaks.crossing(peak.frequency(), level, 1);
    double width =
        below > 0 && above > 0
            ? above - below
            : 2 * Math.max(above - peak.frequency(), peak.frequency() - below);
    double qms =
        Math.min(30, Math.max(0.5, peak.frequency() * Math.sqrt(r0) / Math.max(width, 1e-3)));
    double fs = peak.frequency();
    if (reference.mounting() instanceof Mounting.AddedMass) {
      fs *= 1.15;
    } else if (reference.mounting() instanceof Mounting.Boxed boxed) {
      fs = boxed.load().ownFrequency() ? ventedPeaks(curve).suspension() : fs / 1.4;
    }
    return new StartingValues(bench, re, fs, qms, Math.max(0.05, qms / (r0 - 1)));
  }

  /**
   * What the two peaks of a vented box say without losses.
   *
   * @param fb tuning, Hz
   * @param suspension resonance of the drive unit with its moving mass in the box, Hz
   * @param alpha stiffness of the box over that of the suspension
   */
  record TwoPeaks(double fb, double suspension, double alpha) {}

  private static TwoPeaks ventedPeaks(ImpedanceCurve curve) {
    Peaks peaks = Peaks.of(curve);
    List<Peak> two = new ArrayList<>(peaks.above(1.02).stream().limit(2).toList());
    if (two.size() < 2) {
      double f = mainPeak(curve, peaks).frequency();
      return new TwoPeaks(f * 0.6, f * 0.7, 1);
    }
    two.sort(Comparator.comparingDouble(Peak::frequency));
    double fl = two.get(0).frequency();
    double fh = two.get(1).frequency();
    double fb = peaks.leastBetween(fl, fh)[1];
    double fs = fl * fh / fb;
    double alpha = (fh * fh - fb * fb) * (fb * fb - fl * fl) / (fl * fl * fh * fh);
    return new TwoPeaks(fb, fs, Math.max(0.05, alpha));
  }

  /** Ω. */
  double re() {
    return re;
  }

  /** The parameter vector for a layout. */
  double[] theta(ModelChoice choice, Layout layout, Readings readings) {
    double[] theta = new double[layout.size];
    theta[Layout.RE] = Math.log(re);
    theta[Layout.FS] = Math.log(fs);
    theta[Layout.QMS] = Math.log(qms);
    theta[Layout.QES] = Math.log(qes);
    double[] coil = choice.coil().values();
    for (int i = 0; i < coil.length; i++) {
      theta[layout.coil + i] = Math.log(coil[i]);
    }
    if (layout.suspension >= 0) {
      theta[layout.suspension] = choice.suspension().shape();
    }
    if (layout.supportMass >= 0) {
      support(theta, layout);
    }
    if (layout.area >= 0) {
      theta[layout.area] = Math.log(readings.pistonArea().orElseThrow().value());
    }
    for (int k = 0; k < bench.size(); k++) {
      take(theta, layout, choice, k);
    }
    return theta;
  }

  private void support(double[] theta, Layout layout) {
    ImpedanceCurve curve = bench.get(0).curve();
    double second =
        Peaks.of(curve).above(1.01).stream()
            .map(Peak::frequency)
            .filter(f -> Math.abs(Math.log(f / fs)) > 0.15 && f < 30 * fs)
            .findFirst()
            .orElse(2.2 * fs);
    theta[layout.supportMass] = Math.log(20);
    theta[layout.supportMass + 1] = Math.log(second);
    theta[layout.supportMass + 2] = Math.log(8);
  }

  private void take(double[] theta, Layout layout, ModelChoice choice, int k) {
    Layout.TakeSlots slots = layout.take(k);
    ImpedanceCurve curve = bench.get(k).curve();
    double peak = mainPeak(curve, Peaks.of(curve)).frequency();
    if (slots.addedMass() >= 0) {
      theta[slots.addedMass()] = Math.log(Math.max(0.02, Math.pow(fs / peak, 2) - 1));
    }
    if (slots.boxMass() >= 0) {
      theta[slots.boxMass()] = Math.log(0.03);
    }
    if (slots.stiffness() < 0) {
      return;
    }
    RearLoad load = choice.loads().get(k);
    List<String> symbols = load.symbols();
    if (load.ownFrequency()) {
      TwoPeaks two = ventedPeaks(curve);
      double ratio = two.suspension() / fs;
      theta[slots.stiffness()] = Math.log(Math.max(0.05, two.alpha() * ratio * ratio));
      theta[slots.load()] = Math.log(two.fb());
    } else {
      theta[slots.stiffness()] = Math.log(Math.max(0.05, Math.pow(peak / fs, 2) - 1));
    }
    for (int i = load.ownFrequency() ? 1 : 0; i < symbols.size(); i++) {
      theta[slots.load() + i] = Math.log(symbols.get(i).equals("δ") ? 0.3 : 20);
    }
  }

  /** Coil kinds with values read off the top of a curve, plainest first. */
  List<CoilLoss> coils() {
    ImpedanceCurve curve = bench.get(0).curve();
    int last = curve.size() - 1;
    double top = 2 * Math.PI * curve.frequency(last);
    double excess =
        Math.max(0.02 * re, Math.sqrt(Math.max(0, Math.pow(curve.magnitude(last), 2) - re * re)));
    double l = excess / top;
    double middle = Math.sqrt(2 * Math.PI * fs * 3 * top);
    return List.of(
        new CoilLoss.None(),
        new CoilLoss.Ideal(l),
        new CoilLoss.PowerLaw(excess / Math.pow(top, 0.7), 0.7),
        new CoilLoss.OneLoop(0.6 * l, l, middle * l),
        new CoilLoss.TwoLoops(0.5 * l, 2 * l, middle * l * 0.4, l, 2 * middle * l));
  }
}
