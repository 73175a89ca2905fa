package cutaway.acoustics.cabinet;

import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;

/**
 * Tells how much of a motion's energy is that of a body which moves as a whole, without changing
 * its shape.
 */
final class StiffBody {
  /** M times each of the six motions. */
  private final double[][] momenta;

  private final DMatrixRMaj inverse = new DMatrixRMaj(6, 6);
  private final double mass;

  /**
   * For motions given in some unknowns.
   *
   * @param momenta M times each of the six motions of a stiff body, 6 × n
   * @param inertia these motions by M by these motions, 6 × 6
   */
  StiffBody(double[][] momenta, DMatrixRMaj inertia) {
    this.momenta = momenta;
    this.mass = inertia.get(0, 0);
    if (!CommonOps_DDRM.invert(inertia, inverse)) {
      throw new IllegalArgumentException("a body without inertia");
    }
  }

  /** Its mass, kg. */
  double mass() {
    return mass;
  }

  /**
   * Share of the energy of a motion.
   *
   * @param motion with xᵀMx = 1
   */
  double share(double[] motion) {
    DMatrixRMaj b = new DMatrixRMaj(6, 1);
    for (int i = 0; i < 6; i++) {
      for (int k = 0; k < motion.length; k++) {
        b.data[i] += momenta[i][k] * motion[k];
      }
    }
    DMatrixRMaj along = new DMatrixRMaj(6, 1);
    CommonOps_DDRM.mult(inverse, b, along);
    return CommonOps_DDRM.dot(b, along);
  }

  /** Sums of products of two lists of vectors. */
  static DMatrixRMaj products(double[][] a, double[][] b) {
    DMatrixRMaj out = new DMatrixRMaj(a.length, b.length);
    for (int i = 0; i < a.length; i++) {
      for (int j = 0; j < b.length; j++) {
        for (int k = 0; k < a[i].length; k++) {
          out.add(i, j, a[i][k] * b[j][k]);
        }
      }
    }
    return out;
  }
}
