package cutaway.bench.exam;

import cutaway.acoustics.air.Air;
import cutaway.acoustics.box.Port;
import cutaway.acoustics.cabinet.BoxShape;
import cutaway.acoustics.cabinet.Cavity;
import cutaway.acoustics.cabinet.CavityResponse;
import cutaway.acoustics.cabinet.Fluid;
import cutaway.acoustics.cabinet.ImpossibleShapeException;
import cutaway.acoustics.cabinet.Patch;
import cutaway.acoustics.cabinet.StandingWaves;
import cutaway.acoustics.cabinet.UnitInBox;
import cutaway.acoustics.cabinet.UnitInBox.Tube;
import cutaway.acoustics.driveunit.Drive;
import cutaway.acoustics.driveunit.JointFit;
import cutaway.acoustics.driveunit.Network;
import cutaway.acoustics.driveunit.SmallSignal;
import cutaway.acoustics.estimate.Estimate;
import cutaway.bench.finding.Curve;
import cutaway.bench.finding.Notice;
import cutaway.bench.sheet.Sheet;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import org.hipparchus.complex.Complex;

/** What the standing waves do to the output of cone and port and to the impedance. */
final class WavesExam {
  private static final double LOWEST = 30;
  private static final double HIGHEST = 1000;
  private static final int POINTS = 700;

  /** Waves that are counted, and those that are told. */
  private static final int WAVES = 60;

  private static final int TOLD = 5;

  /** Loss of the air in a bare box, and the factor it is known to (common practice, no source). */
  private static final double LOSS = 0.02;

  private static final double LOSS_FACTOR = 2;

  /** Ripple is looked for this near a wave. */
  private static final double NEAR = 0.06;

  /** Rigid walls and a place known to a centimetre leave this open in a ripple, dB; judgement. */
  private static final double MODEL = 0.5;

  /** The port's own waves begin well above the tuning. */
  private static final double ABOVE_TUNING = 3;

  /** The same in a port's level, dB; judgement. */
  private static final double PORT_MODEL = 2;

  /** A pipe's resonance from its mass is known to this; judgement. */
  private static final double PIPE = 0.05;

  private static final String METHOD =
      "fitted drive unit, box and port with the waves in box and port added, rigid walls"
          + " (docs/methods/cavity.md)";

  private final CabinetGeometry geometry;
  private final Air air;
  private final Openings openings;
  private final Optional<Tube> tube;
  private final List<String> restsOn;
  private final Results results;
  private final double[] grid = PredictionExam.grid(LOWEST, HIGHEST, POINTS);
  private final List<Network> networks;

  private WavesExam(
      Sheet sheet,
      JointFit fit,
      CabinetGeometry geometry,
      SmallSignal system,
      Openings openings,
      Results results) {
    this.geometry = geometry;
    this.air = Bench.air(sheet);
    this.openings = openings;
    this.results = results;
    this.tube = sheet.box().flatMap(BoxGeometry::port).map(this::tube);
    List<String> basis = new ArrayList<>(new Grounds(fit).area());
    basis.addAll(Openings.restOn(sheet));
    sheet.box().flatMap(Sheet.BoxReadings::port).ifPresent(p -> basis.add("box.port"));
    this.restsOn = basis.stream().distinct().toList();
    this.networks =
        IntStream.range(0, grid.length)
            .mapToObj(i -> system.network(grid[i]))
            .flatMap(Optional::stream)
            .toList();
  }

  private Tube tube(Port port) {
    double each = port.totalArea().value() / port.count();
    return new Tube(
        port.totalArea().value(),
        Math.sqrt(each / Math.PI),
        air.density().value(),
        air.soundSpeed().value());
  }

  static void run(Sheet sheet, JointFit fit, Results results) {
    Optional<CabinetGeometry> geometry = geometry(sheet);
    Optional<BoxShape> room = geometry.flatMap(g -> g.inner().room());
    Optional<Integer> take = BoxTakes.open(sheet, fit);
    if (room.isEmpty() || take.isEmpty()) {
      return;
    }
    Openings openings = Openings.of(sheet, geometry.get());
    Drive drive = Drive.of(2.83);
    Optional<SmallSignal> system = fit.best().system(take.get(), drive);
    if (openings.cone().isPresent() && system.isPresent()) {
      new WavesExam(sheet, fit, geometry.get(), system.get(), openings, results).run(room.get());
    }
  }

  private static Optional<CabinetGeometry> geometry(Sheet sheet) {
    try {
      return sheet.box().flatMap(b -> CabinetGeometry.of(b, CabinetGeometry.USUAL));
    } catch (ImpossibleShapeException e) {
      // the walls' exam tells
      return Optional.empty();
    }
  }

  /**
   * The waves as they are, or as they would be with less or with more loss.
   *
   * @param omega of each wave that is told, with its damping, rad/s
   */
  private record Waves(StandingWaves extra, Fluid air, List<Complex> omega) {
    double frequency(int wave) {
      return omega.get(wave).getReal() / (2 * Math.PI);
    }

    double q(int wave) {
      return omega.get(wave).getReal() / (2 * omega.get(wave).getImaginary());
    }
  }

  private void run(BoxShape room) {
    if (networks.size() < grid.length) {
      return;
    }
    Cavity cavity = Cavity.of(room, WAVES);
    List<Patch> patches = patches(cavity);
    RoomLining lining = RoomLining.of(geometry);
    boolean lined = !lining.none();
    if (lining.differs()) {
      results.notice(
          Notice.note(
              "box.walls",
              "linings of different flow resistivity are counted with their mean",
              "none"));
    }
    List<Waves> spread =
        lined
            ? lined(cavity, patches, lining)
            : List.of(
                bare(cavity, patches, LOSS),
                bare(cavity, patches, LOSS / LOSS_FACTOR),
                bare(cavity, patches, LOSS * LOSS_FACTOR));
    tell(cavity, patches, spread, lined);
    curves(spread.get(0).extra());
    port(spread.get(0).extra());
  }

  /** Cone, and the port's mouth where it opens inside the room. */
  private List<Patch> patches(Cavity cavity) {
    List<Patch> out = new ArrayList<>(List.of(openings.cone().orElseThrow()));
    openings.mouth().filter(m -> StandingWaves.means(cavity, m).isPresent()).ifPresent(out::add);
    return out;
  }

  private Waves bare(Cavity cavity, List<Patch> patches, double loss) {
    double[][] means =
        patches.stream().map(p -> CavityExam.mean(cavity, p)).toArray(double[][]::new);
    Fluid fluid = Fluid.air(air.density().value(), air.soundSpeed().value(), loss);
    Complex speed = fluid.bulk().divide(fluid.density()).sqrt();
    return new Waves(
        StandingWaves.bare(cavity, means, geometry.inner().volume(), fluid),
        fluid,
        IntStream.range(0, TOLD).mapToObj(w -> speed.multiply(cavity.wavenumber(w))).toList());
  }

  private List<Waves> lined(Cavity cavity, List<Patch> patches, RoomLining lining) {
    double c = air.soundSpeed().value();
    CavityResponse response =
        CavityResponse.ofWaves(cavity, geometry.inner(), lining.thickness(), patches);
    Fluid fluid = Fluid.air(air.density().value(), c, LOSS);
    List<Waves> out = new ArrayList<>();
    for (double times : new double[] {1, 1 / lining.factor(), lining.factor()}) {
      StandingWaves.Lining fibre = lining.fluid(air, times);
      List<Complex> omega = new ArrayList<>();
      for (int wave = 0; wave < TOLD; wave++) {
        double rigid = cavity.wavenumber(wave) * c / (2 * Math.PI);
        omega.add(response.resonance(wave, rigid, fluid, fibre));
      }
      out.add(new Waves(StandingWaves.lined(response, fluid, fibre), fluid, omega));
    }
    return out;
  }

  private void tell(Cavity cavity, List<Patch> patches, List<Waves> spread, boolean lined) {
    double[][] means =
        patches.stream().map(p -> CavityExam.mean(cavity, p)).toArray(double[][]::new);
    Waves best = spread.get(0);
    for (int wave = 0; wave < TOLD; wave++) {
      double f = best.frequency(wave);
      if (f * (1 + NEAR) > HIGHEST) {
        continue;
      }
      String number = "-" + (wave + 1);
      double low = spread.get(1).q(wave);
      double high = spread.get(2).q(wave);
      String known =
          lined
              ? "with the lining as an equivalent fluid (Miki 1990); ± from the flow resistivity's"
                  + " range"
              : "loss factor of the air in a bare box 0.01 to 0.04 (common practice, no source)";
      results.add(
          "cavity.q" + number,
          "Q of standing wave " + (wave + 1),
          "Q_" + (wave + 1),
          new Estimate(best.q(wave), Math.max(Math.abs(high - low) / 2, 0.1 * best.q(wave))),
          "1",
          known,
          restsOn,
          lined
              ? String.format(Locale.ROOT, "with its lining it stands at %.0f Hz", f)
              : "no lining");
      double own = ripple(best, wave, means);
      double half =
          Math.abs(ripple(spread.get(1), wave, means) - ripple(spread.get(2), wave, means)) / 2;
      String port =
          patches.size() > 1
              ? String.format(Locale.ROOT, ", at the port's mouth %.1f ×", Math.abs(means[1][wave]))
              : "";
      results.add(
          "cavity.ripple" + number,
          "What standing wave " + (wave + 1) + " does to the output",
          "ΔL_" + (wave + 1),
          new Estimate(own, Math.hypot(MODEL, half)),
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

  /** The largest change that one wave makes in the output near its frequency, dB. */
  private double ripple(Waves waves, int wave, double[][] means) {
    double[] its = Arrays.stream(means).mapToDouble(m -> m[wave]).toArray();
    StandingWaves others =
        waves.extra().without(waves.omega().get(wave), its, geometry.inner().volume(), waves.air());
    double f = waves.frequency(wave);
    return networks.stream()
        .filter(n -> Math.abs(n.frequency() / f - 1) < NEAR)
        .map(n -> level(with(n, waves.extra())) - level(with(n, others)))
        .max(Comparator.comparingDouble(Math::abs))
        .orElse(0.0);
  }

  private double[] each(ToDoubleFunction<Network> of) {
    return networks.stream().parallel().mapToDouble(of).toArray();
  }

  private UnitInBox with(Network n, StandingWaves extra) {
    return UnitInBox.of(n, extra.extra(n.frequency()), tube);
  }

  /** One pressure in the box; the port's own waves as they are. */
  private UnitInBox without(Network n) {
    return UnitInBox.of(n, new Complex[][] {{Complex.ZERO}}, tube);
  }

  private double level(UnitInBox unit) {
    return 20 * Math.log10(unit.output().norm());
  }

  /** Level at 1 m in half space, dB re 20 µPa. */
  private double pressure(Complex flow, double f) {
    return 20 * Math.log10(air.density().value() * f * flow.norm() / 20e-6);
  }

  private void curves(StandingWaves extra) {
    List<UnitInBox> with = networks.stream().parallel().map(n -> with(n, extra)).toList();
    curve(
        "cavity.output.with",
        "Level at 1 m with the waves inside",
        "dB",
        i -> pressure(with.get(i).output(), grid[i]));
    curve(
        "cavity.output.without",
        "Level at 1 m with one pressure inside",
        "dB",
        i -> pressure(without(networks.get(i)).output(), grid[i]));
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
    if (middle.port().norm() == 0 || tube.isEmpty()) {
      return;
    }
    double[] over =
        each(
            n -> {
              UnitInBox u = with(n, extra);
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
    if (loudest >= 0) {
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
    double pipe = tube.get().pipe(middle);
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
    double[] size = each(n -> with(n, f -> new Complex[][] {{Complex.ZERO}}).cone().norm());
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
