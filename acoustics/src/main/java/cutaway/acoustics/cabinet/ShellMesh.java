package cutaway.acoustics.cabinet;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
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
  private int unknowns;

  /** Where each unknown's node lies, and what one of it does there. */
  private final List<Point> nodePlaces = new ArrayList<>();

  private final List<double[]> nodeParts = new ArrayList<>();

  /** Nodes that would stand on a wall that is not here. */
  private final List<Leaning> leaning = new ArrayList<>();

  /**
   * A node that would stand on a wall that is not here.
   *
   * @param guest the wall it is of
   * @param at where it lies, in space
   * @param motion its own, as nothing holds it
   */
  record Leaning(Wall guest, Point at, Motion motion) {}

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
    this.order = order;
    this.longest = longest;
    walls.addAll(given);
    List<Integer> built = new ArrayList<>();
    IntStream.range(0, given.size()).filter(here).forEach(built::add);
    for (int i = 0; i < given.size(); i++) {
      Wall wall = given.get(i);
      for (Wall standing : wall.braces()) {
        if (here.test(i)) {
          built.add(walls.size());
        }
        walls.add(standing);
      }
    }
    this.stretches =
        walls.size() > 1 || given.stream().anyMatch(w -> !w.panel().braces().isEmpty());
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
      Motion motion = Motion.free(unknowns, axes);
      joints.add(motion);
      keep(motion, p);
    }
    return joints.get(number);
  }

  private Optional<Seam> seam(Edge edge) {
    return seams.stream().filter(s -> s.edge().same(edge, joinery.grain())).findFirst();
  }

  private WallMesh meshed(Wall wall) {
    List<PanelCell> cells = PanelCells.of(wall.panel(), joinery.feetOn(wall), wall.feet(), longest);
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
    List<FootLine> feet = feet(mesh.wall);
    feet.forEach(f -> place(f.host()));
    List<Sewn> sewn = new ArrayList<>();
    for (Edge edge : Edge.of(mesh.wall)) {
      seam(edge).ifPresent(s -> sewn.add(new Sewn(edge, s)));
    }
    List<Edge> astray = astray(mesh.wall);
    for (int node = 0; node < mesh.nodes.size(); node++) {
      int before = unknowns;
      Motion motion = motion(mesh, mesh.nodes.place(node), sewn, feet);
      Point at = mesh.wall.plane().space(mesh.nodes.place(node));
      if (unknowns > before && astray.stream().anyMatch(e -> e.covers(at, grain))) {
        leaning.add(new Leaning(mesh.wall, at, motion));
      }
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
  private record FootLine(Edge edge, WallMesh host) {}

  private List<FootLine> feet(Wall guest) {
    List<FootLine> out = new ArrayList<>();
    for (Edge edge : Edge.of(guest)) {
      for (WallMesh host : meshes.values()) {
        boolean another = !host.wall.equals(guest) && seam(edge).isEmpty();
        if (another && joinery.standsOn(edge, guest, host.wall)) {
          out.add(new FootLine(edge, host));
        }
      }
    }
    return out;
  }

  /** An edge of a wall that is a seam. */
  private record Sewn(Edge edge, Seam seam) {}

  private Motion motion(WallMesh mesh, Point local, List<Sewn> sewn, List<FootLine> feet) {
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
    for (FootLine foot : feet) {
      if (foot.edge().covers(p, grain)) {
        return standing(foot, p);
      }
    }
    return inside(mesh.wall.plane(), hold, p);
  }

  /** Motion of a place on the foot of a wall, fixed to the host's middle plane below it. */
  private Motion standing(FootLine foot, Point p) {
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
  private Motion inside(Plane plane, Hold hold, Point p) {
    int next = unknowns;
    Map<Integer, double[]> out = new LinkedHashMap<>();
    double x = hold.across()[0];
    double y = hold.across()[1];
    Point e1 = plane.along();
    Point e2 = plane.across();
    if (hold.moves()) {
      out.put(next++, displacement(plane.normal()));
    }
    if (hold.turnsAcross()) {
      out.put(next++, turn(e2.times(x).minus(e1.times(y))));
    }
    if (hold.moves()) {
      out.put(next++, turn(e2.times(-y).minus(e1.times(x))));
    }
    if (stretches && hold.turnsAcross()) {
      out.put(next++, displacement(e1.times(x).plus(e2.times(y))));
    }
    if (stretches && hold.moves()) {
      out.put(next++, displacement(e1.times(-y).plus(e2.times(x))));
    }
    Motion motion = new Motion(out);
    keep(motion, p);
    return motion;
  }

  /** Counts a node's own unknowns. */
  private void keep(Motion motion, Point p) {
    motion.parts().values().forEach(nodeParts::add);
    motion.parts().keySet().forEach(unknown -> nodePlaces.add(p));
    unknowns += motion.parts().size();
  }

  /**
   * How the unknowns move where all moves as one stiff body: along the three axes, and about them
   * through a place.
   *
   * @return six by the number of unknowns
   */
  double[][] stiffBody(Point through) {
    double[][] out = new double[6][unknowns];
    for (int unknown = 0; unknown < unknowns; unknown++) {
      double[] part = nodeParts.get(unknown);
      Point moved = new Point(part[0], part[1], part[2]);
      Point arm = nodePlaces.get(unknown).minus(through);
      // d·(ω × r) = ω·(r × d)
      Point lever = arm.cross(moved);
      double[] turned = {lever.x() + part[3], lever.y() + part[4], lever.z() + part[5]};
      for (int axis = 0; axis < 3; axis++) {
        out[axis][unknown] = part[axis];
        out[3 + axis][unknown] = turned[axis];
      }
    }
    return out;
  }

  private static double[] displacement(Point d) {
    return new double[] {d.x(), d.y(), d.z(), 0, 0, 0};
  }

  private static double[] turn(Point d) {
    return new double[] {0, 0, 0, d.x(), d.y(), d.z()};
  }

  /** Whether all walls lie where another's do, so that their unknowns have the same numbers. */
  boolean hasTheShapeOf(ShellMesh other) {
    return cutAs(other)
        && IntStream.range(0, walls.size())
            .allMatch(i -> walls.get(i).corners().equals(other.walls.get(i).corners()));
  }

  /** Edges by which a wall stands on one that is not here. */
  private List<Edge> astray(Wall guest) {
    List<Wall> missing =
        IntStream.range(0, walls.size())
            .filter(i -> !meshes.containsKey(i))
            .mapToObj(walls::get)
            .toList();
    return Edge.of(guest).stream()
        .filter(e -> seam(e).isEmpty())
        .filter(e -> missing.stream().anyMatch(host -> joinery.standsOn(e, guest, host)))
        .toList();
  }

  /** Nodes that would stand on a wall that is not here. */
  List<Leaning> leaning() {
    return List.copyOf(leaning);
  }

  /**
   * How a node moves that stands on a wall which is here.
   *
   * @throws ImpossibleShapeException where there is a hole under it
   */
  Motion standing(Leaning node) {
    for (Edge edge : Edge.of(node.guest())) {
      for (WallMesh host : meshes.values()) {
        if (edge.covers(node.at(), grain) && joinery.standsOn(edge, node.guest(), host.wall)) {
          return standing(new FootLine(edge, host), node.at());
        }
      }
    }
    throw new IllegalArgumentException("it stands on no wall that is here");
  }

  /** Whether it holds a wall. */
  boolean holds(int wall) {
    return meshes.containsKey(wall);
  }

  /** Number of unknowns of the joints, which come first. */
  int joined() {
    return joined;
  }

  /** Numbers of the walls that are here. */
  Set<Integer> built() {
    return meshes.keySet();
  }

  /** Whether the walls' middle planes move in themselves. */
  boolean stretches() {
    return stretches;
  }

  /** Nodes nearer than this are one, m. */
  double grain() {
    return grain;
  }

  /** Number of unknowns. */
  int unknowns() {
    return unknowns;
  }

  /** One wall's. */
  WallMesh wallMesh(int wall) {
    return Objects.requireNonNull(meshes.get(wall), "a wall that is not here");
  }

  /** One of other walls, cut as finely. */
  ShellMesh again(List<Wall> others) {
    return new ShellMesh(others, wall -> true, longest, order);
  }

  /** Whether its walls are cut into the same cells, so that their unknowns are the same. */
  boolean cutAs(ShellMesh other) {
    return unknowns == other.unknowns
        && meshes.keySet().equals(other.meshes.keySet())
        && meshes.keySet().stream().allMatch(i -> wallMesh(i).cutAs(other.wallMesh(i)));
  }

  /** The places of a wall's elements with the area each stands for. */
  Surface surface(int wall) {
    return surfaces.computeIfAbsent(wall, its -> wallMesh(its).surface());
  }

  /** The walls, those given first, then their braces. */
  List<Wall> walls() {
    return List.copyOf(walls);
  }
}
