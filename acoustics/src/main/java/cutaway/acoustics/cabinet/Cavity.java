package cutaway.acoustics.cabinet;

import cutaway.acoustics.modes.Modes;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.DoubleBinaryOperator;

/**
 * The air in a box with rigid walls: its standing waves.
 *
 * <p>Where the cross-section is the same from one wall to another, the waves along that way are
 * cosines; elements are needed for the cross-section only.
 */
public final class Cavity {
  /** Degree of the polynomials where nothing else is asked. */
  private static final int ORDER = 5;

  /** Half-waves along an element at most; with order 5 the error is then some 5e-5. */
  private static final double HALF_WAVES = 1.3;

  /** Points along each axis on which waves are looked at. */
  private static final int GRID = 6;

  /** So many waves across are looked for, besides a third of those asked for. */
  private static final int FIRST_ACROSS = 4;

  /** Orders in the cells of a polyhedron, and how far they lie above the half-waves in them. */
  private static final int LEAST_CROOKED = 4;

  private static final int HIGHEST_CROOKED = 8;
  private static final double ABOVE_WAVES = 2.9;

  private final Optional<Straight> straight;
  private final CavityMesh mesh;
  private final List<Wave> waves;

  /** The waves' fields, node × wave: read together, they are looked up once. */
  private final double[][] byNode;

  private Cavity(Optional<Straight> straight, CavityMesh mesh, List<Wave> waves) {
    this.straight = straight;
    this.mesh = mesh;
    this.waves = List.copyOf(waves);
    this.byNode = new double[mesh.size()][waves.size()];
    for (int wave = 0; wave < waves.size(); wave++) {
      double[] field = waves.get(wave).field();
      for (int node = 0; node < field.length; node++) {
        byNode[node][wave] = field[node];
      }
    }
  }

  /**
   * A standing wave.
   *
   * @param square square of its wavenumber
   * @param field pressure at the mesh's nodes, mean square one over the elements' volume
   * @param along half-waves along the straight way, 0 where the elements hold it all
   */
  @SuppressWarnings("ArrayRecordComponent") // never compared
  private record Wave(double square, double[] field, int along) {}

  /**
   * Finds the lowest standing waves.
   *
   * @param shape the room inside
   * @param count how many, besides uniform pressure
   */
  public static Cavity of(BoxShape shape, int count) {
    return of(shape, count, ORDER);
  }

  /**
   * The same where the higher ones only lend their stiffness to the lower: they may be some
   * thousandths off.
   *
   * @param exact how many, from the lowest on, are found as well as ever
   */
  public static Cavity of(BoxShape shape, int count, Exact exact) {
    return of(shape, count, Math.min(count, exact.waves()), ORDER);
  }

  /**
   * How many waves are found as well as ever.
   *
   * @param waves from the lowest on
   */
  public record Exact(int waves) {}

  /** The same with elements of another order: two more lower the error a hundredfold. */
  static Cavity of(BoxShape shape, int count, int order) {
    return of(shape, count, count, order);
  }

  private static Cavity of(BoxShape shape, int count, int exact, int order) {
    double k = ModeCount.highest(exact, shape.volume());
    if (shape instanceof Polyhedron room) {
      return ofPolyhedron(room, count, exact, k);
    }
    // elements across only are so few that all waves are found as well as ever
    double highest = ModeCount.highest(count, shape.volume());
    if (shape instanceof Prism prism) {
      double[] longest = longest(prism.cells());
      Arrays.fill(longest, 0, 2, Math.max(longest[0], longest[1]));
      return ofStraight(prism.cells(), Straight.of(prism), longest, count, highest, order);
    }
    EightCorners box = (EightCorners) shape;
    Optional<Straight> straight = Straight.of(box);
    if (straight.isPresent()) {
      List<Hexahedron> one = List.of(box.whole());
      return ofStraight(one, straight.get(), box.whole().lengths(), count, highest, order);
    }
    List<Hexahedron> cells = Parts.of(box.whole().lengths(), k, HALF_WAVES).split(box.whole());
    CavityMesh mesh = new CavityMesh(cells, bare(cells), order, order, order);
    return new Cavity(Optional.empty(), mesh, waves(mesh, count + 1, exact + 1));
  }

  /** Few crooked cells of an order that grows with the waves. */
  private static Cavity ofPolyhedron(Polyhedron room, int count, int exact, double k) {
    List<Hexahedron> cells = room.cells();
    double[] longest = longest(cells);
    Arrays.fill(longest, Arrays.stream(longest).max().orElseThrow());
    double most = HIGHEST_CROOKED - ABOVE_WAVES;
    Parts parts = Parts.of(longest, k, most);
    List<Hexahedron> split = cells.stream().flatMap(c -> parts.split(c).stream()).toList();
    double pieces = Math.ceil(k * longest[0] / Math.PI / most);
    double halfWaves = k * longest[0] / Math.PI / pieces;
    int order = (int) Math.max(LEAST_CROOKED, Math.ceil(halfWaves + ABOVE_WAVES));
    CavityMesh mesh = new CavityMesh(split, bare(split), order, order, order);
    return new Cavity(Optional.empty(), mesh, waves(mesh, count + 1, exact + 1));
  }

  private static double[] longest(List<Hexahedron> cells) {
    double[] longest = new double[3];
    for (Hexahedron cell : cells) {
      double[] lengths = cell.lengths();
      for (int axis = 0; axis < 3; axis++) {
        longest[axis] = Math.max(longest[axis], lengths[axis]);
      }
    }
    return longest;
  }

  /** Elements for the cross-section only, no more than one of them along the straight way. */
  private static Cavity ofStraight(
      List<Hexahedron> cells, Straight straight, double[] lengths, int count, double k, int order) {
    double[] across = lengths.clone();
    across[straight.axis()] = 0;
    int[] orders = {order, order, order};
    orders[straight.axis()] = 0;
    Parts parts = Parts.of(across, k, HALF_WAVES);
    List<Hexahedron> split = cells.stream().flatMap(c -> parts.split(c).stream()).toList();
    CavityMesh mesh = new CavityMesh(split, bare(split), orders);
    return new Cavity(Optional.of(straight), mesh, along(straight, mesh, count + 1));
  }

  /** The lowest waves across times those along, from no more waves across than it takes. */
  private static List<Wave> along(Straight straight, CavityMesh mesh, int count) {
    int most = Math.min(count, mesh.size() - 1);
    int tried = Math.min(most, FIRST_ACROSS + count / 3);
    while (true) {
      List<Wave> across = waves(mesh, tried, tried);
      List<Wave> all = new ArrayList<>();
      for (Wave wave : across) {
        for (int n = 0; n < count; n++) {
          double k = straight.wavenumber(n);
          all.add(new Wave(wave.square() + k * k, wave.field(), n));
        }
      }
      all.sort(Comparator.comparingDouble(Wave::square));
      if (tried == most || across.get(tried - 1).square() > all.get(count - 1).square()) {
        return all.subList(0, count);
      }
      tried = Math.min(most, 2 * tried);
    }
  }

  private static List<Wave> waves(CavityMesh mesh, int count, int exact) {
    double volume = mesh.volume();
    double shift = Math.pow(volume, -2.0 / 3);
    Modes modes = Modes.lowest(mesh.stiffness(1, 1), mesh.mass(1, 1), shift, count, exact);
    List<Wave> out = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      double[] field = modes.shape(i).clone();
      for (int n = 0; n < field.length; n++) {
        field[n] *= Math.sqrt(volume);
      }
      out.add(new Wave(Math.max(0, modes.eigenvalue(i)), field, 0));
    }
    return out;
  }

  private static List<Boolean> bare(List<Hexahedron> cells) {
    return cells.stream().map(c -> false).toList();
  }

  /** Number of standing waves, uniform pressure not counted. */
  public int size() {
    return waves.size() - 1;
  }

  /** Number of unknowns that were solved for. */
  public int unknowns() {
    return mesh.size();
  }

  /**
   * Wavenumber 2πf/c of a standing wave, rad/m.
   *
   * @param mode from 0, the lowest
   */
  public double wavenumber(int mode) {
    return Math.sqrt(waves.get(mode + 1).square());
  }

  /**
   * Pressures of all standing waves at a point, mean square one over the volume; absent outside the
   * room.
   */
  public Optional<double[]> pressures(Point p) {
    return mesh.find(p)
        .map(
            place -> {
              double[] all = place.values(byNode);
              double[] out = new double[size()];
              for (int mode = 0; mode < out.length; mode++) {
                out[mode] = all[mode + 1] * along(waves.get(mode + 1), p);
              }
              return out;
            });
  }

  /**
   * Which way each standing wave runs: shares of x, y and z in its energy of motion, on a grid of
   * points within the room; wave × 3.
   */
  public double[][] ways(List<Point> corners) {
    Point low = extreme(corners, Math::min);
    Point high = extreme(corners, Math::max);
    double[][] out = new double[size()][3];
    for (int i = 0; i < GRID * GRID * GRID; i++) {
      int row = i / GRID % GRID;
      int layer = i / (GRID * GRID);
      Point p =
          new Point(
              between(low.x(), high.x(), i % GRID),
              between(low.y(), high.y(), row),
              between(low.z(), high.z(), layer));
      around(p).ifPresent(slopes -> addSquares(slopes, out));
    }
    for (double[] shares : out) {
      double sum = shares[0] + shares[1] + shares[2];
      for (int axis = 0; axis < 3; axis++) {
        shares[axis] /= sum;
      }
    }
    return out;
  }

  private static double between(double low, double high, int number) {
    return low + (high - low) * (number + 0.5) / GRID;
  }

  private static void addSquares(double[][] around, double[][] sums) {
    for (int mode = 0; mode < sums.length; mode++) {
      for (int axis = 0; axis < 3; axis++) {
        double slope = around[1 + axis][mode + 1];
        sums[mode][axis] += slope * slope;
      }
    }
  }

  private static Point extreme(List<Point> corners, DoubleBinaryOperator of) {
    return corners.stream()
        .reduce(
            (a, b) ->
                new Point(
                    of.applyAsDouble(a.x(), b.x()),
                    of.applyAsDouble(a.y(), b.y()),
                    of.applyAsDouble(a.z(), b.z())))
        .orElseThrow();
  }

  /**
   * Pressures and their slopes along x, y and z (1/m) at a point: 4 rows, in each uniform pressure
   * first; absent outside the room.
   */
  Optional<double[][]> around(Point p) {
    return mesh.around(p)
        .map(
            at -> {
              double[][] out = new double[4][];
              out[0] = at.value().values(byNode);
              out[0][0] = 1;
              for (int axis = 0; axis < 3; axis++) {
                out[1 + axis] = at.slopes().get(axis).values(byNode);
                out[1 + axis][0] = 0;
              }
              straight.ifPresent(way -> runAlong(way, p, out));
              return out;
            });
  }

  /** Multiplies what varies across with the cosines along. */
  private void runAlong(Straight way, Point p, double[][] around) {
    double[] to = {way.direction().x(), way.direction().y(), way.direction().z()};
    for (int i = 1; i <= size(); i++) {
      int halfWaves = waves.get(i).along();
      double value = around[0][i];
      for (double[] row : around) {
        row[i] *= way.wave(halfWaves, p);
      }
      for (int axis = 0; axis < 3; axis++) {
        around[1 + axis][i] += value * to[axis] * way.slope(halfWaves, p);
      }
    }
  }

  private double along(Wave wave, Point p) {
    return straight.map(way -> way.wave(wave.along(), p)).orElse(1.0);
  }
}
