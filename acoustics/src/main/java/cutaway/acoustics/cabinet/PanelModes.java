package cutaway.acoustics.cabinet;

import cutaway.acoustics.modes.Modes;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/** How a panel swings by itself, in vacuo. */
public final class PanelModes {
  private static final int ORDER = 7;

  /** Over Weyl's count, which edges lower. */
  private static final double MARGIN = 2.0;

  /** Eigenvalues below this share of the first bending mode's are the panel flying off whole. */
  private static final double RIGID = 1e-6;

  /** Modes with less of their energy off the panel's plane stretch it rather than bend it. */
  private static final double BENDS = 0.5;

  private final ShellMesh mesh;
  private final Modes modes;

  /** Which of them bend the panel, lowest first. */
  private final List<Integer> bending;

  private PanelModes(ShellMesh mesh, Modes modes, List<Integer> bending) {
    this.mesh = mesh;
    this.modes = modes;
    this.bending = List.copyOf(bending);
  }

  /**
   * Finds the lowest bending modes.
   *
   * @param count how many, those in which a free panel moves without bending not counted
   */
  public static PanelModes of(Panel panel, int count) {
    return of(panel, count, ORDER);
  }

  static PanelModes of(Panel panel, int count, int order) {
    double area = panel.outline().area();
    // Weyl's count of a plate's modes: a wavelength to a cell
    double wavenumber = Math.sqrt(4 * Math.PI * MARGIN * count / area);
    Plane plane = new Plane(new Point(0, 0, 0), new Point(1, 0, 0), new Point(0, 1, 0));
    ShellMesh mesh =
        new ShellMesh(List.of(new Wall("panel", plane, panel)), 2 * Math.PI / wavenumber, order);
    double[] d = panel.board().stiffness();
    // of the size of the lowest bending mode's ω²
    double shift =
        Math.max(d[0], d[6]) / panel.board().surfaceMass() * Math.pow(Math.PI, 4) / (area * area);
    ShellMatrices matrices = ShellMatrices.of(mesh);
    for (int asked = count + 6; ; asked += count + 6) {
      Modes modes = matrices.modes(shift, asked);
      List<Integer> bending =
          IntStream.range(0, asked)
              .filter(i -> modes.eigenvalue(i) > RIGID * shift)
              .filter(i -> mesh.wallMesh(0).bending(modes.shape(i)) > BENDS)
              .limit(count)
              .boxed()
              .toList();
      if (bending.size() == count) {
        return new PanelModes(mesh, modes, bending);
      }
    }
  }

  /** Number of bending modes. */
  public int size() {
    return bending.size();
  }

  /**
   * Frequency of a mode, Hz.
   *
   * @param mode from 0, the lowest
   */
  public double frequency(int mode) {
    return Math.sqrt(modes.eigenvalue(bending.get(mode))) / (2 * Math.PI);
  }

  /** Deflection of a mode at a point, unit modal mass, 1/√kg; absent outside the panel. */
  public Optional<Double> deflection(int mode, Point p) {
    return mesh.wallMesh(0).displacement(modes.shape(bending.get(mode)), p).map(Point::z);
  }
}
