package cutaway.acoustics.cabinet;

import cutaway.acoustics.modes.Modes;
import cutaway.acoustics.modes.Ritz;
import cutaway.acoustics.modes.SymmetricSum;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;

/**
 * Spectral elements for walls joined at their edges and for what stands on them.
 *
 * <p>Within a wall a node has w and the turns β across and along the edge it lies on (β_x and β_y
 * inside), and u and v where the wall stretches; along a shared edge it follows the {@link Seam};
 * where a wall stands on another's face it follows the line of its foot in that face.
 */
final class ShellMesh {
  /** Nodes nearer than this share of the size are one. */
  private static final double NODE_GRAIN = 1e-7;

  private final int order;
  private final boolean stretches;
  private final double longest;
  private final double grain;
  private final Joinery joinery;
  private final List<Wall> walls = new ArrayList<>();
  private final List<Seam> seams = new ArrayList<>();
  private final PlaceIndex jointPlaces;
  private final List<Motion> joints = new ArrayList<>();
  private final Map<Integer, WallMesh> meshes = new LinkedHashMap<>();
  private final int joined;
  private final Map<Integer, Surface> surfaces = new ConcurrentHashMap<>();

  /** What the cells of each wall add. */
  private final Map<Integer, List<Share>> shares = new LinkedHashMap<>();

  private int unknowns;
  private SymmetricSum stiffness;
  private SymmetricSum mass;
  private double[] diagonal;

  /** One wall's cells and how their nodes move. */
  private static final class WallMesh {
    final Wall wall;
    final List<PanelCell> cells;
    final List<PlateElement> elements;
    final List<int[]> cellNodes = new ArrayList<>();
    final PlaceIndex nodes;
    final List<Motion.Row[]> rows = new ArrayList<>();
    final List<Motion> motions = new ArrayList<>();
    boolean placed;

    WallMesh(Wall wall, List<PanelCell> cells, List<PlateElement> elements, PlaceIndex nodes) {
      this.wall = wall;
      this.cells = cells;
      this.elements = elements;
      this.nodes = nodes;
    }
  }

  /**
   * Builds the elements.
   *
   * @param given walls; their braces are added as walls of their own
   * @param longest no cell is much longer, m
   * @param order degree of the polynomials along each side
   */
  ShellMesh(List<Wall> given, double longest, int order) {
    this(given, wall -> true, longest, order);
  }

  /**
   * The elements of some walls, joined as if all were there.
   *
   * @param here whether the wall of a number is built, its braces with it
   */
  ShellMesh(List<Wall> given, IntPredicate here, double longest, int order) {
    this(given, here, longest, order, Optional.empty());
  }

  private ShellMesh(
      List<Wall> given, IntPredicate here, double longest, int order, Optional<ShellMesh> alike) {
    this.order = order;
    this.longest = longest;
    walls.addAll(given);
    List<Integer> built = new ArrayList<>();
    IntStream.range(0, given.size()).filter(here).forEach(built::add);
    for (int i = 0; i < given.size(); i++) {
      Wall wall = given.get(i);
      for (Brace brace : wall.panel().braces()) {
        if (here.test(i)) {
          built.add(walls.size());
        }
        walls.add(brace.standingOn(wall));
      }
    }
    this.stretches = walls.size() > 1;
    Point first = walls.get(0).corners().get(0);
    double size =
        walls.stream()
            .flatMap(w -> w.corners().stream())
            .mapToDouble(p -> p.minus(first).length())
            .max()
            .orElseThrow();
    this.grain = NODE_GRAIN * size;
    this.joinery = new Joinery(walls, size);
    this.jointPlaces = new PlaceIndex(joinery.grain());
    sew();
    this.joined = unknowns;
    for (int wall : built) {
      meshes.put(wall, meshed(walls.get(wall)));
    }
    meshes.values().forEach(this::place);
    assemble(alike.filter(this::hasTheShapeOf));
  }

  private void sew() {
    List<Edge> shared = joinery.shared();
    for (Edge edge : shared) {
      seams.add(new Seam(edge, joinery.breaks(edge), longest, order, p -> joint(p, shared)));
    }
  }

  /** A joint's motion: it turns about every edge that runs through it. */
  private Motion joint(Point p, List<Edge> shared) {
    int number = jointPlaces.at(p);
    if (number == joints.size()) {
      List<Point> axes = joinery.directions(p, shared);
      joints.add(Motion.free(unknowns, axes));
      unknowns += 3 + axes.size();
    }
    return joints.get(number);
  }

  private Optional<Seam> seam(Edge edge) {
    return seams.stream().filter(s -> s.edge().same(edge, joinery.grain())).findFirst();
  }

  private WallMesh meshed(Wall wall) {
    List<PanelCell> cells = PanelCells.of(wall.panel(), joinery.feetOn(wall), longest);
    WallMesh mesh =
        new WallMesh(
            wall,
            cells,
            CellOrders.elements(cells, longest, order, grain, stretches),
            new PlaceIndex(grain));
    for (int cell = 0; cell < cells.size(); cell++) {
      PlateElement element = mesh.elements.get(cell);
      int[] its = new int[element.nodes()];
      for (int node = 0; node < its.length; node++) {
        its[node] = mesh.nodes.at(element.place(cells.get(cell), node));
      }
      mesh.cellNodes.add(its);
    }
    return mesh;
  }

  /** Finds how each node of a wall moves, after those of the walls that it stands on. */
  private void place(WallMesh mesh) {
    if (mesh.placed) {
      return;
    }
    mesh.placed = true;
    List<Foot> feet = feet(mesh.wall);
    feet.forEach(f -> place(f.host()));
    List<Sewn> sewn = new ArrayList<>();
    for (Edge edge : Edge.of(mesh.wall)) {
      seam(edge).ifPresent(s -> sewn.add(new Sewn(edge, s)));
    }
    for (int node = 0; node < mesh.nodes.size(); node++) {
      Motion motion = motion(mesh, mesh.nodes.place(node), sewn, feet);
      mesh.motions.add(motion);
      Plane plane = mesh.wall.plane();
      Motion.Row[] rows = new Motion.Row[stretches ? 5 : 3];
      rows[0] = motion.along(plane.normal());
      // β_x = θ_y and β_y = −θ_x: u = zβ
      rows[1] = motion.about(plane.across());
      rows[2] = motion.about(plane.along().times(-1));
      if (stretches) {
        rows[3] = motion.along(plane.along());
        rows[4] = motion.along(plane.across());
      }
      mesh.rows.add(rows);
    }
  }

  /** An edge by which a wall stands on another's face. */
  private record Foot(Edge edge, WallMesh host) {}

  private List<Foot> feet(Wall guest) {
    List<Foot> out = new ArrayList<>();
    for (Edge edge : Edge.of(guest)) {
      for (WallMesh host : meshes.values()) {
        boolean another = !host.wall.equals(guest) && seam(edge).isEmpty();
        if (another && joinery.standsOn(edge, guest, host.wall)) {
          out.add(new Foot(edge, host));
        }
      }
    }
    return out;
  }

  /** An edge of a wall that is a seam. */
  private record Sewn(Edge edge, Seam seam) {}

  private Motion motion(WallMesh mesh, Point local, List<Sewn> sewn, List<Foot> feet) {
    Hold hold = Hold.at(mesh.wall.panel(), local, grain);
    if (hold.clamped()) {
      return Motion.none();
    }
    Point p = mesh.wall.plane().space(local);
    for (Sewn one : sewn) {
      if (one.edge().covers(p, grain)) {
        return one.seam().at(p);
      }
    }
    for (Foot foot : feet) {
      if (foot.edge().covers(p, grain)) {
        return standing(foot, p);
      }
    }
    return inside(mesh.wall.plane(), hold);
  }

  /** Motion of a place on the foot of a wall, fixed to the host's middle plane below it. */
  private Motion standing(Foot foot, Point p) {
    WallMesh host = foot.host();
    Plane plane = host.wall.plane();
    Point local = plane.local(p);
    Point under = new Point(local.x(), local.y(), 0);
    Point along = foot.edge().along();
    for (int cell = 0; cell < host.cells.size(); cell++) {
      Optional<double[]> place = host.cells.get(cell).find(under);
      if (place.isPresent()) {
        double xi = snapped(place.get()[0]);
        double eta = snapped(place.get()[1]);
        double[] way = {along.dot(plane.along()), along.dot(plane.across())};
        List<Motion> motions = new ArrayList<>();
        for (int node : host.cellNodes.get(cell)) {
          motions.add(host.motions.get(node));
        }
        PlateElement element = host.elements.get(cell);
        Motion slope = Motion.sum(motions, element.slopes(host.cells.get(cell), xi, eta, way));
        Motion face = Motion.sum(motions, element.values(xi, eta));
        return face.onLine(along, slope).at(plane.normal().times(local.z()));
      }
    }
    throw new ImpossibleShapeException(
        "a brace stands over a cut-out or the edge of the " + host.wall.name() + " wall");
  }

  /** Rounding off the ends, so that a node on a side is no sum of all. */
  private static double snapped(double xi) {
    return Math.abs(Math.abs(xi) - 1) < 1e-9 ? Math.signum(xi) : xi;
  }

  /** A node with unknowns of its own, as far as its edge lets it move. */
  private Motion inside(Plane plane, Hold hold) {
    Map<Integer, double[]> out = new LinkedHashMap<>();
    double x = hold.across()[0];
    double y = hold.across()[1];
    Point e1 = plane.along();
    Point e2 = plane.across();
    if (hold.moves()) {
      out.put(unknowns++, displacement(plane.normal()));
    }
    if (hold.turnsAcross()) {
      out.put(unknowns++, turn(e2.times(x).minus(e1.times(y))));
    }
    if (hold.moves()) {
      out.put(unknowns++, turn(e2.times(-y).minus(e1.times(x))));
    }
    if (stretches && hold.turnsAcross()) {
      out.put(unknowns++, displacement(e1.times(x).plus(e2.times(y))));
    }
    if (stretches && hold.moves()) {
      out.put(unknowns++, displacement(e1.times(-y).plus(e2.times(x))));
    }
    return new Motion(out);
  }

  private static double[] displacement(Point d) {
    return new double[] {d.x(), d.y(), d.z(), 0, 0, 0};
  }

  private static double[] turn(Point d) {
    return new double[] {0, 0, 0, d.x(), d.y(), d.z()};
  }

  /**
   * What a cell adds.
   *
   * @param stiffness of its unknowns
   * @param masses of each of its rows, kg or kg m²
   * @param tied masses of rows that are sums of unknowns; absent where there are none
   */
  @SuppressWarnings("ArrayRecordComponent") // never compared
  private record Share(
      Motion.Row[] rows, Part stiffness, double[] masses, Optional<Part> tied, double[] centre) {
    /** A matrix of some unknowns. */
    record Part(int[] unknowns, double[] matrix) {}
  }

  /** Whether all walls lie where another's do, so that their unknowns have the same numbers. */
  private boolean hasTheShapeOf(ShellMesh other) {
    return cutAs(other)
        && IntStream.range(0, walls.size())
            .allMatch(i -> walls.get(i).corners().equals(other.walls.get(i).corners()));
  }

  /**
   * Adds up what the cells have.
   *
   * @param alike of whose walls those that are no different are taken as they are
   */
  private void assemble(Optional<ShellMesh> alike) {
    meshes.forEach(
        (number, mesh) ->
            shares.put(
                number,
                alike
                    .filter(other -> other.walls.get(number).equals(mesh.wall))
                    .map(other -> Objects.requireNonNull(other.shares.get(number)))
                    .orElseGet(() -> shares(mesh))));
    stiffness = new SymmetricSum(unknowns);
    mass = new SymmetricSum(unknowns);
    diagonal = new double[unknowns];
    shares.values().forEach(its -> its.forEach(this::add));
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
    int fields = stretches ? 5 : 3;
    Motion.Row[] rows = new Motion.Row[fields * its.length];
    for (int i = 0; i < its.length; i++) {
      System.arraycopy(mesh.rows.get(its[i]), 0, rows, fields * i, fields);
    }
    double[] k = element.stiffness(quad, law(panel, quad));
    springs(panel, quad, element, k);
    Point middle = mesh.wall.plane().space(quad.at(0, 0));
    Tie tie = Tie.of(rows);
    double[] areas = element.areas(quad);
    double[] masses = new double[rows.length];
    double inertia = 1 + load / panel.board().surfaceMass();
    for (int i = 0; i < rows.length; i++) {
      boolean turns = i % fields == 1 || i % fields == 2;
      double per = turns ? panel.board().rotaryInertia() : panel.board().surfaceMass();
      masses[i] = areas[i / fields] * inertia * per;
    }
    return new Share(
        rows,
        new Share.Part(tie.unknowns(), tie.of(k)),
        masses,
        tied(rows, masses),
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

  /** Stiffness of a cell: more where it lies under the foot of a brace. */
  private double[] law(Panel panel, PanelCell cell) {
    if (!stretches) {
      return panel.board().stiffness();
    }
    double[] out = panel.board().stiffnessWithStretch();
    for (Brace brace : panel.braces()) {
      if (cell.corners().stream().allMatch(brace::covers)) {
        out = brace.stiffened(out, 8, panel.board());
      }
    }
    return out;
  }

  /** Adds the springs of supported edges to the rotations across them. */
  private void springs(Panel panel, PanelCell quad, PlateElement element, double[] k) {
    List<Edge> edges = Edge.round(panel.outline().corners());
    List<Edge> sides = Edge.round(quad.corners());
    int fields = stretches ? 5 : 3;
    int size = fields * element.nodes();
    for (int edge = 0; edge < edges.size(); edge++) {
      Edge rim = edges.get(edge);
      for (int side = 0; side < 4; side++) {
        Point begin = sides.get(side).from();
        Point end = sides.get(side).to();
        if (panel.supports().get(edge) instanceof Support.Supported s
            && s.spring() > 0
            && rim.covers(begin, grain)
            && rim.covers(end, grain)) {
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

  /** Whether a wall that is here stands on one that is not. */
  boolean leansOnOthers() {
    for (WallMesh mesh : meshes.values()) {
      for (Edge edge : Edge.of(mesh.wall)) {
        for (int other = 0; other < walls.size(); other++) {
          if (!meshes.containsKey(other)
              && seam(edge).isEmpty()
              && joinery.standsOn(edge, mesh.wall, walls.get(other))) {
            return true;
          }
        }
      }
    }
    return false;
  }

  /** Whether it holds a wall. */
  boolean holds(int wall) {
    return meshes.containsKey(wall);
  }

  /** Number of unknowns of the joints, which come first. */
  int joined() {
    return joined;
  }

  SymmetricSum stiffness() {
    return stiffness;
  }

  /** Mass that is more than its diagonal. */
  SymmetricSum tiedMass() {
    return mass;
  }

  /** Diagonal of the mass. */
  double[] diagonal() {
    return diagonal;
  }

  /** Number of unknowns. */
  int unknowns() {
    return unknowns;
  }

  /**
   * The lowest modes.
   *
   * @param shift of the size of the lowest bending mode's ω²
   */
  Modes modes(double shift, int count) {
    return stretches
        ? Modes.lowest(stiffness, diagonal, mass, shift, count)
        : Modes.lowest(stiffness, diagonal, shift, count);
  }

  /**
   * The modes among the sums of those of another.
   *
   * @param other cut alike
   * @param modes its own
   */
  Modes within(ShellMesh other, Modes modes) {
    double[] heavier = new double[unknowns];
    Arrays.setAll(heavier, i -> diagonal[i] - other.diagonal[i]);
    return Ritz.changed(modes, stiffness.minus(other.stiffness), heavier, mass.minus(other.mass));
  }

  private int cells(int wall) {
    return wallMesh(wall).cells.size();
  }

  private WallMesh wallMesh(int wall) {
    return Objects.requireNonNull(meshes.get(wall), "a wall that is not here");
  }

  /** One of other walls, cut as finely. */
  ShellMesh again(List<Wall> others) {
    return new ShellMesh(others, wall -> true, longest, order, Optional.of(this));
  }

  /** Whether its walls are cut into the same cells, so that their unknowns are the same. */
  boolean cutAs(ShellMesh other) {
    return unknowns == other.unknowns
        && meshes.keySet().equals(other.meshes.keySet())
        && meshes.keySet().stream().allMatch(i -> cells(i) == other.cells(i));
  }

  /** Share of the first wall's motion that is off its plane. */
  double bending(double[] field) {
    double off = 0;
    double all = 0;
    WallMesh mesh = wallMesh(0);
    for (int cell = 0; cell < mesh.cells.size(); cell++) {
      double[] areas = mesh.elements.get(cell).areas(mesh.cells.get(cell));
      for (int i = 0; i < areas.length; i++) {
        Motion.Row[] rows = mesh.rows.get(mesh.cellNodes.get(cell)[i]);
        for (int part = 0; part < rows.length; part++) {
          double moved = part == 1 || part == 2 ? 0 : rows[part].of(field);
          off += part == 0 ? areas[i] * moved * moved : 0;
          all += areas[i] * moved * moved;
        }
      }
    }
    return all == 0 ? 0 : off / all;
  }

  /** The walls, those given first, then their braces. */
  List<Wall> walls() {
    return List.copyOf(walls);
  }

  /** Displacement of a wall's middle plane at a place in its axes; absent where there is none. */
  Optional<Point> displacement(int wall, double[] field, Point p) {
    WallMesh mesh = wallMesh(wall);
    for (int cell = 0; cell < mesh.cells.size(); cell++) {
      Optional<double[]> place = mesh.cells.get(cell).find(p);
      if (place.isPresent()) {
        double[] weights = mesh.elements.get(cell).values(place.get()[0], place.get()[1]);
        double[] sum = new double[5];
        for (int i = 0; i < weights.length; i++) {
          Motion.Row[] rows = mesh.rows.get(mesh.cellNodes.get(cell)[i]);
          for (int part = 0; part < rows.length; part++) {
            sum[part] += weights[i] * rows[part].of(field);
          }
        }
        Plane plane = mesh.wall.plane();
        return Optional.of(
            plane
                .normal()
                .times(sum[0])
                .plus(plane.along().times(sum[3]))
                .plus(plane.across().times(sum[4])));
      }
    }
    return Optional.empty();
  }

  /** The places of a wall's elements with the area each stands for. */
  Surface surface(int wall) {
    return surfaces.computeIfAbsent(wall, this::surfaceOf);
  }

  private Surface surfaceOf(int wall) {
    WallMesh mesh = wallMesh(wall);
    double[] areas = new double[mesh.nodes.size()];
    for (int cell = 0; cell < mesh.cells.size(); cell++) {
      double[] its = mesh.elements.get(cell).areas(mesh.cells.get(cell));
      for (int i = 0; i < its.length; i++) {
        areas[mesh.cellNodes.get(cell)[i]] += its[i];
      }
    }
    List<Point> places = new ArrayList<>();
    for (int node = 0; node < areas.length; node++) {
      places.add(mesh.wall.plane().space(mesh.nodes.place(node)));
    }
    return new Surface(places, areas);
  }

  /** Displacement along a wall's normal at the places of its surface. */
  double[] normal(int wall, double[] field) {
    return wallMesh(wall).rows.stream().mapToDouble(r -> r[0].of(field)).toArray();
  }
}
