package cutaway.bench.exam;

import cutaway.acoustics.air.Air;
import cutaway.acoustics.cabinet.BoxShape;
import cutaway.acoustics.cabinet.Cavity;
import cutaway.acoustics.cabinet.EightCorners;
import cutaway.acoustics.cabinet.Enclosure;
import cutaway.acoustics.cabinet.Patch;
import cutaway.acoustics.cabinet.Point;
import cutaway.acoustics.cabinet.StandingWaves;
import cutaway.acoustics.estimate.Estimate;
import cutaway.bench.result.Results;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/** Standing waves in the air of the box, and what its shape bought over a plain one. */
final class CavityExam {
  private static final int MODES = 15;
  private static final int TOLD = 5;

  /** Modes up to here are counted against the plain box, Hz. */
  private static final double UP_TO = 1500;

  private static final String METHOD =
      "rigid walls, no lining: spectral elements for the Helmholtz equation in the room's shape"
          + " (docs/methods/cavity.md)";

  /** What the sizes are known to, where the sheet says no better. */
  static final double SIZE = 0.005;

  /** An axis with this share of the largest counts. */
  private static final double SOME = 0.15;

  /** Axes with this share together have the wave to themselves. */
  private static final double PURE = 0.98;

  private final CabinetGeometry geometry;
  private final Air air;
  private final Results results;
  private final List<String> restsOn;

  private CavityExam(CabinetGeometry geometry, Air air, List<String> restsOn, Results results) {
    this.geometry = geometry;
    this.air = air;
    this.restsOn = restsOn;
    this.results = results;
  }

  /** The standing waves, where the shape can be computed. */
  static Optional<Cavity> run(
      CabinetGeometry geometry,
      Air air,
      Optional<Patch> cone,
      List<String> restsOn,
      Results results) {
    Optional<BoxShape> room = geometry.inner().room();
    if (room.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(new CavityExam(geometry, air, restsOn, results).waves(room.get(), cone));
  }

  private Cavity waves(BoxShape room, Optional<Patch> cone) {
    Cavity cavity = Cavity.of(room, MODES);
    double c = air.soundSpeed().value();
    double relative = Math.hypot(SIZE, air.soundSpeed().relativeSd());
    double[][] ways = cavity.ways(geometry.inner().corners());
    String state = RoomLining.of(geometry).none() ? "" : ", without the lining";
    for (int mode = 0; mode < TOLD; mode++) {
      int which = mode;
      double f = cavity.wavenumber(mode) * c / (2 * Math.PI);
      String coupling =
          cone.map(p -> mean(cavity, p)[which])
              .map(
                  p ->
                      Math.abs(p) < 0.3
                          ? "the drive unit sits near a node: it hardly drives this one"
                          : String.format(
                              Locale.ROOT,
                              "pressure behind the cone %.1f × the mean over the box",
                              Math.abs(p)))
              .orElse("the sheet does not say where the drive unit sits");
      results.add(
          "cavity.wave-" + (mode + 1),
          "Standing wave " + (mode + 1) + edges(cavity, mode).orElse(way(ways[mode])) + state,
          "f_" + (mode + 1),
          Estimate.relative(f, relative),
          "Hz",
          METHOD,
          restsOn,
          coupling);
    }
    cone.ifPresent(p -> bought(cavity, p, c));
    return cavity;
  }

  /** Along which edges of a plain box a wave runs. */
  private Optional<String> edges(Cavity cavity, int mode) {
    Enclosure inner = geometry.inner();
    double k = cavity.wavenumber(mode);
    double[] sizes = extents();
    String[] names = {"width", "depth", "height"};
    boolean plain = Math.abs(sizes[0] * sizes[1] * sizes[2] / inner.volume() - 1) < 1e-9;
    int[] most = new int[3];
    for (int axis = 0; axis < 3; axis++) {
      most[axis] = plain ? (int) (1.01 * k * sizes[axis] / Math.PI) : -1;
    }
    for (int x = 0; x <= most[0]; x++) {
      for (int y = 0; y <= most[1]; y++) {
        for (int z = 0; z <= most[2]; z++) {
          double own = Math.PI * Math.hypot(Math.hypot(x / sizes[0], y / sizes[1]), z / sizes[2]);
          if (Math.abs(own / k - 1) < 1e-4) {
            int[] n = {x, y, z};
            return Optional.of(
                ", along the "
                    + IntStream.range(0, 3)
                        .filter(axis -> n[axis] > 0)
                        .mapToObj(axis -> names[axis])
                        .collect(Collectors.joining(" and ")));
          }
        }
      }
    }
    return Optional.empty();
  }

  /** Along which axes a wave runs: those that have a good share in its motion. */
  private static String way(double[] shares) {
    double most = Math.max(shares[0], Math.max(shares[1], shares[2]));
    List<String> names = List.of("width", "depth", "height");
    int[] axes = IntStream.range(0, 3).filter(axis -> shares[axis] > SOME * most).toArray();
    double its = IntStream.of(axes).mapToDouble(axis -> shares[axis]).sum();
    return (its < PURE ? ", mostly along the " : ", along the ")
        + IntStream.of(axes).mapToObj(names::get).collect(Collectors.joining(" and "));
  }

  private double[] extents() {
    double[] low = new double[3];
    double[] high = new double[3];
    java.util.Arrays.fill(low, Double.POSITIVE_INFINITY);
    java.util.Arrays.fill(high, Double.NEGATIVE_INFINITY);
    for (Point p : geometry.inner().corners()) {
      double[] at = {p.x(), p.y(), p.z()};
      for (int i = 0; i < 3; i++) {
        low[i] = Math.min(low[i], at[i]);
        high[i] = Math.max(high[i], at[i]);
      }
    }
    return new double[] {high[0] - low[0], high[1] - low[1], high[2] - low[2]};
  }

  /** Mean of each wave's pressure over a patch; nought where that lies outside the room. */
  static double[] mean(Cavity cavity, Patch patch) {
    return StandingWaves.means(cavity, patch).orElseGet(() -> new double[cavity.size()]);
  }

  /** Against a plain box of the same volume and proportions, the cone at the same shares. */
  private void bought(Cavity cavity, Patch cone, double c) {
    double[] sizes = extents();
    double volume = geometry.inner().volume();
    double shrink = Math.cbrt(volume / (sizes[0] * sizes[1] * sizes[2]));
    if (shrink > 0.999) {
      return;
    }
    Cavity plain =
        Cavity.of(
            EightCorners.rectangular(sizes[0] * shrink, sizes[1] * shrink, sizes[2] * shrink),
            MODES);
    List<Point> points = new ArrayList<>();
    Point corner = lowest();
    cone.points().forEach(p -> points.add(p.minus(corner).times(shrink)));
    Patch same = new Patch(points, cone.weights(), List.of());
    double mine = strongest(cavity, cone, c);
    double theirs = strongest(plain, same, c);
    double gain = 20 * Math.log10(theirs / mine);
    results.add(
        "cavity.shape-gain",
        "Strongest standing wave behind the cone, below that in a plain box as large",
        "ΔL",
        new Estimate(gain, 1),
        "dB",
        METHOD
            + "; the same volume as a rectangular box of the same proportions, waves below 1.5 kHz,"
            + " pressure behind the cone over the mean over the box",
        restsOn,
        String.format(
            Locale.ROOT,
            "waves below 1.5 kHz: %d, in the plain box %d; the lowest at %.0f Hz, there %.0f Hz",
            count(cavity, c),
            count(plain, c),
            cavity.wavenumber(0) * c / (2 * Math.PI),
            plain.wavenumber(0) * c / (2 * Math.PI)));
  }

  private Point lowest() {
    double x = Double.POSITIVE_INFINITY;
    double y = Double.POSITIVE_INFINITY;
    double z = Double.POSITIVE_INFINITY;
    for (Point p : geometry.inner().corners()) {
      x = Math.min(x, p.x());
      y = Math.min(y, p.y());
      z = Math.min(z, p.z());
    }
    return new Point(x, y, z);
  }

  private static int count(Cavity cavity, double c) {
    int out = 0;
    for (int mode = 0; mode < cavity.size(); mode++) {
      out += cavity.wavenumber(mode) * c / (2 * Math.PI) < UP_TO ? 1 : 0;
    }
    return out;
  }

  /** Square: a wave is driven at the cone and heard there. */
  private static double strongest(Cavity cavity, Patch cone, double c) {
    double[] mean = mean(cavity, cone);
    double most = 1e-6;
    for (int mode = 0; mode < mean.length; mode++) {
      if (cavity.wavenumber(mode) * c / (2 * Math.PI) < UP_TO) {
        most = Math.max(most, mean[mode] * mean[mode]);
      }
    }
    return most;
  }
}
