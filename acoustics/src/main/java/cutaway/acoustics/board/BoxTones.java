package cutaway.acoustics.board;

import cutaway.acoustics.cabinet.BoxModes;
import cutaway.acoustics.cabinet.Wall;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;

/**
 * Tones of a wall as part of its box: those modes of the whole in which it moves. Found at a few
 * thicknesses of the unknown boards and interpolated; the edge is a factor on all frequencies, for
 * what joined plates leave out of a glued box.
 */
public final class BoxTones {
  /** Thicknesses to compute for a narrow range, and for a wide one. */
  private static final int FEW = 2;

  private static final int MANY = 7;
  private static final double NARROW = 1.3;

  /** A wall that moves less than this share of the one that moves most is not heard. */
  private static final double MOVES = 0.2;

  /** Step of E/ρ for the slopes. */
  private static final double STIFFER = 1.3;

  /** A mode that hardly knows the unknown boards is not let say much of them. */
  private static final double LEAST_SLOPE = 0.1;

  /** A box for a thickness (m) and E/ρ (m²/s²) of its unknown boards. */
  public interface Walls {
    /** Its walls. */
    List<Wall> of(double thickness, double stiffness);
  }

  private final ChebyshevSpan range;
  private final double[][] tones;
  private final double[][] shares;
  private final double[] slopes;

  private BoxTones(ChebyshevSpan range, double[][] shares) {
    this.range = range;
    this.tones = new double[range.points()][];
    this.shares = shares;
    this.slopes = new double[shares[0].length];
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
    int points = thickness.high() / thickness.low() < NARROW ? FEW : MANY;
    ChebyshevSpan range = new ChebyshevSpan(thickness.low(), thickness.high(), points);
    double middle = range.at(points / 2);
    BoxModes base = BoxModes.of(walls.of(middle, stiffness), count);
    BoxModes stiffer = BoxModes.of(walls.of(middle, STIFFER * stiffness), count);
    BoxTones out = new BoxTones(range, shares(base));
    for (int mode = 0; mode < count; mode++) {
      double slope = Math.log(stiffer.frequency(mode) / base.frequency(mode)) / Math.log(STIFFER);
      out.slopes[mode] = Math.max(LEAST_SLOPE, Math.min(0.5, slope));
    }
    for (int i = 0; i < points; i++) {
      BoxModes modes =
          i == points / 2 ? base : BoxModes.of(walls.of(range.at(i), stiffness), count);
      out.tones[i] = new double[count];
      for (int mode = 0; mode < count; mode++) {
        out.tones[i][mode] =
            Math.log(modes.frequency(mode)) - out.slopes[mode] * Math.log(stiffness);
      }
    }
    return out;
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
