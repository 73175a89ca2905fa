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
 * @param whole frequencies at which the box moves on its feet, Hz
 */
@SuppressWarnings("ArrayRecordComponent") // never compared
record Swinging(Modes modes, List<Integer> walls, double[] feet, double[] whole) {
  /** Eigenvalues below this share of the shift are the box flying off whole. */
  private static final double RIGID = 1e-4;

  private static final double ROUNDING = 1e-8;

  /** With more of its strain in the feet a mode is the box's on them. */
  private static final double ON_FEET = 0.5;

  /**
   * Finds modes until so many are the walls'.
   *
   * @param shift of the size of the lowest bending mode's ω²
   * @param feet stiffness of the feet
   * @param lowest finds so many of the lowest modes
   */
  static Swinging find(int count, double shift, SymmetricSum feet, IntFunction<Modes> lowest) {
    for (int asked = count + 6; ; asked += count + 6) {
      Swinging all = among(lowest.apply(asked), count, shift, feet);
      if (all.walls().size() == count) {
        return all;
      }
    }
  }

  /** The same of modes that are there, as many as there are. */
  static Swinging among(Modes modes, int count, double shift, SymmetricSum feet) {
    List<Integer> walls = new ArrayList<>();
    List<Double> shares = new ArrayList<>();
    List<Double> whole = new ArrayList<>();
    for (int mode = 0; mode < modes.size() && walls.size() < count; mode++) {
      double eigenvalue = modes.eigenvalue(mode);
      // below, an eigenvalue is rounding
      boolean sprung = eigenvalue > ROUNDING * shift;
      double share = sprung ? feet.quadratic(modes.shape(mode)) / eigenvalue : 0;
      if (share > ON_FEET) {
        whole.add(Math.sqrt(eigenvalue) / (2 * Math.PI));
      } else if (eigenvalue > RIGID * shift) {
        walls.add(mode);
        shares.add(share);
      }
    }
    return new Swinging(modes, walls, array(shares), array(whole));
  }

  private static double[] array(List<Double> numbers) {
    return numbers.stream().mapToDouble(Double::doubleValue).toArray();
  }

  /** ω² of the walls' modes. */
  double[] eigenvalues() {
    return walls.stream().mapToDouble(modes::eigenvalue).toArray();
  }
}
