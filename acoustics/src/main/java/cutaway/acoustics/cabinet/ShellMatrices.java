package cutaway.acoustics.cabinet;

import cutaway.acoustics.modes.Modes;
import cutaway.acoustics.modes.Ritz;
import cutaway.acoustics.modes.SymmetricSum;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * Stiffness and mass of walls that are cut into cells and joined: what all cells have, added up.
 */
final class ShellMatrices {
  private final ShellMesh shell;

  /** What the cells of each wall add. */
  private final Map<Integer, List<Share>> shares = new LinkedHashMap<>();

  private final SymmetricSum stiffness;
  private final SymmetricSum mass;

  /** The feet's part of the stiffness. */
  private final SymmetricSum feet;

  private final double[] diagonal;

  /**
   * What a cell adds.
   *
   * @param stiffness of its unknowns
   * @param masses of each of its rows, kg or kg m²
   * @param tied masses of rows that are sums of unknowns; absent where there are none
   * @param feet what feet under it have of the stiffness
   */
  @SuppressWarnings("ArrayRecordComponent") // never compared
  private record Share(
      Motion.Row[] rows,
      Part stiffness,
      double[] masses,
      Optional<Part> tied,
      Optional<Part> feet,
      double[] centre) {
    /** A matrix of some unknowns. */
    record Part(int[] unknowns, double[] matrix) {}
  }

  private ShellMatrices(ShellMesh shell, Optional<ShellMatrices> alike) {
    this.shell = shell;
    for (int wall : shell.built()) {
      shares.put(
          wall,
          alike
              .filter(other -> other.shell.walls().get(wall).equals(shell.walls().get(wall)))
              .map(other -> Objects.requireNonNull(other.shares.get(wall)))
              .orElseGet(() -> shares(shell.wallMesh(wall))));
    }
    stiffness = new SymmetricSum(shell.unknowns());
    mass = new SymmetricSum(shell.unknowns());
    feet = new SymmetricSum(shell.unknowns());
    diagonal = new double[shell.unknowns()];
    shares.values().forEach(its -> its.forEach(this::add));
  }

  /** Adds up what the cells have. */
  static ShellMatrices of(ShellMesh shell) {
    return new ShellMatrices(shell, Optional.empty());
  }

  /** Those of other walls; the ones that are no different and lie where they lay as they are. */
  ShellMatrices again(ShellMesh others) {
    return new ShellMatrices(others, Optional.of(this).filter(m -> others.hasTheShapeOf(m.shell)));
  }

  /** Worked out side by side, listed in their order. */
  private List<Share> shares(WallMesh mesh) {
    double[] loads = PanelCells.loads(mesh.wall.panel(), mesh.cells);
    return IntStream.range(0, loads.length)
        .parallel()
        .mapToObj(cell -> share(mesh, cell, loads[cell]))
        .toList();
  }

  private void add(Share share) {
    stiffness.add(share.stiffness().unknowns(), share.stiffness().matrix(), share.centre());
    share.tied().ifPresent(t -> mass.add(t.unknowns(), t.matrix(), share.centre()));
    share.feet().ifPresent(f -> feet.add(f.unknowns(), f.matrix(), share.centre()));
    for (int i = 0; i < share.rows().length; i++) {
      if (share.rows()[i].single()) {
        diagonal[share.rows()[i].unknowns()[0]] += share.masses()[i];
      }
    }
  }

  /**
   * What one cell adds.
   *
   * @param load fixed to it, kg/m²
   */
  private Share share(WallMesh mesh, int cell, double load) {
    Panel panel = mesh.wall.panel();
    PanelCell quad = mesh.cells.get(cell);
    PlateElement element = mesh.elements.get(cell);
    int[] its = mesh.cellNodes.get(cell);
    int fields = shell.stretches() ? 5 : 3;
    Motion.Row[] rows = new Motion.Row[fields * its.length];
    for (int i = 0; i < its.length; i++) {
      System.arraycopy(mesh.rows.get(its[i]), 0, rows, fields * i, fields);
    }
    double[] k = element.stiffness(quad, law(panel, quad));
    springs(panel, quad, element, k);
    Optional<double[]> feet = feet(mesh, cell);
    feet.ifPresent(f -> Arrays.setAll(k, i -> k[i] + f[i]));
    Point middle = mesh.wall.plane().space(quad.at(0, 0));
    Tie tie = Tie.of(rows);
    double[] areas = element.areas(quad);
    double[] masses = new double[rows.length];
    double inertia = 1 + load / panel.board().surfaceMass();
    double moved = inertia * panel.board().surfaceMass();
    double turned = inertia * panel.board().rotaryInertia();
    for (Brace brace : over(panel, quad)) {
      moved += brace.footMass(panel);
      turned += brace.footInertia(panel);
    }
    for (int i = 0; i < rows.length; i++) {
      boolean turns = i % fields == 1 || i % fields == 2;
      masses[i] = areas[i / fields] * (turns ? turned : moved);
    }
    return new Share(
        rows,
        new Share.Part(tie.unknowns(), tie.of(k)),
        masses,
        tied(rows, masses),
        feet.map(f -> new Share.Part(tie.unknowns(), tie.of(f))),
        new double[] {middle.x(), middle.y(), middle.z()});
  }

  /** Masses of rows that are more than one unknown's alone. */
  private static Optional<Share.Part> tied(Motion.Row[] rows, double[] masses) {
    int[] its =
        IntStream.range(0, rows.length)
            .filter(i -> !rows[i].single() && rows[i].unknowns().length > 0)
            .toArray();
    if (its.length == 0) {
      return Optional.empty();
    }
    Tie tie = Tie.of(Arrays.stream(its).mapToObj(i -> rows[i]).toArray(Motion.Row[]::new));
    double[] each = Arrays.stream(its).mapToDouble(i -> masses[i]).toArray();
    return Optional.of(new Share.Part(tie.unknowns(), tie.ofDiagonal(each)));
  }

  /** Stiffness of a cell: more where it lies under a brace. */
  private double[] law(Panel panel, PanelCell cell) {
    if (!shell.stretches()) {
      return panel.board().stiffness();
    }
    double[] out = panel.board().stiffnessWithStretch();
    for (Brace brace : over(panel, cell)) {
      brace.addFoot(out, panel);
    }
    return out;
  }

  /** Braces whose feet are glued on a cell. */
  private static List<Brace> over(Panel panel, PanelCell cell) {
    return panel.braces().stream()
        .filter(b -> cell.corners().stream().allMatch(b::nearlyCovers))
        .filter(b -> b.covers(cell.at(0, 0)) && b.footDepth(panel) > 0)
        .toList();
  }

  /** Adds the springs of supported edges to the rotations across them. */
  private void springs(Panel panel, PanelCell quad, PlateElement element, double[] k) {
    List<Edge> edges = Edge.round(panel.outline().corners());
    List<Edge> sides = Edge.round(quad.corners());
    int fields = shell.stretches() ? 5 : 3;
    int size = fields * element.nodes();
    for (int edge = 0; edge < edges.size(); edge++) {
      Edge rim = edges.get(edge);
      for (int side = 0; side < 4; side++) {
        Point begin = sides.get(side).from();
        Point end = sides.get(side).to();
        if (panel.supports().get(edge) instanceof Support.Supported s
            && s.spring() > 0
            && rim.covers(begin, shell.grain())
            && rim.covers(end, shell.grain())) {
          Point along = rim.along();
          double[] across = {along.y(), -along.x()};
          PlateElement.Side its = element.side(side);
          for (int i = 0; i < its.nodes().length; i++) {
            double spring = s.spring() * its.weights()[i] * end.minus(begin).length() / 2;
            int place = fields * its.nodes()[i] + 1;
            for (int r = 0; r < 2; r++) {
              for (int c = 0; c < 2; c++) {
                k[(place + r) * size + place + c] += spring * across[r] * across[c];
              }
            }
          }
        }
      }
    }
  }

  /** Stiffness of what feet bear on a cell: of its outer face where they do, u = u₀ + zβ. */
  private Optional<double[]> feet(WallMesh mesh, int cell) {
    List<WallMesh.Bearing> its = mesh.bearings.stream().filter(b -> b.cell() == cell).toList();
    if (its.isEmpty()) {
      return Optional.empty();
    }
    PlateElement element = mesh.elements.get(cell);
    int fields = shell.stretches() ? 5 : 3;
    int size = fields * element.nodes();
    double z = mesh.wall.panel().board().thickness() / 2;
    double[] out = new double[size * size];
    for (WallMesh.Bearing bearing : its) {
      double[] values = element.values(bearing.place()[0], bearing.place()[1]);
      double[] w = new double[size];
      double[] u = new double[size];
      double[] v = new double[size];
      for (int i = 0; i < values.length; i++) {
        w[fields * i] = values[i];
        if (shell.stretches()) {
          u[fields * i + 1] = z * values[i];
          v[fields * i + 2] = z * values[i];
          u[fields * i + 3] = values[i];
          v[fields * i + 4] = values[i];
        }
      }
      addSquare(out, w, bearing.share() * bearing.foot().stiffness());
      addSquare(out, u, bearing.share() * bearing.foot().sideways());
      addSquare(out, v, bearing.share() * bearing.foot().sideways());
    }
    return Optional.of(out);
  }

  /** A + f xxᵀ. */
  private static void addSquare(double[] a, double[] x, double f) {
    for (int i = 0; i < x.length; i++) {
      for (int k = 0; k < x.length; k++) {
        a[i * x.length + k] += f * x[i] * x[k];
      }
    }
  }

  /** Of which walls. */
  ShellMesh shell() {
    return shell;
  }

  /** Stiffness. */
  SymmetricSum stiffness() {
    return stiffness;
  }

  /** What of the stiffness is the feet's. */
  SymmetricSum feet() {
    return feet;
  }

  /** Mass that is more than its diagonal. */
  SymmetricSum tiedMass() {
    return mass;
  }

  /** Diagonal of the mass. */
  double[] diagonal() {
    return diagonal;
  }

  /** M times each of some motions. */
  double[][] momenta(double[][] motions) {
    double[][] out = new double[motions.length][diagonal.length];
    for (int i = 0; i < out.length; i++) {
      mass.multiply(motions[i], out[i]);
      for (int k = 0; k < diagonal.length; k++) {
        out[i][k] += diagonal[k] * motions[i][k];
      }
    }
    return out;
  }

  /** All walls as one stiff body. */
  StiffBody stiffBody() {
    double[][] motions = shell.stiffBody(shell.walls().get(0).corners().get(0));
    double[][] momenta = momenta(motions);
    return new StiffBody(momenta, StiffBody.products(motions, momenta));
  }

  /**
   * The lowest modes.
   *
   * @param shift of the size of the lowest bending mode's ω²
   */
  Modes modes(double shift, int count) {
    return shell.stretches()
        ? Modes.lowest(stiffness, diagonal, mass, shift, count)
        : Modes.lowest(stiffness, diagonal, shift, count);
  }

  /**
   * The modes among the sums of those of another.
   *
   * @param other cut alike
   * @param modes its own
   */
  Modes within(ShellMatrices other, Modes modes) {
    double[] heavier = new double[diagonal.length];
    Arrays.setAll(heavier, i -> diagonal[i] - other.diagonal[i]);
    return Ritz.changed(modes, stiffness.minus(other.stiffness), heavier, mass.minus(other.mass));
  }
}
