package cutaway.acoustics.cabinet;

import cutaway.acoustics.modes.Modes;
import cutaway.acoustics.modes.SymmetricSum;
import java.util.ArrayList;
import java.util.List;
import java.util.function.IntFunction;

/**
 * Which modes of a box are its walls', and which the box moving as a whole.
 *
 * @param modes all that were found
 * @param walls numbers of those in which walls swing, lowest first
 * @param feet of each of these, the share of its strain that is in the feet
 * @param whole frequencies at which the box moves on its feet as a whole, Hz
 * @param mass of the box, kg
 */
@SuppressWarnings("ArrayRecordComponent") // never compared
record Swinging(Modes modes, List<Integer> walls, double[] feet, double[] whole, double mass) {
  /** A mode with more of its energy in the motion of a stiff body is the box's as a whole. */
  private static final double WHOLE = 0.5;

  /** Eigenvalues below this share of the shift are none but for rounding: nothing holds the box. */
  private static final double ROUNDING = 1e-8;

  /**
   * Finds modes until so many are the walls'.
   *
   * @param shift of the size of the lowest bending mode's ω²
   * @param feet stiffness of the feet
   * @param body tells the box moving as a whole
   * @param lowest finds so many of the lowest modes
   */
  static Swinging find(
      int count, double shift, SymmetricSum feet, StiffBody body, IntFunction<Modes> lowest) {
    for (int asked = count + 6; ; asked += count + 6) {
      Swinging all = among(lowest.apply(asked), count, shift, feet, body);
      if (all.walls().size() == count) {
        return all;
      }
    }
  }

  /** The same of modes that are there, as many as there are. */
  static Swinging among(Modes modes, int count, double shift, SymmetricSum feet, StiffBody body) {
    List<Integer> walls = new ArrayList<>();
    List<Double> shares = new ArrayList<>();
    List<Double> whole = new ArrayList<>();
    for (int mode = 0; mode < modes.size() && walls.size() < count; mode++) {
      double eigenvalue = modes.eigenvalue(mode);
      if (body.share(modes.shape(mode)) < WHOLE) {
        walls.add(mode);
        shares.add(feet.quadratic(modes.shape(mode)) / eigenvalue);
      } else if (eigenvalue > ROUNDING * shift) {
        whole.add(Math.sqrt(eigenvalue) / (2 * Math.PI));
      }
    }
    return new Swinging(modes, walls, array(shares), array(whole), body.mass());
  }

  private static double[] array(List<Double> numbers) {
    return numbers.stream().mapToDouble(Double::doubleValue).toArray();
  }

  /** ω² of the walls' modes. */
  double[] eigenvalues() {
    return walls.stream().mapToDouble(modes::eigenvalue).toArray();
  }
}
