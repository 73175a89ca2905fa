package cutaway.bench.exam;

import cutaway.acoustics.box.Loading;
import cutaway.acoustics.box.Port;
import cutaway.acoustics.driveunit.Drive;
import cutaway.acoustics.driveunit.Fitted;
import cutaway.acoustics.driveunit.ImpedanceCurve;
import cutaway.acoustics.driveunit.JointFit;
import cutaway.acoustics.driveunit.SmallSignal;
import cutaway.acoustics.estimate.Estimate;
import cutaway.bench.finding.Curve;
import cutaway.bench.finding.Shown;
import cutaway.bench.result.Results;
import cutaway.bench.sheet.Sheet;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** What impedance was measured and fitted, and what pressure, excursion and port air to expect. */
final class PredictionExam {
  private static final int POINTS = 160;

  /** Peak speed of a port's air above which it may be heard, m/s; common practice, no source. */
  private static final double NOISY_AIR = 17;

  private final Sheet sheet;
  private final JointFit fit;
  private final Results results;

  private PredictionExam(Sheet sheet, JointFit fit, Results results) {
    this.sheet = sheet;
    this.fit = fit;
    this.results = results;
  }

  static void run(Sheet sheet, JointFit fit, Results results) {
    PredictionExam exam = new PredictionExam(sheet, fit, results);
    exam.impedances();
    exam.predictions();
  }

  /** Frequencies in even steps of their logarithm, Hz. */
  static double[] grid(double low, double high, int n) {
    double[] f = new double[n];
    for (int i = 0; i < n; i++) {
      f[i] = low * Math.pow(high / low, i / (n - 1.0));
    }
    return f;
  }

  private void impedances() {
    for (int k = 0; k < fit.bench().size(); k++) {
      String id = fit.bench().get(k).id();
      ImpedanceCurve curve = fit.bench().get(k).curve();
      ImpedanceCurve shown = curve.size() > 600 ? curve.thinned(48) : curve;
      double[] f = shown.frequencies();
      results.curve(
          Curve.of(
              "impedance." + id + ".measured",
              "Measured, " + id,
              "Hz",
              "Ω",
              f,
              shown.magnitudes()));
      double[] g = grid(f[0], f[f.length - 1], 240);
      results.curve(
          Curve.banded(
              "impedance." + id + ".fitted",
              "Fitted, " + id,
              "Hz",
              "Ω",
              g,
              fit.impedanceBand(k, g)));
      residuals(k, id, curve);
    }
  }

  private void residuals(int k, String id, ImpedanceCurve curve) {
    double[] r = fit.best().residual(k);
    int step = Math.max(1, curve.size() / 400);
    int n = (curve.size() + step - 1) / step;
    double[] f = new double[n];
    double[] percent = new double[n];
    for (int i = 0; i < n; i++) {
      f[i] = curve.frequency(i * step);
      percent[i] = -100 * r[i * step];
    }
    results.curve(
        Curve.of(
            "impedance." + id + ".residual", "Measured over fitted, " + id, "Hz", "%", f, percent));
  }

  private void predictions() {
    Optional<Integer> boxed = BoxTakes.open(sheet, fit);
    if (boxed.isEmpty()) {
      return;
    }
    int take = boxed.get();
    double source = sheet.drive().sourceResistance().map(r -> r.estimate().value()).orElse(0.0);
    Drive drive = new Drive(2.83, source, sheet.drive().filters());
    String fed = fed(source);
    curves(take, drive, fed);
    step(take, drive, fed);
    corners(take, drive);
  }

  private void curves(int take, Drive drive, String fed) {
    double[] f = grid(10, 500, POINTS);
    List<JointFit.Quantity> quantities =
        new ArrayList<>(
            List.of(SmallSignal::level, SmallSignal::excursion, SmallSignal::groupDelay));
    port(take)
        .map(p -> p.totalArea().value())
        .ifPresent(area -> quantities.add((s, x) -> s.portSpeed(x, area)));
    List<double[][]> bands = fit.predict(take, drive, f, quantities);
    if (bands.isEmpty()) {
      return;
    }
    levels(withAir(bands.get(0)), f, fed);
    double watt = 20 * Math.log10(Math.sqrt(fit.best().re().value()) / drive.volts());
    // √R_e takes back half of what R_e does to the level above resonance; counted as independent it
    // widens the band rather more than it should, and nowhere less
    double root = 10 / Math.log(10) * fit.averaged(Fitted::re).relativeSd();
    level(
        "one-watt",
        "Level at 1 m, half space, 1 W into R_e" + fed,
        f,
        widened(withAir(bands.get(0)), root),
        watt);
    band("excursion", "Peak excursion, 2.83 V" + fed, "m", f, bands.get(1));
    band("group-delay", "Group delay" + fed, "s", f, bands.get(2));
    if (bands.size() > 3) {
      double area = port(take).orElseThrow().totalArea().relativeSd();
      double[][] speed = bands.get(3);
      for (int i = 0; i < speed[1].length; i++) {
        speed[1][i] = Math.hypot(speed[1][i], area * speed[0][i]);
      }
      noisyPort(speed);
      band("port-speed", "Peak air speed in the port, 2.83 V" + fed, "m/s", f, bands.get(3));
    }
  }

  /** The voltage at which the port's air becomes too fast: speed goes with voltage. */
  private void noisyPort(double[][] speed) {
    int fastest = 0;
    for (int i = 0; i < speed[0].length; i++) {
      fastest = speed[0][i] > speed[0][fastest] ? i : fastest;
    }
    Estimate at = new Estimate(speed[0][fastest], speed[1][fastest]);
    List<String> basis = new ArrayList<>(grounds());
    basis.add("box.port");
    results.add(
        "response.port-voltage",
        "Voltage at which the port's air reaches 17 m/s",
        "U_port",
        Estimate.exact(2.83 * NOISY_AIR).over(at),
        "V",
        "2.83 V · 17 m/s over the highest peak speed at 2.83 V; air above about 17 m/s risks"
            + " audible noise (common practice, no source)",
        basis,
        "linear; flared ends bear more, sharp ones less");
  }

  /** One curve of level; full space only shifts it. */
  private void levels(double[][] level, double[] f, String fed) {
    level("half-space", "Level at 1 m, half space, 2.83 V" + fed, f, level, 0);
    level("full-space", "Level at 1 m, full space, 2.83 V" + fed, f, level, -20 * Math.log10(2));
  }

  private void level(String id, String name, double[] f, double[][] band, double shift) {
    double[] shifted = java.util.Arrays.stream(band[0]).map(x -> x + shift).toArray();
    results.curve(
        Curve.banded("response." + id, name, "Hz", "dB", f, new double[][] {shifted, band[1]}));
  }

  private String fed(double source) {
    StringBuilder out = new StringBuilder();
    if (source > 0) {
      out.append(" through " + Shown.digits(source, 3) + " Ω");
    }
    if (!sheet.drive().filters().isEmpty()) {
      out.append(" and filters");
    }
    return out.toString();
  }

  private void band(String id, String name, String unit, double[] f, double[][] band) {
    results.curve(Curve.banded("response." + id, name, "Hz", unit, f, band));
  }

  /** Levels go with the density of the air, which the fit takes as given. */
  private double[][] withAir(double[][] band) {
    return widened(band, 20 / Math.log(10) * Bench.air(sheet).density().relativeSd());
  }

  /** A band with an independent uncertainty, the same all along, counted in. */
  private static double[][] widened(double[][] band, double further) {
    double[] sd = band[1].clone();
    for (int i = 0; i < sd.length; i++) {
      sd[i] = Math.hypot(sd[i], further);
    }
    return new double[][] {band[0], sd};
  }

  /** The box's port, where it has one whose size was read. */
  private Optional<Port> port(int take) {
    boolean vented =
        fit.best().box(take).load().filter(Loading.Vented.class::isInstance).isPresent();
    return sheet.box().filter(b -> vented).flatMap(BoxGeometry::port);
  }

  private void step(int take, Drive drive, String fed) {
    double rate = 6000;
    int n = 480;
    double[] t = new double[n];
    for (int i = 0; i < n; i++) {
      t[i] = i / rate;
    }
    fit.best()
        .system(take, drive)
        .ifPresent(
            s ->
                results.curve(
                    Curve.of(
                        "response.step",
                        "Pressure after a step of 2.83 V" + fed,
                        "s",
                        "Pa",
                        t,
                        s.step(rate, n))));
  }

  private void corners(int take, Drive drive) {
    List<String> basis = grounds();
    for (int down : new int[] {3, 6, 10}) {
      Optional<Estimate> f = fit.averagedIfShown(j -> corner(j, take, drive, down));
      if (f.isPresent() && f.get().value() > 5.5) {
        results.add(
            "response.f" + down,
            "Level down by " + down + " dB, half space",
            "f_" + down,
            f,
            "Hz",
            "predicted from the fit; reference is the level of the piston range without inductance",
            basis,
            "small-signal; the room and loud playing change it");
      }
    }
  }

  private List<String> grounds() {
    List<String> out = new ArrayList<>(new Grounds(fit).area());
    out.add("drive");
    return List.copyOf(out);
  }

  /**
   * The corner with its uncertainty by the implicit function theorem: that of the level there, over
   * the slope.
   */
  private static Optional<Estimate> corner(Fitted fit, int take, Drive drive, int down) {
    Optional<Double> found = fit.system(take, drive).map(s -> corner(s, down));
    return found.flatMap(
        f -> {
          SmallSignal best = fit.system(take, drive).orElseThrow();
          double step = 1e-4 * f;
          double slope = (best.level(f + step) - best.level(f - step)) / (2 * step);
          return fit.derived(take, drive, s -> s.level(f) - s.referenceLevel())
              .map(level -> new Estimate(f, level.sd() / Math.abs(slope)));
        });
  }

  /** Frequency below which the level stays more than so many decibels under the reference. */
  private static double corner(SmallSignal s, double down) {
    double reference = s.referenceLevel() - down;
    double high = 300;
    while (high > 5 && s.level(high) < reference) {
      high *= 0.97;
    }
    double low = high;
    while (low > 5 && s.level(low) >= reference) {
      low *= 0.98;
    }
    double top = low / 0.98;
    for (int i = 0; i < 40; i++) {
      double middle = Math.sqrt(low * top);
      if (s.level(middle) >= reference) {
        top = middle;
      } else {
        low = middle;
      }
    }
    return Math.sqrt(low * top);
  }
}
