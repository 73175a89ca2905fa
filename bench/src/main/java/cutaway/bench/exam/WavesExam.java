package cutaway.bench.exam;

import cutaway.acoustics.cabinet.LiningLaw;
import cutaway.acoustics.cabinet.StandingWaves;
import cutaway.acoustics.cabinet.UnitInBox;
import cutaway.acoustics.driveunit.JointFit;
import cutaway.acoustics.driveunit.Network;
import cutaway.acoustics.estimate.Estimate;
import cutaway.bench.exam.WavesModel.Waves;
import cutaway.bench.finding.Curve;
import cutaway.bench.finding.Notice;
import cutaway.bench.result.Results;
import cutaway.bench.sheet.Sheet;
import cutaway.bench.sheet.Words;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.hipparchus.complex.Complex;

/** What the standing waves do to the output of cone and port and to the impedance. */
final class WavesExam {
  /** What the loss of the air in a bare box is known to (common practice, no source). */
  static final double LOSS_FACTOR = 2;

  /** The port's own waves begin well above the tuning. */
  private static final double ABOVE_TUNING = 3;

  /** The same in a port's level, dB; judgement. */
  private static final double PORT_MODEL = 2;

  /** A pipe's resonance from its mass is known to this; judgement. */
  private static final double PIPE = 0.05;

  private static final String METHOD =
      "fitted drive unit, box and port with the waves in box and port added, rigid walls"
          + " (docs/methods/cavity.md)";

  private final WavesModel model;
  private final double[] grid;
  private final List<Network> networks;
  private final List<String> restsOn;
  private final Results results;
  private final WaveUncertainty open;

  private WavesExam(Sheet sheet, JointFit fit, WavesModel model, Results results) {
    this.model = model;
    this.grid = model.grid();
    this.networks = model.networks();
    this.results = results;
    this.open = WaveUncertainty.of(RoomLining.of(model.geometry()).thickness());
    List<String> basis = new ArrayList<>(new Grounds(fit).area());
    basis.addAll(Openings.restOn(sheet));
    sheet.box().flatMap(Sheet.BoxReadings::port).ifPresent(p -> basis.add("box.port"));
    this.restsOn = basis.stream().distinct().toList();
  }

  static void run(Sheet sheet, JointFit fit, Results results) {
    WavesModel.of(sheet, fit).ifPresent(m -> new WavesExam(sheet, fit, m, results).run());
  }

  private void run() {
    RoomLining lining = RoomLining.of(model.geometry());
    if (RoomLining.untold(model.geometry())) {
      results.notice(
          Notice.caution(
              "box.lining",
              "what '"
                  + Words.of(model.geometry().box().lining())
                  + "' does to the standing waves is not told: which walls,"
                  + " how thick and of what is not written",
              "list it by wall: 'walls: [ { name: back, lining: { thickness: 30 mm, kind: felt } }"
                  + " ]'"));
      return;
    }
    if (model.networks().get(0).port().norm() > 0 && model.means().length < 2) {
      results.notice(
          Notice.note(
              "box.walls",
              "where the port opens inside is not known, or lies outside the box; what comes out of"
                  + " it in the midrange is left out",
              "list its cut-out on its wall, and check its length"));
    }
    if (lining.differs()) {
      results.notice(
          Notice.note(
              "box.walls",
              "linings of different flow resistivity are counted with their mean",
              "line with one kind to have each counted for itself"));
    }
    List<Waves> spread = new ArrayList<>();
    if (lining.none()) {
      for (double factor : new double[] {1, 1 / LOSS_FACTOR, LOSS_FACTOR}) {
        spread.add(model.bare(WavesModel.LOSS * factor));
      }
    } else {
      spread.addAll(
          model.lined(
              lining.thickness(),
              Stream.of(1.0, 1 / lining.factor(), lining.factor())
                  .map(times -> lining.fluid(model.air(), times))
                  .toList()));
    }
    tell(spread, !lining.none());
    curves(spread.get(0).extra());
    port(spread.get(0).extra());
  }

  private void tell(List<Waves> spread, boolean lined) {
    double[][] means = model.means();
    Waves best = spread.get(0);
    for (int wave = 0; wave < WavesModel.TOLD; wave++) {
      double f = best.frequency(wave);
      if (!best.rings(wave)) {
        overdamped(wave);
        continue;
      }
      if (f * (1 + WavesModel.NEAR) > WavesModel.HIGHEST) {
        continue;
      }
      int number = wave;
      String end = "-" + (wave + 1);
      double off = open.q(best.q(wave), off(spread, s -> s.q(number)));
      String known =
          lined
              ? "with the lining as an equivalent fluid (Miki 1990); ± from the flow resistivity's"
                  + " range"
              : "loss factor of the air in a bare box 0.01 to 0.04 (common practice, no source)";
      if (lined) {
        lined(spread, number);
      }
      results.add(
          "cavity.q" + end,
          "Q of standing wave " + (wave + 1),
          "Q_" + (wave + 1),
          new Estimate(best.q(wave), off),
          "1",
          known,
          restsOn,
          lined
              ? String.format(Locale.ROOT, "with its lining it stands at %.0f Hz%s", f, law(f))
              : "no lining");
      double own = model.ripple(best, wave);
      double half = off(spread, s -> model.ripple(s, number));
      String port =
          means.length > 1
              ? String.format(Locale.ROOT, ", at the port's mouth %.1f ×", Math.abs(means[1][wave]))
              : "";
      results.add(
          "cavity.ripple" + end,
          "What standing wave " + (wave + 1) + " does to the output",
          "ΔL_" + (wave + 1),
          new Estimate(own, open.ripple(half)),
          "dB",
          METHOD
              + "; the largest change within 6 % of its frequency against all waves but this; "
              + known,
          restsOn,
          String.format(
              Locale.ROOT,
              "pressure behind the cone %.1f × the mean over the box%s",
              Math.abs(means[0][wave]),
              port));
    }
  }

  private void overdamped(int wave) {
    results.notice(
        Notice.note(
            "box.walls",
            "standing wave "
                + (wave + 1)
                + " is damped so much by the lining that it no longer rings; nothing more is told"
                + " of it",
            "nothing to do"));
  }

  /** Where a wave stands once the lining slows it. */
  private void lined(List<Waves> spread, int wave) {
    double f = spread.get(0).frequency(wave);
    double share =
        Math.hypot(
            open.frequency(spread.get(0).q(wave)),
            Math.hypot(CavityExam.SIZE, model.air().soundSpeed().relativeSd()));
    results.add(
        "cavity.lined-" + (wave + 1),
        "Standing wave " + (wave + 1) + " with the lining",
        "f_" + (wave + 1),
        new Estimate(f, Math.hypot(share * f, off(ringing(spread, wave), s -> s.frequency(wave)))),
        "Hz",
        "followed from the bare room with the lining as an equivalent fluid (Miki 1990); ± from the"
            + " sizes, the flow resistivity's range and what the model leaves open"
            + " (docs/methods/cavity.md)",
        restsOn);
  }

  /** The states in which a wave still rings. */
  private static List<Waves> ringing(List<Waves> spread, int wave) {
    return spread.stream().filter(s -> s.rings(wave)).toList();
  }

  /** Where the lining's law was fitted it says nothing. */
  private String law(double frequency) {
    return LiningLaw.MIKI.holds(RoomLining.of(model.geometry()).resistivity(), frequency)
        ? ""
        : "; the lining's law is used outside the range it was fitted in";
  }

  /** How far the states with less and with more loss lie from the best, at most. */
  private static double off(List<Waves> spread, ToDoubleFunction<Waves> of) {
    double best = of.applyAsDouble(spread.get(0));
    return spread.stream().mapToDouble(s -> Math.abs(of.applyAsDouble(s) - best)).max().orElse(0);
  }

  private double[] each(ToDoubleFunction<Network> of) {
    return networks.stream().parallel().mapToDouble(of).toArray();
  }

  /** Level at 1 m in half space, dB re 20 µPa. */
  private double pressure(Complex flow, double f) {
    return 20 * Math.log10(model.air().density().value() * f * flow.norm() / 20e-6);
  }

  private void curves(StandingWaves extra) {
    List<UnitInBox> with = networks.stream().parallel().map(n -> model.with(n, extra)).toList();
    curve(
        "cavity.output.with",
        "Level at 1 m with the waves inside",
        "dB",
        i -> pressure(with.get(i).output(), grid[i]));
    curve(
        "cavity.output.without",
        "Level at 1 m with one pressure inside",
        "dB",
        i -> pressure(model.without(networks.get(i)).output(), grid[i]));
    if (networks.get(0).port().norm() > 0) {
      curve(
          "cavity.output.port",
          "Level of the port at 1 m",
          "dB",
          i -> pressure(with.get(i).port(), grid[i]));
    }
    curve(
        "cavity.impedance",
        "Impedance with the waves inside",
        "Ω",
        i -> with.get(i).impedance().norm());
  }

  private void curve(
      String id, String name, String unit, java.util.function.IntToDoubleFunction value) {
    double[] values = IntStream.range(0, grid.length).mapToDouble(value).toArray();
    results.curve(Curve.of(id, name, "Hz", unit, grid, values));
  }

  /** Where the port is loudest against the cone, well above its tuning. */
  private void port(StandingWaves extra) {
    Network middle = networks.get(grid.length / 2);
    if (middle.port().norm() == 0 || model.tube().isEmpty()) {
      return;
    }
    double[] over =
        each(
            n -> {
              UnitInBox u = model.with(n, extra);
              return 20 * Math.log10(u.port().norm() / u.cone().norm());
            });
    double tuning = tuning();
    int loudest = -1;
    for (int i = 1; i + 1 < over.length; i++) {
      boolean peak = over[i] > over[i - 1] && over[i] >= over[i + 1];
      if (peak && grid[i] > ABOVE_TUNING * tuning && (loudest < 0 || over[i] > over[loudest])) {
        loudest = i;
      }
    }
    if (loudest >= 0 && model.means().length > 1) {
      results.add(
          "cavity.port-level",
          "The port's loudest midrange over the cone's",
          "L_P",
          new Estimate(over[loudest], PORT_MODEL),
          "dB",
          METHOD + "; the port as a straight pipe",
          restsOn,
          String.format(Locale.ROOT, "at %.0f Hz", grid[loudest]));
    }
    double pipe = model.tube().get().pipe(middle);
    results.add(
        "cavity.port-pipe",
        "The port's lowest own resonance as a pipe",
        "f_pipe",
        Estimate.relative(pipe, PIPE),
        "Hz",
        "c/2L with the length that gives the fitted mass of the port's air",
        restsOn,
        "the ends' share of that mass is less at this frequency, so it may lie a few per cent"
            + " higher");
  }

  private double tuning() {
    double[] size = each(n -> model.with(n, f -> new Complex[][] {{Complex.ZERO}}).cone().norm());
    double best = Double.POSITIVE_INFINITY;
    double at = 0;
    for (int i = 1; i + 1 < size.length && grid[i] < 200; i++) {
      if (size[i] < size[i - 1] && size[i] <= size[i + 1] && size[i] < best) {
        best = size[i];
        at = grid[i];
      }
    }
    return at;
  }
}
