package cutaway.acoustics.cabinet;

import cutaway.acoustics.modes.Modes;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/** How the walls of a box swing together, in vacuo, the box hung freely. */
public final class BoxModes {
  private static final int ORDER = 5;

  /** Cells are made for a count so much higher. */
  private static final double MARGIN = 1.3;

  /** Boxes whose corners lie within this share of their size are alike, if their walls are too. */
  private static final double MOVED = 1e-3;

  /** Logarithm of the ratio of thicknesses up to which walls are. */
  private static final double THICKER = 0.04;

  /** Eigenvalues below this share of the shift are the box flying off whole. */
  private static final double RIGID = 1e-5;

  private final ShellMesh mesh;
  private final Modes modes;
  private final List<Integer> swinging;

  private BoxModes(ShellMesh mesh, Modes modes, List<Integer> swinging) {
    this.mesh = mesh;
    this.modes = modes;
    this.swinging = List.copyOf(swinging);
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
    double top = highest(walls, MARGIN * count);
    double longest =
        walls.stream()
            .mapToDouble(w -> 2 * Math.PI / wavenumber(w.panel().board(), top))
            .min()
            .orElseThrow();
    return solved(new ShellMesh(walls, longest, order), walls, count);
  }

  /**
   * Those of a box that may differ little. Where its size and thicknesses do, they are sought among
   * the sums of these modes, some per thousand off at most; otherwise they are found in full.
   *
   * @param walls in the same order
   */
  public BoxModes nearby(List<Wall> walls) {
    ShellMesh near = mesh.again(walls);
    if (!near.cutAs(mesh) || !alike(walls)) {
      return of(walls, size());
    }
    Modes within = near.within(modes);
    return new BoxModes(near, within, swinging);
  }

  private boolean alike(List<Wall> others) {
    List<Wall> mine = mesh.walls().subList(0, others.size());
    Point origin = mine.get(0).corners().get(0);
    double size = 0;
    double moved = 0;
    double thicker = 0;
    for (int wall = 0; wall < others.size(); wall++) {
      List<Point> was = mine.get(wall).corners();
      List<Point> is = others.get(wall).corners();
      for (int i = 0; i < was.size(); i++) {
        size = Math.max(size, was.get(i).minus(origin).length());
        moved = Math.max(moved, was.get(i).minus(is.get(i)).length());
      }
      double before = mine.get(wall).panel().board().thickness();
      double after = others.get(wall).panel().board().thickness();
      thicker = Math.max(thicker, Math.abs(Math.log(after / before)));
    }
    return moved < MOVED * size && thicker < THICKER;
  }

  private static BoxModes solved(ShellMesh mesh, List<Wall> walls, int count) {
    double shift = Math.pow(2 * Math.PI * highest(walls, 1), 2);
    for (int asked = count + 6; ; asked += count + 6) {
      Modes modes = mesh.modes(shift, asked);
      List<Integer> swinging =
          IntStream.range(0, asked)
              .filter(i -> modes.eigenvalue(i) > RIGID * shift)
              .limit(count)
              .boxed()
              .toList();
      if (swinging.size() == count) {
        return new BoxModes(mesh, modes, swinging);
      }
    }
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
    return swinging.size();
  }

  /**
   * Frequency of a mode, Hz.
   *
   * @param mode from 0, the lowest
   */
  public double frequency(int mode) {
    return Math.sqrt(modes.eigenvalue(swinging.get(mode))) / (2 * Math.PI);
  }

  /** The walls, those given first, then their braces. */
  public List<Wall> walls() {
    return mesh.walls();
  }

  /**
   * Displacement of a mode, unit modal mass, 1/√kg.
   *
   * @param wall which of the walls
   * @param p a place in the axes of the wall's plane
   * @return in space; absent where the wall has none
   */
  public Optional<Point> displacement(int mode, int wall, Point p) {
    return mesh.displacement(wall, modes.shape(swinging.get(mode)), p);
  }

  /** Places to integrate a wall's motion over. */
  public Surface surface(int wall) {
    return mesh.surface(wall);
  }

  /** Displacement of a mode along a wall's normal at the places of its surface, 1/√kg. */
  public double[] normal(int mode, int wall) {
    return mesh.normal(wall, modes.shape(swinging.get(mode)));
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
    return mesh.unknowns();
  }
}
