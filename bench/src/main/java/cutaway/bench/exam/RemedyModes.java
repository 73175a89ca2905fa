package cutaway.bench.exam;

import cutaway.acoustics.cabinet.BoxModes;
import cutaway.acoustics.cabinet.ImpossibleShapeException;
import cutaway.acoustics.cabinet.Wall;
import cutaway.acoustics.cabinet.WallSwap;
import cutaway.bench.finding.Change;
import cutaway.bench.work.Once;
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

  /** The wall and the window brace that were tried together last, ready for another of the wall. */
  private volatile Optional<Both> both = Optional.empty();

  /**
   * A wall to be changed in a box with a window brace.
   *
   * @param which its number
   * @param frame the brace's height
   */
  private record Both(int which, double frame, Once<WallSwap> swap) {
    boolean isOf(int wall, double at) {
      return which == wall && frame == at;
    }
  }

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
    Both its = both(which, at, framedWalls(at));
    return changed.equals(walls.get(which)) ? framed(at) : its.swap().get().with(changed);
  }

  private Both both(int which, double at, List<Wall> all) {
    if (both.filter(b -> b.isOf(which, at)).isEmpty()) {
      BoxModes.check(all);
    }
    Both its =
        both.filter(b -> b.isOf(which, at))
            .orElseGet(() -> new Both(which, at, new Once<>(() -> WallSwap.of(all, which, MODES))));
    both = Optional.of(its);
    return its;
  }

  /** The window brace at a share of the height. */
  Wall frame(double at) {
    return WindowBrace.at(geometry, at, WindowBrace.usual(Change.FRAME_BOARD), Change.FRAME_WIDTH);
  }

  private WallSwap swap(int which) {
    return swaps.computeIfAbsent(which, wall -> WallSwap.of(walls, wall, MODES));
  }

  private BoxModes framed(double at) {
    return framed.computeIfAbsent(at, share -> BoxModes.of(framedWalls(share), MODES).slim());
  }

  private List<Wall> framedWalls(double at) {
    List<Wall> all = new ArrayList<>(walls);
    all.add(frame(at));
    return all;
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
      BoxModes.check(framedWalls(at));
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
    Optional<Both> together = both.filter(b -> !b.swap().isDone());
    Optional<Double> height =
        frameHeights().stream().filter(at -> !framed.containsKey(at)).findFirst();
    OptionalInt wall =
        IntStream.range(0, walls.size()).filter(i -> !swaps.containsKey(i)).findFirst();
    if (together.isPresent()) {
      together.get().swap().get();
    } else if (!swaps.containsKey(worst)) {
      swap(worst);
    } else if (height.isPresent()) {
      framed(height.get());
    } else if (wall.isPresent()) {
      swap(wall.getAsInt());
    }
    return together.isPresent() || height.isPresent() || wall.isPresent();
  }
}
