package cutaway.acoustics.cabinet;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Cuts a panel into four-sided cells that meet edge to edge: in rows and columns with frames about
 * its holes, or in as many parts everywhere with a wreath about an opening; where its cut-outs
 * allow neither, freely.
 */
final class PanelCells {
  /** A cell may be so much longer than the longest. */
  static final double LONGER = 1.05;

  /** Steps in which a cell is sampled for what lies on it. */
  private static final int SAMPLES = 20;

  /** A cell's tightest place over its widest. */
  private static final double FOLDED = 0.02;

  /** A strip beside a window with a sharper corner, by its sine, makes no good cells. */
  private static final double LEAST_QUALITY = 0.1;

  private final Panel panel;
  private final List<Edge> feet;
  private final List<Foot> stood;
  private final double longest;
  private final List<Outline.Quad> quads;

  private PanelCells(Panel panel, List<Edge> feet, List<Foot> stood, double longest) {
    this.panel = panel;
    this.feet = feet;
    this.stood = stood;
    this.longest = longest;
    this.quads = panel.outline().graded();
  }

  /**
   * Cuts.
   *
   * @param feet lines along which other panels stand on it
   * @param longest no cell is much longer, m
   */
  static List<PanelCell> of(Panel panel, List<Edge> feet, double longest) {
    return of(panel, feet, List.of(), longest);
  }

  /**
   * The same over feet, about which the panel gives most.
   *
   * @param stood what it stands on
   */
  static List<PanelCell> of(Panel panel, List<Edge> feet, List<Foot> stood, double longest) {
    PanelCells out = new PanelCells(panel, feet, stood, longest);
    out.keepClear();
    List<Brace> freely = out.freely();
    if (!freely.isEmpty()) {
      return FreeCells.of(panel, freely, longest);
    }
    Optional<List<PanelCell>> cut = out.isOneQuad() ? out.lattice().cells() : out.patchwork();
    return cut.orElseGet(() -> FreeCells.of(panel, freely, longest));
  }

  /** Braces along which it is cut freely; none where rows and columns run along all of them. */
  private List<Brace> freely() {
    boolean inRows = isOneQuad() && lattice().runsAlongAll();
    return inRows ? List.of() : FreeCells.clear(panel);
  }

  private Lattice lattice() {
    return new Lattice(panel, quads.get(0), feet, stood, longest);
  }

  private boolean isOneQuad() {
    return quads.size() == 1 && !panel.hasWindow();
  }

  /** Nothing stands on a hole or on what sits in it. */
  private void keepClear() {
    for (CutOut cut : panel.cutOuts()) {
      for (Edge foot : feet) {
        if (cut instanceof Hole hole && foot.distance(hole.centre()) < hole.ring()) {
          throw new ImpossibleShapeException("a brace stands over a cut-out");
        }
      }
    }
  }

  /**
   * Whether a panel is cut along a brace's foot, so that cells lie under all of it and none of them
   * is cut to a hole's shape.
   */
  static boolean isCutAlong(Panel panel, Brace brace) {
    PanelCells its = new PanelCells(panel, List.of(), List.of(), Double.POSITIVE_INFINITY);
    List<Brace> freely = its.freely();
    if (!freely.isEmpty()) {
      return freely.contains(brace);
    }
    return its.isOneQuad() && its.lattice().isCutAlong(brace);
  }

  /** What is fixed to each cell, kg/m². */
  static double[] loads(Panel panel, List<PanelCell> cells) {
    double[] out = new double[cells.size()];
    for (AddedMass mass : panel.masses()) {
      double[] share = new double[cells.size()];
      double area = 0;
      for (int i = 0; i < out.length; i++) {
        double[] sampled = sampled(cells.get(i), mass);
        share[i] = sampled[0] / sampled[1];
        area += sampled[0];
      }
      if (area == 0) {
        throw new ImpossibleShapeException("a mass lies beside the panel it is fixed to");
      }
      for (int i = 0; i < out.length; i++) {
        out[i] += share[i] * mass.mass() / area;
      }
    }
    for (int i = 0; i < out.length; i++) {
      out[i] += cells.get(i) instanceof RingCell ring ? ring.hole().surfaceMass() : 0;
    }
    return out;
  }

  /** Area of a cell under a mass, and all of it. */
  private static double[] sampled(PanelCell cell, AddedMass mass) {
    double under = 0;
    double all = 0;
    for (int b = 0; b < SAMPLES; b++) {
      for (int a = 0; a < SAMPLES; a++) {
        double xi = (2 * a + 1.0) / SAMPLES - 1;
        double eta = (2 * b + 1.0) / SAMPLES - 1;
        double[] s = cell.slopes(xi, eta);
        double area = (s[0] * s[3] - s[1] * s[2]) * 4 / (SAMPLES * SAMPLES);
        all += area;
        under += mass.holds(cell.at(xi, eta)) ? area : 0;
      }
    }
    return new double[] {under, all};
  }

  /**
   * As many parts everywhere; a quadrilateral with an opening as a wreath about it.
   *
   * @return absent where an opening does not lie in a quadrilateral of its own
   */
  private Optional<List<PanelCell>> patchwork() {
    List<PanelCell> cells = new ArrayList<>();
    double side = 0;
    for (Outline.Quad quad : quads) {
      for (int i = 0; i < 4; i++) {
        side = Math.max(side, quad.length(i));
      }
    }
    int parts = (int) Math.max(1, Math.ceil(side / longest));
    int placed = 0;
    for (Outline.Quad quad : quads) {
      Optional<CutOut> inside =
          panel.cutOuts().stream().filter(c -> c.clearance(quad.corners()) > 0).findFirst();
      if (inside.isEmpty()) {
        cells.addAll(quad.even(parts, parts));
      } else if (inside.get() instanceof Hole hole) {
        wreath(quad, hole, parts, cells);
        placed++;
      } else if (inside.get() instanceof Window window) {
        placed += wreath(quad, window, parts, cells) ? 1 : 0;
      }
    }
    boolean fits =
        placed == panel.cutOuts().size() && cells.stream().allMatch(PanelCells::unfolded);
    return fits ? Optional.of(cells) : Optional.empty();
  }

  /** Whether a cell has room everywhere: a wreath about a small hole near a side may fold. */
  private static boolean unfolded(PanelCell cell) {
    double least = Double.POSITIVE_INFINITY;
    double most = 0;
    for (int b = 0; b <= SAMPLES; b++) {
      for (int a = 0; a <= SAMPLES; a++) {
        double[] s = cell.slopes(2.0 * a / SAMPLES - 1, 2.0 * b / SAMPLES - 1);
        double area = s[0] * s[3] - s[1] * s[2];
        least = Math.min(least, area);
        most = Math.max(most, area);
      }
    }
    return least > FOLDED * most;
  }

  private static void wreath(Outline.Quad quad, Hole hole, int parts, List<PanelCell> cells) {
    for (int side = 0; side < 4; side++) {
      Point from = quad.corners().get(side);
      Point to = quad.corners().get((side + 1) % 4);
      for (int i = 0; i < parts; i++) {
        Point a = from.towards(to, (double) i / parts);
        Point b = from.towards(to, (double) (i + 1) / parts);
        cells.addAll(RimCell.with(hole, a, b));
      }
    }
  }

  /** Whether a window's corners lie towards those of the quadrilateral, so that there is one. */
  private boolean wreath(Outline.Quad quad, Window window, int parts, List<PanelCell> cells) {
    if (window.corners().size() != 4) {
      return false;
    }
    int first = nearest(window.corners(), quad.corners().get(0));
    // as many for all sides, or their strips would not meet node on node
    int layers = 1;
    for (int corner = 0; corner < 4; corner++) {
      Point inner = window.corners().get((first + corner) % 4);
      double depth = inner.minus(quad.corners().get(corner)).length();
      layers = Math.max(layers, (int) Math.ceil(depth / longest));
    }
    for (int side = 0; side < 4; side++) {
      Point from = quad.corners().get(side);
      Point to = quad.corners().get((side + 1) % 4);
      Point innerFrom = window.corners().get((first + side) % 4);
      Point innerTo = window.corners().get((first + side + 1) % 4);
      Outline.Quad strip = new Outline.Quad(List.of(from, to, innerTo, innerFrom));
      if (!(strip.quality() > LEAST_QUALITY)) {
        return false;
      }
      cells.addAll(strip.even(parts, layers));
    }
    return true;
  }

  private static int nearest(List<Point> points, Point to) {
    int best = 0;
    for (int i = 1; i < points.size(); i++) {
      best = points.get(i).minus(to).length() < points.get(best).minus(to).length() ? i : best;
    }
    return best;
  }
}
