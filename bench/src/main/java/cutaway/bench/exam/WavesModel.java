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
import cutaway.bench.sheet.Sheet;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.hipparchus.complex.Complex;

/** The fitted drive unit in its box with the waves inside, for any lining. */
final class WavesModel {
  private static final double LOWEST = 30;
  static final double HIGHEST = 1000;
  private static final int POINTS = 700;

  /** Waves that are counted, and those that are told. */
  private static final int WAVES = 60;

  /** So many lie below the highest frequency that is told of, in a box of 40 L. */
  private static final int EXACT = 20;

  static final int TOLD = 5;

  /** Q of critical damping: what is damped more does not swing. */
  private static final double CRITICAL = 0.5;

  /** Loss of the air in a bare box (common practice, no source). */
  static final double LOSS = 0.02;

  /** Waves this near each other are of one frequency. */
  private static final double SAME = 1e-4;

  /** Up to this share of the lowest wave's frequency the waves only lend their stiffness. */
  private static final double BELOW_WAVES = 0.5;

  /** Ripple is looked for this near a wave. */
  static final double NEAR = 0.06;

  /** Ripple is looked at in steps of this share of a wave's half-power width, or finer. */
  private static final double FINE = 0.125;

  private final CabinetGeometry geometry;
  private final Air air;
  private final Cavity cavity;
  private final double[][] means;

  /** The same with waves of one frequency mixed so that only one of them reaches the cone. */
  private final double[][] told;

  private final Optional<Tube> tube;
  private final double[] grid = PredictionExam.grid(LOWEST, HIGHEST, POINTS);
  private final List<Network> networks;

  private WavesModel(
      Sheet sheet, CabinetGeometry geometry, BoxShape room, Openings openings, SmallSignal system) {
    this.geometry = geometry;
    this.air = Bench.air(sheet);
    this.cavity = Cavity.of(room, WAVES, new Cavity.Exact(EXACT));
    this.means =
        patches(openings).stream().map(p -> CavityExam.mean(cavity, p)).toArray(double[][]::new);
    this.told = unmixed(cavity, means);
    this.tube = sheet.box().flatMap(BoxGeometry::port).map(this::tube);
    this.networks =
        IntStream.range(0, grid.length)
            .mapToObj(i -> system.network(grid[i]))
            .flatMap(Optional::stream)
            .toList();
  }

  /** The model, where box, fit and the place of the drive unit are known. */
  static Optional<WavesModel> of(Sheet sheet, JointFit fit) {
    Optional<CabinetGeometry> geometry = geometry(sheet);
    Optional<BoxShape> room = geometry.flatMap(g -> g.inner().room());
    Optional<SmallSignal> system =
        BoxTakes.open(sheet, fit).flatMap(take -> fit.best().system(take, Drive.of(2.83)));
    if (room.isEmpty() || system.isEmpty()) {
      return Optional.empty();
    }
    Openings openings = Openings.of(sheet, geometry.get());
    if (openings.cone().isEmpty() || system.get().network(LOWEST).isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(new WavesModel(sheet, geometry.get(), room.get(), openings, system.get()));
  }

  private static Optional<CabinetGeometry> geometry(Sheet sheet) {
    try {
      return sheet.box().flatMap(b -> CabinetGeometry.of(b, CabinetGeometry.USUAL));
    } catch (ImpossibleShapeException e) {
      // the walls' exam tells
      return Optional.empty();
    }
  }

  private Tube tube(Port port) {
    double each = port.totalArea().value() / port.count();
    return new Tube(
        port.totalArea().value(),
        Math.sqrt(each / Math.PI),
        air.density().value(),
        air.soundSpeed().value());
  }

  /** Cone, and the port's mouth where it opens inside the room. */
  private List<Patch> patches(Openings openings) {
    List<Patch> out = new ArrayList<>(List.of(openings.cone().orElseThrow()));
    openings.mouth().filter(m -> StandingWaves.means(cavity, m).isPresent()).ifPresent(out::add);
    return List.copyOf(out);
  }

  /**
   * Waves of one frequency may be mixed at will; here so that the first of them carries all that
   * the cone hears.
   */
  private static double[][] unmixed(Cavity cavity, double[][] means) {
    double[][] out = Arrays.stream(means).map(double[]::clone).toArray(double[][]::new);
    int first = 0;
    while (first < cavity.size()) {
      int end = first + 1;
      while (end < cavity.size()
          && cavity.wavenumber(end) < cavity.wavenumber(first) * (1 + SAME)) {
        end++;
      }
      double size = 0;
      for (int k = first; k < end; k++) {
        size += means[0][k] * means[0][k];
      }
      if (end - first == 2 && size > 0) {
        double cos = means[0][first] / Math.sqrt(size);
        double sin = means[0][first + 1] / Math.sqrt(size);
        for (int patch = 0; patch < means.length; patch++) {
          out[patch][first] = cos * means[patch][first] + sin * means[patch][first + 1];
          out[patch][first + 1] = cos * means[patch][first + 1] - sin * means[patch][first];
        }
      }
      first = end;
    }
    return out;
  }

  /**
   * Waves with some loss.
   *
   * @param extra what they add to the pressures
   * @param air what fills the room, with its loss
   * @param omega of each wave that is told, with its damping, rad/s
   */
  record Waves(StandingWaves extra, Fluid air, List<Complex> omega) {
    double frequency(int wave) {
      return omega.get(wave).getReal() / (2 * Math.PI);
    }

    /** Q of a wave; that of one which no longer rings is ½. */
    double q(int wave) {
      return WavesModel.q(omega.get(wave));
    }

    /** Whether a wave still rings in its lining. */
    boolean rings(int wave) {
      return q(wave) > CRITICAL;
    }
  }

  /** Q of e^{jωt}, ½ where it no longer rings. */
  static double q(Complex omega) {
    double q = omega.getReal() / (2 * omega.getImaginary());
    return omega.getReal() > 0 && q > CRITICAL ? q : CRITICAL;
  }

  CabinetGeometry geometry() {
    return geometry;
  }

  Air air() {
    return air;
  }

  double[] grid() {
    return grid.clone();
  }

  List<Network> networks() {
    return networks;
  }

  Optional<Tube> tube() {
    return tube;
  }

  /** Mean pressure of each wave behind the cone and, where it is placed, at the port's mouth. */
  double[][] means() {
    return told.clone();
  }

  Waves bare(double loss) {
    Fluid fluid = Fluid.air(air.density().value(), air.soundSpeed().value(), loss);
    Complex speed = fluid.bulk().divide(fluid.density()).sqrt();
    return new Waves(
        StandingWaves.bare(cavity, means, geometry.inner().volume(), fluid),
        fluid,
        IntStream.range(0, TOLD).mapToObj(w -> speed.multiply(cavity.wavenumber(w))).toList());
  }

  /** The room with a lining, m on each wall, for several states of it. */
  List<Waves> lined(double[] thickness, List<StandingWaves.Lining> states) {
    double c = air.soundSpeed().value();
    CavityResponse response = CavityResponse.ofWaves(cavity, geometry.inner(), thickness, means);
    Fluid fluid = Fluid.air(air.density().value(), c, LOSS);
    List<Waves> out = new ArrayList<>();
    double[] rigid =
        IntStream.range(0, TOLD)
            .mapToDouble(wave -> cavity.wavenumber(wave) * c / (2 * Math.PI))
            .toArray();
    for (StandingWaves.Lining fibre : states) {
      out.add(
          new Waves(
              StandingWaves.lined(response, fluid, fibre)
                  .smoothBetween(LOWEST, BELOW_WAVES * rigid[0])
                  .kept(),
              fluid,
              response.resonances(rigid, fluid, fibre)));
    }
    return out;
  }

  /** The largest change that one wave makes in the output near its frequency, dB. */
  double ripple(Waves waves, int wave) {
    if (!waves.rings(wave)) {
      return 0;
    }
    double[] its = Arrays.stream(told).mapToDouble(m -> m[wave]).toArray();
    Complex omega = waves.omega().get(wave);
    double volume = geometry.inner().volume();
    double f = waves.frequency(wave);
    List<Network> near =
        networks.stream().filter(n -> Math.abs(n.frequency() / f - 1) < NEAR).toList();
    int step = (int) Math.max(1, FINE / (waves.q(wave) * Math.log(HIGHEST / LOWEST) / POINTS));
    return IntStream.range(0, (near.size() + step - 1) / step)
        .mapToObj(i -> near.get(step * i))
        .parallel()
        .map(
            n -> {
              Complex[][] all = waves.extra().extra(n.frequency());
              Complex[][] others =
                  StandingWaves.without(all, n.frequency(), omega, its, volume, waves.air());
              return level(UnitInBox.of(n, all, tube)) - level(UnitInBox.of(n, others, tube));
            })
        .max(Comparator.comparingDouble(Math::abs))
        .orElse(0.0);
  }

  UnitInBox with(Network n, StandingWaves extra) {
    return UnitInBox.of(n, extra.extra(n.frequency()), tube);
  }

  /** One pressure in the box; the port's own waves as they are. */
  UnitInBox without(Network n) {
    return UnitInBox.of(n, new Complex[][] {{Complex.ZERO}}, tube);
  }

  private static double level(UnitInBox unit) {
    return 20 * Math.log10(unit.output().norm());
  }
}
