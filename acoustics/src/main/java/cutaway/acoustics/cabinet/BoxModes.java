package cutaway.acoustics.cabinet;

import cutaway.acoustics.modes.Modes;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/** How the walls of a box swing together, in vacuo, the box hung freely or on its feet. */
public final class BoxModes {
  static final int ORDER = 5;

  /** Cells are made for a count so much higher. */
  private static final double MARGIN = 1.3;

  /** Boxes whose corners lie within this share of their size are alike, if their walls are too. */
  private static final double MOVED = 1e-3;

  /** Logarithm of the ratio of thicknesses up to which walls are. */
  private static final double THICKER = 0.04;

  /** The same of E/ρ and of what is fixed to a wall; the error goes with its square. */
  private static final double STIFFER = 0.12;

  private final Spectrum spectrum;
  private final List<Place> places;
  private final Optional<Whole> whole;

  /** Elements of some or all walls, and how their unknowns move in each mode. */
  @SuppressWarnings("ArrayRecordComponent") // never compared
  record Part(ShellMesh mesh, double[][] fields) {}

  /** Where a wall is to be found. */
  record Place(Part part, int wall) {
    Wall is() {
      return part.mesh().walls().get(wall);
    }

    WallMesh mesh() {
      return part.mesh().wallMesh(wall);
    }
  }

  /** All walls solved together. */
  private record Whole(ShellMatrices matrices, Swinging swinging) {}

  /**
   * What the walls' modes have besides their shapes.
   *
   * @param eigenvalues ω²
   * @param feet share of each one's strain that is in the feet
   * @param onFeet frequencies at which the box moves on its feet as a whole, Hz
   * @param mass of the box, kg
   */
  @SuppressWarnings("ArrayRecordComponent") // never compared
  private record Spectrum(double[] eigenvalues, double[] feet, double[] onFeet, double mass) {
    static Spectrum of(Swinging swinging) {
      return new Spectrum(
          swinging.eigenvalues(), swinging.feet(), swinging.whole(), swinging.mass());
    }
  }

  private BoxModes(Spectrum spectrum, List<Place> places, Optional<Whole> whole) {
    this.spectrum = spectrum;
    this.places = List.copyOf(places);
    this.whole = whole;
  }

  private static BoxModes of(Whole whole) {
    Swinging swinging = whole.swinging();
    Part part =
        new Part(
            whole.matrices().shell(),
            swinging.walls().stream().map(swinging.modes()::shape).toArray(double[][]::new));
    return new BoxModes(
        Spectrum.of(swinging),
        IntStream.range(0, part.mesh().walls().size())
            .mapToObj(wall -> new Place(part, wall))
            .toList(),
        Optional.of(whole));
  }

  /** Modes put together from parts; places in the order of the walls. */
  static BoxModes ofParts(Swinging swinging, List<Place> places) {
    return new BoxModes(Spectrum.of(swinging), places, Optional.empty());
  }

  /**
   * Finds the lowest modes.
   *
   * @param walls joined where edges meet and where one stands on another
   * @param count how many, motion of the box as a whole not counted
   */
  public static BoxModes of(List<Wall> walls, int count) {
    return of(walls, count, ORDER);
  }

  static BoxModes of(List<Wall> walls, int count, int order) {
    return solved(new ShellMesh(walls, longest(walls, count), order), walls, count);
  }

  /**
   * Looks whether a box can be solved.
   *
   * @throws ImpossibleShapeException where cut-outs, braces or walls do not fit each other
   */
  public static void check(List<Wall> walls) {
    new ShellMesh(walls, longest(walls, 1), 1);
  }

  /** Longest cell that so many modes need, m. */
  static double longest(List<Wall> walls, int count) {
    double top = highest(walls, MARGIN * count);
    return walls.stream()
        .mapToDouble(w -> 2 * Math.PI / wavenumber(w.panel().board(), top))
        .min()
        .orElseThrow();
  }

  /** ω² of about the lowest bending mode. */
  static double shift(List<Wall> walls) {
    return Math.pow(2 * Math.PI * highest(walls, 1), 2);
  }

  /**
   * Those of a box that may differ little. Where its size and thicknesses do, they are sought among
   * the sums of these modes, some per thousand off at most; otherwise they are found in full.
   *
   * @param walls in the same order
   */
  public BoxModes nearby(List<Wall> walls) {
    if (whole.isEmpty()) {
      return of(walls, size());
    }
    Whole mine = whole.get();
    ShellMesh near = mine.matrices().shell().again(walls);
    if (!near.cutAs(mine.matrices().shell()) || !alike(walls)) {
      return of(walls, size());
    }
    ShellMatrices its = mine.matrices().again(near);
    Modes within = its.within(mine.matrices(), mine.swinging().modes());
    Swinging swinging = Swinging.among(within, size(), shift(walls), its.feet(), its.stiffBody());
    return swinging.walls().size() == size() ? of(new Whole(its, swinging)) : of(walls, size());
  }

  /** The same modes without what {@link #nearby} starts from, a tenth of the memory. */
  public BoxModes slim() {
    return new BoxModes(spectrum, places, Optional.empty());
  }

  private boolean alike(List<Wall> others) {
    List<Wall> mine = walls().subList(0, others.size());
    Point origin = mine.get(0).corners().get(0);
    double size = 0;
    double moved = 0;
    double thicker = 0;
    double stiffer = 0;
    double heavier = 0;
    for (int wall = 0; wall < others.size(); wall++) {
      List<Point> was = mine.get(wall).corners();
      List<Point> is = others.get(wall).corners();
      for (int i = 0; i < was.size(); i++) {
        size = Math.max(size, was.get(i).minus(origin).length());
        moved = Math.max(moved, was.get(i).minus(is.get(i)).length());
      }
      List<Foot> stood = mine.get(wall).feet();
      List<Foot> stands = others.get(wall).feet();
      if (stood.size() != stands.size()) {
        return false;
      }
      for (int i = 0; i < stood.size(); i++) {
        moved = Math.max(moved, stood.get(i).at().minus(stands.get(i).at()).length());
        stiffer = Math.max(stiffer, apart(stood.get(i).stiffness(), stands.get(i).stiffness()));
        stiffer = Math.max(stiffer, apart(stood.get(i).sideways(), stands.get(i).sideways()));
        stiffer = Math.max(stiffer, apart(stood.get(i).diameter(), stands.get(i).diameter()));
      }
      Board before = mine.get(wall).panel().board();
      Board after = others.get(wall).panel().board();
      thicker = Math.max(thicker, apart(before.thickness(), after.thickness()));
      stiffer =
          Math.max(
              stiffer, apart(before.along() / before.density(), after.along() / after.density()));
      heavier =
          Math.max(
              heavier, apart(loaded(mine.get(wall).panel()), loaded(others.get(wall).panel())));
    }
    return moved < MOVED * size && thicker < THICKER && stiffer < STIFFER && heavier < STIFFER;
  }

  private static double apart(double a, double b) {
    return Math.abs(Math.log(b / a));
  }

  /** Surface mass over density, with what is fixed to the panel; m. */
  private static double loaded(Panel panel) {
    double fixed = panel.masses().stream().mapToDouble(AddedMass::mass).sum();
    for (CutOut cut : panel.cutOuts()) {
      fixed += cut instanceof Hole hole ? hole.mass() : 0;
    }
    return panel.board().thickness() + fixed / panel.outline().area() / panel.board().density();
  }

  private static BoxModes solved(ShellMesh mesh, List<Wall> walls, int count) {
    double shift = shift(walls);
    ShellMatrices matrices = ShellMatrices.of(mesh);
    Swinging swinging =
        Swinging.find(
            count,
            shift,
            matrices.feet(),
            matrices.stiffBody(),
            asked -> matrices.modes(shift, asked));
    return of(new Whole(matrices, swinging));
  }

  /** Wavenumber of bending at a frequency, rad/m; the softer way of the board. */
  private static double wavenumber(Board board, double frequency) {
    double[] d = board.stiffness();
    double omega = 2 * Math.PI * frequency;
    return Math.pow(board.surfaceMass() * omega * omega / Math.min(d[0], d[6]), 0.25);
  }

  /** About where a count of modes ends, after Weyl: N = Σ S k²/4π; Hz. */
  private static double highest(List<Wall> walls, double count) {
    double perHertz = 0;
    for (Wall wall : walls) {
      double k = wavenumber(wall.panel().board(), 1);
      perHertz += wall.panel().outline().area() * k * k / (4 * Math.PI);
    }
    return count / perHertz;
  }

  /** Number of modes. */
  public int size() {
    return spectrum.eigenvalues().length;
  }

  /**
   * Frequency of a mode, Hz.
   *
   * @param mode from 0, the lowest
   */
  public double frequency(int mode) {
    return Math.sqrt(spectrum.eigenvalues()[mode]) / (2 * Math.PI);
  }

  /** Share of a mode's strain that is in the feet, 0 where it hangs freely. */
  public double feet(int mode) {
    return spectrum.feet()[mode];
  }

  /** Mass of the walls and of what is fixed to them, kg. */
  public double mass() {
    return spectrum.mass();
  }

  /** Frequencies at which the box moves on its feet as a whole, Hz, lowest first. */
  public double[] onFeet() {
    return spectrum.onFeet().clone();
  }

  /** The walls, those given first, then their braces. */
  public List<Wall> walls() {
    return places.stream().map(Place::is).toList();
  }

  /**
   * Displacement of a mode, unit modal mass, 1/√kg.
   *
   * @param wall which of the walls
   * @param p a place in the axes of the wall's plane
   * @return in space; absent where the wall has none
   */
  public Optional<Point> displacement(int mode, int wall, Point p) {
    Place place = places.get(wall);
    return place.mesh().displacement(place.part().fields()[mode], p);
  }

  /** Places to integrate a wall's motion over. */
  public Surface surface(int wall) {
    Place place = places.get(wall);
    return place.part().mesh().surface(place.wall());
  }

  /** Displacement of a mode along a wall's normal at the places of its surface, 1/√kg. */
  public double[] normal(int mode, int wall) {
    Place place = places.get(wall);
    return place.mesh().normal(place.part().fields()[mode]);
  }

  /** Root mean square of a mode's displacement along a wall's normal, 1/√kg. */
  public double rms(int mode, int wall) {
    double[] w = normal(mode, wall);
    double[] areas = surface(wall).areas();
    double sum = 0;
    double area = 0;
    for (int i = 0; i < w.length; i++) {
      sum += areas[i] * w[i] * w[i];
      area += areas[i];
    }
    return Math.sqrt(sum / area);
  }

  /** Number of unknowns, for benchmarks. */
  public int unknowns() {
    return places.stream().map(p -> p.part().mesh()).distinct().mapToInt(ShellMesh::unknowns).sum();
  }
}
