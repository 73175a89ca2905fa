package cutaway.acoustics.cabinet;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/** Rows and columns right across a four-sided panel, with a frame about each of its holes. */
final class Lattice {
  /** About a hole with more than this share of the longest cell for a radius, eight cells lie. */
  private static final double BIG = 0.25;

  /** A strip narrower than this share of a hole's radius is not left beside its frame. */
  private static final double STRIP = 0.7;

  private final Panel panel;
  private final Outline.Quad quad;
  private final List<Edge> feet;
  private final List<Foot> stood;
  private final double longest;

  /**
   * Takes note.
   *
   * @param quad all of the panel
   * @param feet lines along which other panels stand on it
   * @param stood what it stands on
   * @param longest no cell is much longer, m
   */
  Lattice(Panel panel, Outline.Quad quad, List<Edge> feet, List<Foot> stood, double longest) {
    this.panel = panel;
    this.quad = quad;
    this.feet = feet;
    this.stood = stood;
    this.longest = longest;
  }

  /** Whether rows or columns run along each brace, and each hole has room. */
  boolean runsAlongAll() {
    return panel.braces().stream().allMatch(b -> straight(b.from(), b.to()))
        && frames(given()).isPresent();
  }

  /** Whether cells lie under all of a brace's foot, none of them cut to a hole's shape. */
  boolean isCutAlong(Brace brace) {
    if (!straight(brace.from(), brace.to())
        || !brace.foot().stream().allMatch(p -> quad.find(p).isPresent())) {
      return false;
    }
    double[] low = {1, 1};
    double[] high = {-1, -1};
    for (double[] corner : footprint(brace)) {
      for (int axis = 0; axis < 2; axis++) {
        low[axis] = Math.min(low[axis], corner[axis]);
        high[axis] = Math.max(high[axis], corner[axis]);
      }
    }
    return frames(given())
        .filter(frames -> frames.stream().noneMatch(f -> f.meets(low, high)))
        .isPresent();
  }

  /**
   * Cuts right across, with frames about the holes.
   *
   * @return absent where a hole has no room for a frame
   */
  Optional<List<PanelCell>> cells() {
    List<double[]> given = given();
    return frames(given).map(frames -> cells(given, frames));
  }

  private List<PanelCell> cells(List<double[]> given, List<Frame> frames) {
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
      cuts[axis] = filled(forced, 2 * longest / reach(axis));
    }
    List<PanelCell> cells = new ArrayList<>();
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
        Point next = round.get((i + 1) % round.size());
        cells.addAll(RimCell.with(frame.hole(), round.get(i), next));
      }
    }
    return List.copyOf(cells);
  }

  /** Absent where two meet, or one has no room. */
  private Optional<List<Frame>> frames(List<double[]> given) {
    List<Hole> holes =
        panel.cutOuts().stream().filter(Hole.class::isInstance).map(Hole.class::cast).toList();
    if (holes.stream().anyMatch(hole -> frame(hole).isEmpty())) {
      return Optional.empty();
    }
    List<Frame> out = new ArrayList<>();
    for (Hole hole : holes) {
      Frame frame = frame(hole).orElseThrow();
      stretch(frame);
      snap(frame, out, given);
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
  private Optional<Frame> frame(Hole hole) {
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
  private void stretch(Frame frame) {
    for (int axis = 0; axis < 2; axis++) {
      double strip = 2 * STRIP * frame.hole().ring() / reach(axis);
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
                          && frame(o).filter(f -> wide.meets(f.low(), f.high())).isPresent());
      if (free) {
        frame.low()[axis] = low[axis];
        frame.high()[axis] = high[axis];
      }
    }
  }

  /** Moves a frame's sides onto cuts that are there anyway, so that no sliver comes between. */
  private void snap(Frame frame, List<Frame> before, List<double[]> given) {
    for (int axis = 0; axis < 2; axis++) {
      Set<Double> there = new TreeSet<>();
      for (Frame other : before) {
        there.add(other.low()[axis]);
        there.add(other.high()[axis]);
      }
      for (double[] place : given) {
        there.add(place[axis]);
      }
      double spare =
          (frame.high()[axis] - frame.low()[axis]) / 2 - 2 * frame.hole().ring() / reach(axis);
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
  private List<double[]> given() {
    List<double[]> out = new ArrayList<>();
    for (AddedMass m : panel.masses()) {
      quad.find(new Point(m.left(), m.front(), 0)).ifPresent(out::add);
      quad.find(new Point(m.right(), m.back(), 0)).ifPresent(out::add);
    }
    for (Brace brace : panel.braces()) {
      if (straight(brace.from(), brace.to())) {
        out.addAll(footprint(brace));
      }
    }
    for (Foot foot : stood) {
      quad.find(foot.at()).ifPresent(out::add);
    }
    for (Edge foot : feet) {
      out.addAll(across(foot.from(), foot.to()));
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
  private List<double[]> footprint(Brace brace) {
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
  private List<double[]> across(Point from, Point to) {
    List<double[]> out = new ArrayList<>();
    if (straight(from, to)) {
      quad.find(from).ifPresent(out::add);
      quad.find(to).ifPresent(out::add);
    }
    return out;
  }

  private boolean straight(Point from, Point to) {
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
      int parts = (int) Math.max(1, Math.ceil((cut - last) / step - (PanelCells.LONGER - 1)));
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

  /** The longer of the two sides along an axis, m. */
  private double reach(int axis) {
    return Math.max(quad.length(axis), quad.length(axis + 2));
  }
}
