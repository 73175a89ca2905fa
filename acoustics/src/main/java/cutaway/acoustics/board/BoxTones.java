package cutaway.acoustics.board;

import cutaway.acoustics.cabinet.BoxModes;
import cutaway.acoustics.cabinet.Wall;
import java.util.Arrays;
import java.util.List;
import java.util.function.DoubleFunction;
import java.util.stream.IntStream;

/**
 * Tones of a wall as part of its box: those modes of the whole in which it moves. Found at a few
 * thicknesses of the unknown boards and interpolated; the edge is a factor on all frequencies, for
 * what joined plates leave out of a glued box.
 */
public final class BoxTones {
  private static final int THICKNESSES = 3;

  /** A wall that moves less than this share of the one that moves most is not heard. */
  private static final double MOVES = 0.2;

  private final ChebyshevSpan range;
  private final double[][] tones = new double[THICKNESSES][];
  private final double[][] shares;

  private BoxTones(Range thickness, double[][] shares) {
    this.range = new ChebyshevSpan(thickness.low(), thickness.high(), THICKNESSES);
    this.shares = shares;
  }

  /**
   * Computes.
   *
   * @param walls of the box for a thickness of the unknown boards, m
   * @param thickness their range
   * @param count modes
   * @param stiffness E/ρ that the unknown boards are computed with, m²/s²
   */
  public static BoxTones of(
      DoubleFunction<List<Wall>> walls, Range thickness, int count, double stiffness) {
    BoxModes middle =
        BoxModes.of(walls.apply(Math.sqrt(thickness.low() * thickness.high())), count);
    int n = middle.walls().size();
    double[][] shares = new double[n][count];
    for (int mode = 0; mode < count; mode++) {
      double most = 0;
      for (int wall = 0; wall < n; wall++) {
        shares[wall][mode] = middle.rms(mode, wall);
        most = Math.max(most, shares[wall][mode]);
      }
      for (int wall = 0; wall < n; wall++) {
        shares[wall][mode] /= most;
      }
    }
    BoxTones out = new BoxTones(thickness, shares);
    for (int i = 0; i < THICKNESSES; i++) {
      BoxModes modes =
          i == THICKNESSES / 2 ? middle : BoxModes.of(walls.apply(out.range.at(i)), count);
      out.tones[i] = new double[count];
      for (int mode = 0; mode < count; mode++) {
        out.tones[i][mode] = Math.log(modes.frequency(mode) / Math.sqrt(stiffness));
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
      public double[] at(double thickness, double edge) {
        double[] weights = range.weights(thickness);
        double[] out = new double[its.length];
        Arrays.fill(out, Math.log(edge));
        for (int m = 0; m < its.length; m++) {
          for (int i = 0; i < THICKNESSES; i++) {
            out[m] += weights[i] * tones[i][its[m]];
          }
        }
        return out;
      }
    };
  }
}
