package cutaway.acoustics.board;

import cutaway.acoustics.cabinet.BoxModes;
import cutaway.acoustics.cabinet.Wall;
import cutaway.acoustics.modes.ChebyshevSpan;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * Tones of a wall as part of its box: those modes of the whole in which it moves. Found in full at
 * the middle thickness; how they change with E/ρ, and within a narrow range with thickness, follows
 * from a box changed so little that the same shapes serve. A wide range is computed at several
 * thicknesses. The edge is a factor on all frequencies, for what joined plates leave out of a glued
 * box.
 */
public final class BoxTones {
  /** Thicknesses to compute for a wide range. */
  private static final int MANY = 7;

  private static final double NARROW = 1.3;

  /** A wall that moves less than this share of the one that moves most is not heard. */
  private static final double MOVES = 0.2;

  /** Steps for the slopes: shapes change in the second order of them. */
  private static final double STIFFER = 1.02;

  private static final double THICKER = 1.001;

  /** A mode that hardly knows the unknown boards is not let say much of them. */
  private static final double LEAST_SLOPE = 0.1;

  /** A box for a thickness (m) and E/ρ (m²/s²) of its unknown boards. */
  public interface Walls {
    /** Its walls. */
    List<Wall> of(double thickness, double stiffness);
  }

  private final BoxModes base;
  private final ChebyshevSpan range;
  private final double[][] tones;
  private final double[][] shares;
  private final double[] slopes;

  private BoxTones(BoxModes base, ChebyshevSpan range, double[][] tones, double[] slopes) {
    this.base = base;
    this.range = range;
    this.tones = tones;
    this.slopes = slopes;
    this.shares = shares(base);
  }

  /**
   * Computes.
   *
   * @param walls of the box for a thickness (m) and E/ρ (m²/s²) of the unknown boards
   * @param thickness their range
   * @param count modes
   * @param stiffness E/ρ that the unknown boards are computed with, m²/s²
   */
  public static BoxTones of(Walls walls, Range thickness, int count, double stiffness) {
    double middle = Math.sqrt(thickness.low() * thickness.high());
    BoxModes base = BoxModes.of(walls.of(middle, stiffness), count);
    boolean narrow = thickness.high() / thickness.low() < NARROW;
    List<BoxModes> changed =
        Stream.of(walls.of(middle, STIFFER * stiffness), walls.of(THICKER * middle, stiffness))
            .limit(narrow ? 2 : 1)
            .parallel()
            .map(base::nearby)
            .toList();
    double[] slopes = slopes(base, changed.get(0), Math.log(STIFFER));
    for (int mode = 0; mode < count; mode++) {
      slopes[mode] = Math.max(LEAST_SLOPE, Math.min(0.5, slopes[mode]));
    }
    ChebyshevSpan range = new ChebyshevSpan(thickness.low(), thickness.high(), narrow ? 2 : MANY);
    double[][] tones = new double[range.points()][count];
    if (narrow) {
      double[] rise = slopes(base, changed.get(1), Math.log(THICKER));
      for (int i = 0; i < tones.length; i++) {
        for (int mode = 0; mode < count; mode++) {
          tones[i][mode] =
              Math.log(base.frequency(mode)) + rise[mode] * Math.log(range.at(i) / middle);
        }
      }
    } else {
      for (int i = 0; i < tones.length; i++) {
        BoxModes modes = BoxModes.of(walls.of(range.at(i), stiffness), count);
        for (int mode = 0; mode < count; mode++) {
          tones[i][mode] = Math.log(modes.frequency(mode));
        }
      }
    }
    for (double[] at : tones) {
      for (int mode = 0; mode < count; mode++) {
        at[mode] -= slopes[mode] * Math.log(stiffness);
      }
    }
    return new BoxTones(base, range, tones, slopes);
  }

  private static double[] slopes(BoxModes base, BoxModes changed, double step) {
    double[] out = new double[base.size()];
    for (int mode = 0; mode < out.length; mode++) {
      out[mode] = Math.log(changed.frequency(mode) / base.frequency(mode)) / step;
    }
    return out;
  }

  /** The box at the middle of the range. */
  public BoxModes base() {
    return base;
  }

  /** How far each wall moves in each mode, over the wall that moves most: wall × mode. */
  private static double[][] shares(BoxModes modes) {
    double[][] out = new double[modes.walls().size()][modes.size()];
    for (int mode = 0; mode < modes.size(); mode++) {
      double most = 0;
      for (int wall = 0; wall < out.length; wall++) {
        out[wall][mode] = modes.rms(mode, wall);
        most = Math.max(most, out[wall][mode]);
      }
      for (int wall = 0; wall < out.length; wall++) {
        out[wall][mode] /= most;
      }
    }
    return out;
  }

  /** Those of one wall. */
  public Tones of(int wall) {
    int[] its =
        IntStream.range(0, shares[wall].length).filter(m -> shares[wall][m] > MOVES).toArray();
    return new Tones() {
      @Override
      public int modes() {
        return its.length;
      }

      @Override
      public double slope(int mode) {
        return slopes[its[mode]];
      }

      @Override
      public double[] at(double thickness, double edge) {
        double[] weights = range.weights(thickness);
        double[] out = new double[its.length];
        Arrays.fill(out, Math.log(edge));
        for (int m = 0; m < its.length; m++) {
          for (int i = 0; i < tones.length; i++) {
            out[m] += weights[i] * tones[i][its[m]];
          }
        }
        return out;
      }
    };
  }
}
