package cutaway.bench.exam;

import cutaway.acoustics.cabinet.BoxModes;
import cutaway.acoustics.cabinet.ImpossibleShapeException;
import cutaway.acoustics.cabinet.Wall;
import cutaway.acoustics.cabinet.WallSwap;
import cutaway.bench.finding.Change;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.IntStream;

/**
 * How the walls of a box swing with a change: what changes can share is worked out once and kept.
 */
final class RemedyModes {
  /** Modes of a trial; fewer than an exam's, so that it is quick. */
  private static final int MODES = 18;

  /** Heights of a window brace, as shares of the box's: so many steps, from the third on. */
  private static final double FRAME_STEPS = 20;

  private static final int LOWEST_FRAME = 3;
  private static final int HIGHEST_FRAME = 17;

  private final CabinetGeometry geometry;
  private final List<Wall> walls;
  private final BoxModes asItIs;
  private final Once<List<Double>> heights = new Once<>(this::fitting);
  private final Map<Integer, WallSwap> swaps = new ConcurrentHashMap<>();

  /** With a window brace at some height, the walls as they are. */
  private final Map<Double, BoxModes> framed = new ConcurrentHashMap<>();

  RemedyModes(CabinetGeometry geometry, List<Wall> walls) {
    this.geometry = geometry;
    this.walls = List.copyOf(walls);
    this.asItIs = BoxModes.of(walls, MODES);
  }

  /** Without a change. */
  BoxModes asItIs() {
    return asItIs;
  }

  /**
   * With a wall changed.
   *
   * @param which its number
   * @param changed what it becomes
   * @param frame height of a window brace as a share of the box's, where there is one
   */
  BoxModes changed(int which, Wall changed, Optional<Double> frame) {
    if (frame.isEmpty()) {
      return swap(which).with(changed);
    }
    double at = frame.get();
    return changed.equals(walls.get(which)) ? framed(at) : framed(which, changed, at);
  }

  /** The window brace at a share of the height. */
  Wall frame(double at) {
    return WindowBrace.at(geometry, at, WindowBrace.usual(Change.FRAME_BOARD), Change.FRAME_WIDTH);
  }

  private WallSwap swap(int which) {
    return swaps.computeIfAbsent(which, wall -> WallSwap.of(walls, wall, MODES));
  }

  private BoxModes framed(double at) {
    return framed.computeIfAbsent(at, share -> framed(0, walls.get(0), share).slim());
  }

  private BoxModes framed(int which, Wall changed, double at) {
    List<Wall> all = new ArrayList<>(walls);
    all.set(which, changed);
    all.add(frame(at));
    return BoxModes.of(all, MODES);
  }

  /**
   * Heights at which a window brace fits, of those in steps of a twentieth; shares of the box's.
   */
  List<Double> frameHeights() {
    return heights.get();
  }

  private List<Double> fitting() {
    return IntStream.rangeClosed(LOWEST_FRAME, HIGHEST_FRAME)
        .mapToObj(i -> i / FRAME_STEPS)
        .filter(this::fits)
        .toList();
  }

  private boolean fits(double at) {
    try {
      List<Wall> all = new ArrayList<>(walls);
      all.add(frame(at));
      BoxModes.check(all);
      return true;
    } catch (ImpossibleShapeException e) {
      return false;
    }
  }

  /**
   * Works out what the next change may need, a part at a time. May run beside a trial.
   *
   * @param worst the wall that is likeliest to be changed
   * @return whether there was anything left
   */
  boolean prepare(int worst) {
    Optional<Double> height =
        frameHeights().stream().filter(at -> !framed.containsKey(at)).findFirst();
    OptionalInt wall =
        IntStream.range(0, walls.size()).filter(i -> !swaps.containsKey(i)).findFirst();
    if (!swaps.containsKey(worst)) {
      swap(worst);
    } else if (height.isPresent()) {
      framed(height.get());
    } else if (wall.isPresent()) {
      swap(wall.getAsInt());
    }
    return height.isPresent() || wall.isPresent();
  }
}
