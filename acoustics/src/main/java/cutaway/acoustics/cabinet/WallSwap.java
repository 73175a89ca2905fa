package cutaway.acoustics.cabinet;

import cutaway.acoustics.modes.Modes;
import cutaway.acoustics.modes.Ritz;
import cutaway.acoustics.modes.SymmetricSum;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;

/**
 * Modes of a box in which one wall is changed. All others are condensed once on the seams that they
 * share with it and on what stands on it: what a motion of these does to them at rest, and their
 * lowest modes with these held (R. R. Craig and M. C. C. Bampton, AIAA J. 6 (1968) 1313, from
 * memory). A change then costs the elements of one wall.
 */
public final class WallSwap {
  /** Modes of the others with the seams held, over those that are wanted of the whole. */
  private static final double HELD = 2.5;

  private static final int LEAST_HELD = 50;

  private final List<Wall> walls;
  private final int which;
  private final int count;
  private final double longest;
  private final double shift;
  private final ShellMesh rest;

  /** The joints' unknowns that the wall shares with the others. */
  private final int[] shared;

  /** Unknowns of nodes that stand on the wall, in the order of the rest's leaning nodes. */
  private final int[] led;

  /** Motions of the others: one for each shared and led unknown, then their own modes. */
  private final double[][] motions;

  private final DMatrixRMaj stiffness;
  private final DMatrixRMaj mass;
  private final DMatrixRMaj feet;

  /** M times the others' motions as one stiff body, in each of these; and their inertia. */
  private final DMatrixRMaj momenta;

  private final DMatrixRMaj inertia;

  private WallSwap(List<Wall> walls, int which, int count) {
    this.walls = List.copyOf(walls);
    this.which = which;
    this.count = count;
    this.longest = BoxModes.longest(walls, count);
    this.shift = BoxModes.shift(walls);
    this.rest = new ShellMesh(walls, wall -> wall != which, longest, BoxModes.ORDER);
    ShellMatrices matrices = ShellMatrices.of(rest);
    boolean[] others = matrices.stiffness().touched();
    boolean[] its =
        ShellMatrices.of(new ShellMesh(walls, wall -> wall == which, longest, BoxModes.ORDER))
            .stiffness()
            .touched();
    this.shared = IntStream.range(0, rest.joined()).filter(d -> others[d] && its[d]).toArray();
    this.led =
        rest.leaning().stream()
            .flatMap(node -> node.motion().parts().keySet().stream())
            .mapToInt(Integer::intValue)
            .toArray();
    Condensed condensed = condensed(matrices, others);
    this.motions = condensed.motions();
    this.stiffness = condensed.stiffness();
    this.mass = Ritz.projected(matrices.tiedMass(), matrices.diagonal(), motions);
    double[][] body = rest.stiffBody(middle());
    double[][] moved = matrices.momenta(body);
    this.momenta = StiffBody.products(moved, motions);
    this.inertia = StiffBody.products(body, moved);
    this.feet = Ritz.projected(matrices.feet(), new double[rest.unknowns()], motions);
  }

  /**
   * Condenses.
   *
   * @param walls of the box as it is
   * @param which number of the wall that is to be changed
   * @param count how many modes are wanted
   */
  public static WallSwap of(List<Wall> walls, int which, int count) {
    return new WallSwap(walls, which, count);
  }

  /** What the others do for each shared and led unknown, and their stiffness in all of it. */
  @SuppressWarnings("ArrayRecordComponent") // never compared
  private record Condensed(double[][] motions, DMatrixRMaj stiffness) {}

  private Condensed condensed(ShellMatrices matrices, boolean[] touched) {
    int n = rest.unknowns();
    int[] inner = new int[n];
    Arrays.fill(inner, -1);
    boolean[] held = new boolean[n];
    int[] moved = IntStream.concat(Arrays.stream(shared), Arrays.stream(led)).toArray();
    Arrays.stream(moved).forEach(d -> held[d] = true);
    int free = 0;
    for (int d = 0; d < n; d++) {
      if (touched[d] && !held[d]) {
        inner[d] = free++;
      }
    }
    double[] diagonal = new double[free];
    for (int d = 0; d < n; d++) {
      if (inner[d] >= 0) {
        diagonal[inner[d]] = matrices.diagonal()[d];
      }
    }
    Modes modes =
        Modes.lowest(
            matrices.stiffness().renumbered(inner, free),
            diagonal,
            matrices.tiedMass().renumbered(inner, free),
            // at rest: only so the box flying off whole is among the motions
            0,
            Math.min(free - 1, Math.max(LEAST_HELD, (int) (HELD * count))));
    double[][] forces = new double[moved.length][n];
    double[][] loads = new double[moved.length][free];
    for (int j = 0; j < moved.length; j++) {
      matrices.stiffness().addColumn(moved[j], forces[j]);
      for (int d = 0; d < n; d++) {
        if (inner[d] >= 0) {
          loads[j][inner[d]] = -forces[j][d];
        }
      }
    }
    modes.solveShifted(loads);
    double[][] out = new double[moved.length + modes.size()][n];
    for (int j = 0; j < moved.length; j++) {
      out[j][moved[j]] = 1;
      scatter(loads[j], inner, out[j]);
    }
    for (int mode = 0; mode < modes.size(); mode++) {
      scatter(modes.shape(mode), inner, out[moved.length + mode]);
    }
    return new Condensed(out, stiffness(moved.length, forces, out, modes));
  }

  /**
   * At rest a force stands on the moved unknowns only, so φᵢᵀKφⱼ is the column of K at the unknown
   * i times φⱼ; the modes with these held are orthogonal to all that under K.
   */
  private static DMatrixRMaj stiffness(
      int moved, double[][] forces, double[][] motions, Modes modes) {
    DMatrixRMaj out = new DMatrixRMaj(motions.length, motions.length);
    for (int i = 0; i < moved; i++) {
      double[] force = forces[i];
      int[] places = IntStream.range(0, force.length).filter(d -> force[d] != 0).toArray();
      for (int j = 0; j <= i; j++) {
        double sum = 0;
        for (int d : places) {
          sum += force[d] * motions[j][d];
        }
        out.set(i, j, sum);
        out.set(j, i, sum);
      }
    }
    for (int mode = 0; mode < modes.size(); mode++) {
      out.set(moved + mode, moved + mode, modes.eigenvalue(mode));
    }
    return out;
  }

  private static void scatter(double[] few, int[] numbers, double[] all) {
    for (int d = 0; d < numbers.length; d++) {
      if (numbers[d] >= 0) {
        all[d] = few[numbers[d]];
      }
    }
  }

  /**
   * Modes with the wall changed: its board, cut-outs and braces, not its outline.
   *
   * @throws ImpossibleShapeException where cut-outs or braces do not fit
   */
  public BoxModes with(Wall changed) {
    List<Wall> all = new ArrayList<>(walls);
    all.set(which, changed);
    ShellMesh one = new ShellMesh(all, wall -> wall == which, longest, BoxModes.ORDER);
    if (one.joined() != rest.joined() || !one.leaning().isEmpty()) {
      return BoxModes.of(all, count);
    }
    ShellMatrices its = ShellMatrices.of(one);
    int[] numbers = new int[one.unknowns()];
    boolean[] touched = its.stiffness().touched();
    int size = 0;
    for (int d = 0; d < numbers.length; d++) {
      numbers[d] = touched[d] ? size++ : -1;
    }
    List<Motion.Row> follow = following(one, numbers);
    while (follow.size() < motions.length) {
      follow.add(new Motion.Row(new int[] {size++}, new double[] {1}));
    }
    Tie tie = Tie.of(follow.toArray(Motion.Row[]::new));
    double[] diagonal = new double[size];
    for (int d = 0; d < numbers.length; d++) {
      if (numbers[d] >= 0) {
        diagonal[numbers[d]] = its.diagonal()[d];
      }
    }
    SymmetricSum k = its.stiffness().renumbered(numbers, size);
    SymmetricSum m = its.tiedMass().renumbered(numbers, size);
    Point middle = changed.corners().get(0).towards(changed.corners().get(2), 0.5);
    k.add(tie.unknowns(), tie.of(stiffness.data), middle.x(), middle.y(), middle.z());
    m.add(tie.unknowns(), tie.of(mass.data), middle.x(), middle.y(), middle.z());
    SymmetricSum under = its.feet().renumbered(numbers, size);
    under.add(tie.unknowns(), tie.of(feet.data), middle.x(), middle.y(), middle.z());
    Swinging swinging =
        Swinging.find(
            count,
            shift,
            under,
            stiffBody(its, numbers, follow, size),
            asked -> Modes.lowest(k, diagonal, m, shift, asked));
    return together(one, all, numbers, follow, swinging);
  }

  /** How shared and led unknowns follow those of the wall, as they are numbered. */
  private List<Motion.Row> following(ShellMesh one, int[] numbers) {
    List<Motion.Row> out = new ArrayList<>();
    for (int d : shared) {
      out.add(new Motion.Row(new int[] {numbers[d]}, new double[] {1}));
    }
    for (ShellMesh.Leaning node : rest.leaning()) {
      Motion its = one.standing(node);
      node.motion().parts().values().forEach(part -> out.add(its.as(part).renumbered(numbers)));
    }
    return out;
  }

  /** Where the stiff body turns; anywhere would do. */
  private Point middle() {
    return walls.get(0).corners().get(0);
  }

  /** Of the wall and the others, in the unknowns of both. */
  private StiffBody stiffBody(ShellMatrices its, int[] numbers, List<Motion.Row> follow, int size) {
    double[][] own = its.shell().stiffBody(middle());
    double[][] moved = its.momenta(own);
    double[][] all = new double[6][size];
    for (int i = 0; i < 6; i++) {
      for (int d = 0; d < numbers.length; d++) {
        if (numbers[d] >= 0) {
          all[i][numbers[d]] = moved[i][d];
        }
      }
      for (int j = 0; j < follow.size(); j++) {
        Motion.Row row = follow.get(j);
        for (int k = 0; k < row.unknowns().length; k++) {
          all[i][row.unknowns()[k]] += momenta.get(i, j) * row.factors()[k];
        }
      }
    }
    DMatrixRMaj both = StiffBody.products(own, moved);
    CommonOps_DDRM.addEquals(both, inertia);
    return new StiffBody(all, both);
  }

  private BoxModes together(
      ShellMesh one, List<Wall> all, int[] numbers, List<Motion.Row> follow, Swinging swinging) {
    double[][] own = new double[count][one.unknowns()];
    double[][] others = new double[count][rest.unknowns()];
    for (int mode = 0; mode < count; mode++) {
      double[] x = swinging.modes().shape(swinging.walls().get(mode));
      for (int d = 0; d < numbers.length; d++) {
        own[mode][d] = numbers[d] >= 0 ? x[numbers[d]] : 0;
      }
      for (int i = 0; i < motions.length; i++) {
        double share = follow.get(i).of(x);
        double[] motion = motions[i];
        double[] to = others[mode];
        for (int d = 0; d < to.length; d++) {
          to[d] += share * motion[d];
        }
      }
    }
    BoxModes.Part itself = new BoxModes.Part(one, own);
    BoxModes.Part rests = new BoxModes.Part(rest, others);
    List<BoxModes.Place> places = new ArrayList<>();
    for (int wall = 0; wall < all.size(); wall++) {
      places.add(new BoxModes.Place(wall == which ? itself : rests, wall));
    }
    int before = all.size();
    int now = all.size();
    for (int wall = 0; wall < all.size(); wall++) {
      int had = walls.get(wall).braces().size();
      int has = all.get(wall).braces().size();
      for (int brace = 0; brace < has; brace++) {
        places.add(
            wall == which
                ? new BoxModes.Place(itself, now + brace)
                : new BoxModes.Place(rests, before + brace));
      }
      before += had;
      now += has;
    }
    return BoxModes.ofParts(swinging, places);
  }
}
