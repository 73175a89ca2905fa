package cutaway.acoustics.fault;

import cutaway.acoustics.stimulus.Tone;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;

/** Moments of a driven take, each in the band in which it stands out most. */
final class Cells {
  private static final double WINDOW = 0.06;
  private static final double CYCLES = 3;

  /**
   * Cells so many places away lie half a window apart: each begins half a window after the last.
   */
  private static final int APART = 3;

  /** A second place in a sweep must stand out so far, dB. */
  private static final double SECOND = 8;

  /** Louder by this at another microphone, dB: another place. */
  private static final double OTHER = 4;

  private final Residue residue;
  private final List<Cell> all = new ArrayList<>();

  /** All while a tone stands or glides. */
  Cells(Residue residue) {
    this.residue = residue;
    for (int k = 0; k < residue.tones().size(); k++) {
      Tone tone = residue.tones().get(k);
      double time = TonesPlayed.settled(tone);
      while (true) {
        double half = Math.max(WINDOW, CYCLES / tone.frequency(time)) / 2;
        if (time + 2 * half > TonesPlayed.ends(tone)) {
          break;
        }
        all.add(best(k, time + half, half));
        time += half;
      }
    }
  }

  private Cell best(int k, double time, double half) {
    double frequency = residue.tones().get(k).frequency(time);
    Cell best = null;
    for (int b = 0; b < residue.bands(); b++) {
      if (TonesPlayed.isJudged(b, frequency) || b == residue.bands() - 1) {
        Cell here = residue.cell(k, time, half, b);
        if (best == null || here.margin() > best.margin()) {
          best = here;
        }
      }
    }
    return Objects.requireNonNull(best);
  }

  /** In order of time. */
  List<Cell> all() {
    return List.copyOf(all);
  }

  /**
   * The cell that stands out most, believed as far as others of its tone say the same, so that one
   * tick is not enough: of a steady tone the middle one of all, of a sweep one with a moment half a
   * window before or after it.
   */
  Optional<Cell> strongest() {
    Optional<Cell> out = Optional.empty();
    for (int k = 0; k < residue.tones().size(); k++) {
      int tone = k;
      List<Cell> own = all.stream().filter(c -> c.tone() == tone).toList();
      Optional<Cell> best = residue.tones().get(k).isSteady() ? middle(own) : sustained(own);
      if (best.isPresent() && out.map(o -> o.margin() < best.get().margin()).orElse(true)) {
        out = best;
      }
    }
    return out;
  }

  /** The moment that stands out most, be it alone. */
  Optional<Cell> loudest() {
    return all.stream().max(Comparator.comparingDouble(Cell::margin));
  }

  /** The strongest, if it stands out as far as a second place must. */
  Optional<Cell> second() {
    return strongest().filter(c -> c.margin() >= SECOND);
  }

  /**
   * What stands out most at least an octave off the strongest of a sweep, or loudest at another
   * microphone by a clear difference.
   */
  Optional<Cell> apart(Cell strongest) {
    return sustained(
            all.stream()
                .filter(c -> c.tone() == strongest.tone())
                .map(c -> isApart(c, strongest) ? c : c.believed(0))
                .toList())
        .filter(c -> c.margin() >= SECOND);
  }

  private static boolean isApart(Cell cell, Cell strongest) {
    double octaves = Math.abs(Math.log(cell.frequency() / strongest.frequency()) / Math.log(2));
    double[] levels = cell.levels();
    boolean other =
        cell.loudest() != strongest.loudest()
            && levels[cell.loudest()] - levels[strongest.loudest()] > OTHER;
    return octaves >= 1 || other;
  }

  private static Optional<Cell> middle(List<Cell> cells) {
    List<Cell> sorted = cells.stream().sorted(Comparator.comparingDouble(Cell::margin)).toList();
    return sorted.isEmpty() ? Optional.empty() : Optional.of(sorted.get(sorted.size() / 2));
  }

  private static Optional<Cell> sustained(List<Cell> cells) {
    double best = Double.NEGATIVE_INFINITY;
    Optional<Cell> out = Optional.empty();
    for (int i = 0; i + APART < cells.size(); i++) {
      // what begins with the sweep has no moment before it, but two after
      int other = i < APART ? Math.min(i + 2 * APART, cells.size() - 1) : i - APART;
      double here = cells.get(i).margin();
      double[] three = {cells.get(other).margin(), here, cells.get(i + APART).margin()};
      Arrays.sort(three);
      if (three[1] > best && here >= three[1]) {
        best = three[1];
        out = Optional.of(cells.get(i).believed(best));
      }
    }
    return out;
  }
}
