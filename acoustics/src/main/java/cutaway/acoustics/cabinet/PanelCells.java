package cutaway.acoustics.cabinet;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

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

  /** About a hole with more than this share of the longest cell for a radius, eight cells lie. */
  private static final double BIG = 0.25;

  /** A strip narrower than this share of a hole's radius is not left beside its frame. */
  private static final double STRIP = 0.7;

  /** A cell's tightest place over its widest. */
  private static final double FOLDED = 0.02;

  /** A strip beside a window with a sharper corner, by its sine, makes no good cells. */
  private static final double LEAST_QUALITY = 0.1;

  private final Panel panel;
  private final List<Edge> feet;
  private final List<Foot> stood;
  private final double longest;
  private final List<Outline.Quad> quads;
  private final List<PanelCell> cells = new ArrayList<>();

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
    boolean cut =
        freely.isEmpty() && (out.isOneQuad() ? out.lattice(out.quads.get(0)) : out.patchwork());
    return cut ? List.copyOf(out.cells) : FreeCells.of(panel, freely, longest);
  }

  /** Braces along which it is cut freely; none where rows and columns run along all of them. */
  private List<Brace> freely() {
    boolean inRows =
        isOneQuad()
            && panel.braces().stream().allMatch(b -> straight(quads.get(0), b.from(), b.to()))
            && frames(quads.get(0), given(quads.get(0))).isPresent();
    return inRows ? List.of() : FreeCells.clear(panel);
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
    Outline.Quad quad = its.quads.get(0);
    if (!its.isOneQuad()
        || !straight(quad, brace.from(), brace.to())
        || !brace.foot().stream().allMatch(p -> quad.find(p).isPresent())) {
      return false;
    }
    List<double[]> foot = footprint(quad, brace);
    double[] low = {1, 1};
    double[] high = {-1, -1};
    for (double[] corner : foot) {
      for (int axis = 0; axis < 2; axis++) {
        low[axis] = Math.min(low[axis], corner[axis]);
        high[axis] = Math.max(high[axis], corner[axis]);
      }
    }
    return its.frames(quad, its.given(quad))
        .filter(frames -> frames.stream().noneMatch(f -> f.meets(low, high)))
        .isPresent();
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
   * @return whether each opening lies in a quadrilateral of its own
   */
  private boolean patchwork() {
    double side = 0;
    for (Outline.Quad quad : quads) {
      for (int i = 0; i < 4; i++) {
        side = Math.max(side, length(quad, i));
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
        wreath(quad, hole, parts);
        placed++;
      } else if (inside.get() instanceof Window window) {
        placed += wreath(quad, window, parts) ? 1 : 0;
      }
    }
    return placed == panel.cutOuts().size() && cells.stream().allMatch(PanelCells::unfolded);
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

  static double length(Outline.Quad quad, int side) {
    return quad.corners().get((side + 1) % 4).minus(quad.corners().get(side)).length();
  }

  private void wreath(Outline.Quad quad, Hole hole, int parts) {
    for (int side = 0; side < 4; side++) {
      Point from = quad.corners().get(side);
      Point to = quad.corners().get((side + 1) % 4);
      for (int i = 0; i < parts; i++) {
        rim(hole, from.towards(to, (double) i / parts), from.towards(to, (double) (i + 1) / parts));
      }
    }
  }

  private void rim(Hole hole, Point from, Point to) {
    RimCell cell = new RimCell(hole.centre(), hole.ring(), from, to);
    cells.add(cell);
    if (hole.ring() > hole.radius()) {
      cells.add(cell.flange(hole));
    }
  }

  /** Whether a window's corners lie towards those of the quadrilateral, so that there is one. */
  private boolean wreath(Outline.Quad quad, Window window, int parts) {
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

  /**
   * Cuts right across, with frames about the holes.
   *
   * @return whether each hole has room for a frame
   */
  private boolean lattice(Outline.Quad quad) {
    List<double[]> given = given(quad);
    Optional<List<Frame>> found = frames(quad, given);
    found.ifPresent(frames -> lattice(quad, given, frames));
    return found.isPresent();
  }

  private void lattice(Outline.Quad quad, List<double[]> given, List<Frame> frames) {
    double[][] cuts = new double[2][];
    for (int axis = 0; axis < 2; axis++) {
      Set<Double> forced = new TreeSet<>(List.of(-1.0, 1.0));
      for (Frame frame : frames) {
        forced.add(frame.low()[axis]);
        forced.add(frame.high()[axis]);
      }
      for (double[] place : given) {
        if (distance(forced, place[axis]) > 1e-6) {
          forced.add(place[axis]);
        }
      }
      for (Frame frame : frames) {
        if (frame.hole().ring() > BIG * longest && !frame.isCut(axis, forced)) {
          forced.add(quad.find(frame.hole().centre()).orElseThrow()[axis]);
        }
      }
      double reach = Math.max(length(quad, axis == 0 ? 0 : 1), length(quad, axis == 0 ? 2 : 3));
      cuts[axis] = filled(forced, 2 * longest / reach);
    }
    for (int b = 1; b < cuts[1].length; b++) {
      for (int a = 1; a < cuts[0].length; a++) {
        double[] middle = {
          (cuts[0][a] + cuts[0][a - 1]) / 2, (cuts[1][b] + cuts[1][b - 1]) / 2,
        };
        if (frames.stream().noneMatch(f -> f.holds(middle))) {
          cells.add(quad.part(cuts[0][a - 1], cuts[0][a], cuts[1][b - 1], cuts[1][b]));
        }
      }
    }
    for (Frame frame : frames) {
      List<Point> round = frame.round(quad, cuts);
      for (int i = 0; i < round.size(); i++) {
        rim(frame.hole(), round.get(i), round.get((i + 1) % round.size()));
      }
    }
  }

  /**
   * The part of a quadrilateral that is cut to a hole's shape.
   *
   * @param hole the hole
   * @param low lowest place along both axes
   * @param high highest place
   */
  @SuppressWarnings("ArrayRecordComponent")
  private record Frame(Hole hole, double[] low, double[] high) {
    boolean holds(double[] place) {
      return place[0] > low[0] && place[0] < high[0] && place[1] > low[1] && place[1] < high[1];
    }

    /** Whether it has more than a rim in common with what lies between other places. */
    boolean meets(double[] otherLow, double[] otherHigh) {
      double grain = 1e-9;
      return low[0] < otherHigh[0] - grain
          && otherLow[0] < high[0] - grain
          && low[1] < otherHigh[1] - grain
          && otherLow[1] < high[1] - grain;
    }

    /** Whether a cut runs through it, not at its rim. */
    boolean isCut(int axis, Set<Double> cuts) {
      double margin = 0.2 * (high[axis] - low[axis]);
      return cuts.stream().anyMatch(c -> c > low[axis] + margin && c < high[axis] - margin);
    }

    /** The places where cuts meet it, anticlockwise. */
    List<Point> round(Outline.Quad quad, double[][] cuts) {
      List<Point> out = new ArrayList<>();
      for (double x : cuts[0]) {
        if (x >= low[0] && x < high[0]) {
          out.add(quad.at(x, low[1]));
        }
      }
      for (double y : cuts[1]) {
        if (y >= low[1] && y < high[1]) {
          out.add(quad.at(high[0], y));
        }
      }
      for (int i = cuts[0].length - 1; i >= 0; i--) {
        if (cuts[0][i] > low[0] && cuts[0][i] <= high[0]) {
          out.add(quad.at(cuts[0][i], high[1]));
        }
      }
      for (int i = cuts[1].length - 1; i >= 0; i--) {
        if (cuts[1][i] > low[1] && cuts[1][i] <= high[1]) {
          out.add(quad.at(low[0], cuts[1][i]));
        }
      }
      return out;
    }
  }

  /** Absent where two meet, or one has no room. */
  private Optional<List<Frame>> frames(Outline.Quad quad, List<double[]> given) {
    List<Hole> holes =
        panel.cutOuts().stream().filter(Hole.class::isInstance).map(Hole.class::cast).toList();
    if (holes.stream().anyMatch(hole -> frame(quad, hole).isEmpty())) {
      return Optional.empty();
    }
    List<Frame> out = new ArrayList<>();
    for (Hole hole : holes) {
      Frame frame = frame(quad, hole).orElseThrow();
      stretch(frame, quad);
      snap(frame, out, given, quad);
      out.add(frame);
    }
    return meet(out) ? Optional.empty() : Optional.of(out);
  }

  private static boolean meet(List<Frame> frames) {
    for (int i = 0; i < frames.size(); i++) {
      for (int k = 0; k < i; k++) {
        if (frames.get(i).meets(frames.get(k).low(), frames.get(k).high())) {
          return true;
        }
      }
    }
    return false;
  }

  /** A frame half-way to what is next, but not far. */
  private Optional<Frame> frame(Outline.Quad quad, Hole hole) {
    double room = Math.min(hole.ring(), Panel.gap(quad.corners(), hole.centre()) - hole.ring()) / 2;
    for (CutOut other : panel.cutOuts()) {
      if (other instanceof Hole o && !o.equals(hole)) {
        Point off = o.centre().minus(hole.centre());
        double apart = Math.max(Math.abs(off.x()), Math.abs(off.y()));
        room = Math.min(room, 0.49 * (apart - o.ring() - hole.ring()));
      }
    }
    if (!(room > 0)) {
      return Optional.empty();
    }
    double reach = hole.ring() + room;
    double[] low = {1, 1};
    double[] high = {-1, -1};
    for (int i = 0; i < 4; i++) {
      Point p =
          hole.centre().plus(new Point(i % 2 == 0 ? reach : -reach, i < 2 ? reach : -reach, 0));
      Optional<double[]> at = quad.find(p);
      if (at.isEmpty()) {
        return Optional.empty();
      }
      for (int axis = 0; axis < 2; axis++) {
        low[axis] = Math.min(low[axis], at.get()[axis]);
        high[axis] = Math.max(high[axis], at.get()[axis]);
      }
    }
    return Optional.of(new Frame(hole, low, high));
  }

  /** Moves a frame's sides out to the panel's where no more than a strip would be left. */
  private void stretch(Frame frame, Outline.Quad quad) {
    for (int axis = 0; axis < 2; axis++) {
      double reach = Math.max(length(quad, axis == 0 ? 0 : 1), length(quad, axis == 0 ? 2 : 3));
      double strip = 2 * STRIP * frame.hole().ring() / reach;
      double[] low = {frame.low()[0], frame.low()[1]};
      double[] high = {frame.high()[0], frame.high()[1]};
      low[axis] = frame.low()[axis] + 1 < strip ? -1 : frame.low()[axis];
      high[axis] = 1 - frame.high()[axis] < strip ? 1 : frame.high()[axis];
      Frame wide = new Frame(frame.hole(), low, high);
      boolean free =
          panel.cutOuts().stream()
              .noneMatch(
                  c ->
                      c instanceof Hole o
                          && !o.equals(frame.hole())
                          && frame(quad, o).filter(f -> wide.meets(f.low(), f.high())).isPresent());
      if (free) {
        frame.low()[axis] = low[axis];
        frame.high()[axis] = high[axis];
      }
    }
  }

  /** Moves a frame's sides onto cuts that are there anyway, so that no sliver comes between. */
  private static void snap(
      Frame frame, List<Frame> before, List<double[]> given, Outline.Quad quad) {
    for (int axis = 0; axis < 2; axis++) {
      Set<Double> there = new TreeSet<>();
      for (Frame other : before) {
        there.add(other.low()[axis]);
        there.add(other.high()[axis]);
      }
      for (double[] place : given) {
        there.add(place[axis]);
      }
      double reach = Math.max(length(quad, axis == 0 ? 0 : 1), length(quad, axis == 0 ? 2 : 3));
      double spare = (frame.high()[axis] - frame.low()[axis]) / 2 - 2 * frame.hole().ring() / reach;
      for (double cut : there) {
        if (Math.abs(cut - frame.low()[axis]) < 0.6 * spare) {
          frame.low()[axis] = cut;
        }
        if (Math.abs(cut - frame.high()[axis]) < 0.6 * spare) {
          frame.high()[axis] = cut;
        }
      }
    }
  }

  /**
   * Corners of the added masses and of the braces' feet, middles of feet, as places in the cell.
   */
  private List<double[]> given(Outline.Quad quad) {
    List<double[]> out = new ArrayList<>();
    for (AddedMass m : panel.masses()) {
      quad.find(new Point(m.left(), m.front(), 0)).ifPresent(out::add);
      quad.find(new Point(m.right(), m.back(), 0)).ifPresent(out::add);
    }
    for (Brace brace : panel.braces()) {
      if (straight(quad, brace.from(), brace.to())) {
        out.addAll(footprint(quad, brace));
      }
    }
    for (Foot foot : stood) {
      quad.find(foot.at()).ifPresent(out::add);
    }
    for (Edge foot : feet) {
      out.addAll(across(quad, foot.from(), foot.to()));
    }
    return merged(out);
  }

  /** Places that rounding alone keeps apart, from each other or from the sides, made one. */
  private static List<double[]> merged(List<double[]> places) {
    for (int axis = 0; axis < 2; axis++) {
      List<Double> there = new ArrayList<>(List.of(-1.0, 1.0));
      for (double[] place : places) {
        double at = place[axis];
        Optional<Double> same = there.stream().filter(t -> Math.abs(t - at) < 1e-6).findFirst();
        place[axis] = same.orElse(at);
        there.add(place[axis]);
      }
    }
    return places;
  }

  /**
   * Two opposite corners of a brace's foot. Where the quadrilateral tapers the foot's own four lie
   * on no common cuts; then halfway between them.
   */
  private static List<double[]> footprint(Outline.Quad quad, Brace brace) {
    List<double[]> found = new ArrayList<>();
    brace.foot().forEach(p -> quad.find(p).ifPresent(found::add));
    if (found.size() < 4) {
      return found;
    }
    double[] from = quad.find(brace.from()).orElseThrow();
    double[] to = quad.find(brace.to()).orElseThrow();
    int run = Math.abs(from[0] - to[0]) > Math.abs(from[1] - to[1]) ? 0 : 1;
    double[] first = from.clone();
    double[] last = to.clone();
    first[1 - run] = (found.get(0)[1 - run] + found.get(2)[1 - run]) / 2;
    last[1 - run] = (found.get(1)[1 - run] + found.get(3)[1 - run]) / 2;
    return List.of(first, last);
  }

  /** Ends of a line, where it runs along the lines by which the quadrilateral is cut. */
  private static List<double[]> across(Outline.Quad quad, Point from, Point to) {
    List<double[]> out = new ArrayList<>();
    if (straight(quad, from, to)) {
      quad.find(from).ifPresent(out::add);
      quad.find(to).ifPresent(out::add);
    }
    return out;
  }

  private static boolean straight(Outline.Quad quad, Point from, Point to) {
    Optional<double[]> first = quad.find(from);
    Optional<double[]> last = quad.find(to);
    return first.isPresent()
        && last.isPresent()
        && (Math.abs(first.get()[0] - last.get()[0]) < 1e-6
            || Math.abs(first.get()[1] - last.get()[1]) < 1e-6);
  }

  /** The cuts given and even ones between them. */
  private static double[] filled(Set<Double> forced, double step) {
    List<Double> out = new ArrayList<>();
    double last = -1;
    for (double cut : forced) {
      int parts = (int) Math.max(1, Math.ceil((cut - last) / step - (LONGER - 1)));
      for (int i = 1; i < parts; i++) {
        out.add(last + (cut - last) * i / parts);
      }
      out.add(cut);
      last = cut;
    }
    return out.stream().mapToDouble(Double::doubleValue).toArray();
  }

  private static double distance(Set<Double> cuts, double at) {
    return cuts.stream().mapToDouble(c -> Math.abs(c - at)).min().orElse(Double.POSITIVE_INFINITY);
  }
}
