package cutaway.acoustics.cabinet;

import cutaway.acoustics.modes.Modes;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.IntStream;

/** How a panel swings by itself, in vacuo. */
public final class PanelModes {
  private static final int ORDER = 7;

  /** Eigenvalues below this share of the first bending mode's are the panel flying off whole. */
  private static final double RIGID = 1e-6;

  /** Modes with less of their energy off the panel's plane stretch it rather than bend it. */
  private static final double BENDS = 0.5;

  private final PlateMesh mesh;
  private final Modes modes;

  /** Which of them bend the panel, lowest first. */
  private final List<Integer> bending;

  private PanelModes(PlateMesh mesh, Modes modes, List<Integer> bending) {
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
    PlateMesh mesh = new PlateMesh(panel, cells(panel, count), order);
    double[] d = panel.board().stiffness();
    double area = panel.outline().area();
    // of the size of the lowest bending mode's ω²
    double shift =
        Math.max(d[0], d[6]) / panel.board().surfaceMass() * Math.pow(Math.PI, 4) / (area * area);
    for (int asked = count + 6; ; asked += count + 6) {
      Modes modes =
          panel.braces().isEmpty()
              ? Modes.lowest(mesh.stiffness(), mesh.mass(), shift, asked)
              : Modes.lowest(mesh.stiffness(), mesh.mass(), mesh.braceMass(), shift, asked);
      List<Integer> bending =
          IntStream.range(0, asked)
              .filter(i -> modes.eigenvalue(i) > RIGID * shift)
              .filter(i -> mesh.bending(modes.shape(i)) > BENDS)
              .limit(count)
              .boxed()
              .toList();
      if (bending.size() == count) {
        return new PanelModes(mesh, modes, bending);
      }
    }
  }

  /** Half-waves along an element stay below some two. */
  private static List<PanelCell> cells(Panel panel, int count) {
    List<Outline.Quad> quads = panel.outline().graded();
    double waves = Math.sqrt(1.3 * count) + 1;
    int parts = (int) Math.max(1, Math.ceil(waves / 2 / Math.sqrt(quads.size())));
    List<PanelCell> out = new ArrayList<>();
    for (Outline.Quad quad : quads) {
      List<double[]> corners = quads.size() == 1 ? corners(panel, quad) : List.of();
      Optional<double[][]> frame = panel.hole().map(h -> frame(panel, quad, h));
      List<Double> first = cuts(corners.stream().map(c -> c[0]).toList(), parts, frame, 0);
      List<Double> second = cuts(corners.stream().map(c -> c[1]).toList(), parts, frame, 1);
      for (int b = 1; b < second.size(); b++) {
        for (int a = 1; a < first.size(); a++) {
          PanelCell cell =
              quad.part(first.get(a - 1), first.get(a), second.get(b - 1), second.get(b));
          boolean holed =
              frame.isPresent()
                  && first.get(a - 1) == frame.get()[0][0]
                  && second.get(b - 1) == frame.get()[0][1];
          if (holed) {
            out.addAll(RimCell.around(panel.hole().orElseThrow(), cell));
          } else {
            out.add(cell);
          }
        }
      }
    }
    return out;
  }

  /** Corners of the added masses and of the braces' feet, as places in the quadrilateral. */
  private static List<double[]> corners(Panel panel, Outline.Quad quad) {
    List<double[]> out = new ArrayList<>();
    for (AddedMass m : panel.masses()) {
      quad.find(new Point(m.left(), m.front(), 0)).ifPresent(out::add);
      quad.find(new Point(m.right(), m.back(), 0)).ifPresent(out::add);
    }
    for (Brace brace : panel.braces()) {
      if (straightAcross(quad, brace)) {
        brace.foot().forEach(p -> quad.find(p).ifPresent(out::add));
      }
    }
    return out;
  }

  /** Whether a brace runs along the lines by which the quadrilateral is cut. */
  private static boolean straightAcross(Outline.Quad quad, Brace brace) {
    Optional<double[]> from = quad.find(brace.from());
    Optional<double[]> to = quad.find(brace.to());
    return from.isPresent()
        && to.isPresent()
        && (Math.abs(from.get()[0] - to.get()[0]) < 1e-6
            || Math.abs(from.get()[1] - to.get()[1]) < 1e-6);
  }

  /** Lowest and highest place of a frame about a hole, half-way to the edge but not far. */
  private static double[][] frame(Panel panel, Outline.Quad quad, Hole hole) {
    double reach = hole.radius() + 0.5 * Math.min(hole.radius(), Panel.gap(panel.outline(), hole));
    double[] low = {1, 1};
    double[] high = {-1, -1};
    for (int i = 0; i < 4; i++) {
      Point p =
          hole.centre().plus(new Point(i % 2 == 0 ? reach : -reach, i < 2 ? reach : -reach, 0));
      double[] at =
          quad.find(p)
              .orElseThrow(
                  () -> new ImpossibleShapeException("the cut-out lies in a corner of the panel"));
      for (int axis = 0; axis < 2; axis++) {
        low[axis] = Math.min(low[axis], at[axis]);
        high[axis] = Math.max(high[axis], at[axis]);
      }
    }
    return new double[][] {low, high};
  }

  /** The ends, the frame of a hole, the places given and even steps where those leave room. */
  private static List<Double> cuts(
      List<Double> given, int parts, Optional<double[][]> frame, int axis) {
    double step = 2.0 / parts;
    double low = frame.map(f -> f[0][axis]).orElse(2.0);
    double high = frame.map(f -> f[1][axis]).orElse(2.0);
    Set<Double> out = new TreeSet<>(List.of(-1.0, 1.0));
    if (frame.isPresent()) {
      out.add(low);
      out.add(high);
    }
    given.stream().filter(c -> nearest(out, c) > 1e-6 && !(c > low && c < high)).forEach(out::add);
    for (int i = 1; i < parts; i++) {
      double even = step * i - 1;
      if (nearest(out, even) > 0.4 * step && !(even > low && even < high)) {
        out.add(even);
      }
    }
    return List.copyOf(out);
  }

  private static double nearest(Set<Double> cuts, double at) {
    return cuts.stream().mapToDouble(c -> Math.abs(c - at)).min().orElse(Double.POSITIVE_INFINITY);
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
    return mesh.deflection(modes.shape(bending.get(mode)), p);
  }
}
