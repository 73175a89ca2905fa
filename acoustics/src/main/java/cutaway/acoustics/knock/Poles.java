package cutaway.acoustics.knock;

import java.util.ArrayList;
import java.util.List;
import org.ejml.data.Complex_F64;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;
import org.ejml.dense.row.factory.DecompositionFactory_DDRM;
import org.ejml.interfaces.decomposition.EigenDecomposition_F64;

/**
 * Poles of several decays that share them, by shift invariance of the signal subspace.
 *
 * <p>Sources: Y. Hua and T. K. Sarkar, IEEE Trans. ASSP 38 (1990) 814 (matrix pencil); R. Roy and
 * T. Kailath, IEEE Trans. ASSP 37 (1989) 984; both from memory; verified in the tests on sums of
 * decays that are known.
 */
final class Poles {
  private Poles() {}

  /** Most columns of the subspace. */
  private static final int MOST = 80;

  /** Rows of the Hankel matrices, as a share of the shortest decay. */
  private static final double ROWS = 0.5;

  /** Eigenvalues this much above the noise's are signal. */
  private static final double SIGNAL = 1.5;

  /**
   * Finds the poles for a rising number of them.
   *
   * @param decays samples of each
   * @return for each even order, the poles z of that many as real and imaginary parts, those with
   *     an imaginary part above zero
   */
  static List<List<double[]>> of(List<double[]> decays) {
    int shortest = decays.stream().mapToInt(d -> d.length).min().orElseThrow();
    int rows = (int) (ROWS * shortest);
    Principal space = new Principal(product(decays, rows));
    double noise = space.value(rows * 2 / 3);
    int most = 2;
    while (most < Math.min(MOST, rows / 2) && space.value(most) > SIGNAL * Math.max(noise, 0)) {
      most++;
    }
    return shifted(space.vectors(most));
  }

  /**
   * Poles of the leading columns. As columns of an orthonormal space, UᵀU without the last row u is
   * 1 − uuᵀ, and its inverse 1 + uuᵀ/(1 − uᵀu).
   */
  private static List<List<double[]>> shifted(DMatrixRMaj space) {
    int rows = space.numRows;
    int most = space.numCols;
    DMatrixRMaj upper = CommonOps_DDRM.extract(space, 0, rows - 1, 0, most);
    DMatrixRMaj lower = CommonOps_DDRM.extract(space, 1, rows, 0, most);
    DMatrixRMaj product = new DMatrixRMaj(most, most);
    CommonOps_DDRM.multTransA(upper, lower, product);
    List<List<double[]>> out = new ArrayList<>();
    for (int size = 2; size <= most; size += 2) {
      DMatrixRMaj step = CommonOps_DDRM.extract(product, 0, size, 0, size);
      double[] last = new double[size];
      double square = 0;
      for (int c = 0; c < size; c++) {
        last[c] = space.get(rows - 1, c);
        square += last[c] * last[c];
      }
      double[] onto = new double[size];
      for (int c = 0; c < size; c++) {
        for (int r = 0; r < size; r++) {
          onto[c] += last[r] * step.get(r, c);
        }
      }
      for (int r = 0; r < size; r++) {
        for (int c = 0; c < size; c++) {
          step.add(r, c, last[r] * onto[c] / (1 - square));
        }
      }
      out.add(poles(step));
    }
    return out;
  }

  /** Sum of the Hankel matrices times their transposes. */
  private static DMatrixRMaj product(List<double[]> decays, int rows) {
    double[] sum = new double[rows * rows];
    for (int k = 0; k < rows; k++) {
      double[] diagonal = new double[rows - k];
      for (double[] y : decays) {
        addDiagonal(diagonal, y, k, rows);
      }
      for (int r = 0; r < diagonal.length; r++) {
        sum[r * rows + r + k] = diagonal[r];
        sum[(r + k) * rows + r] = diagonal[r];
      }
    }
    return DMatrixRMaj.wrap(rows, rows, sum);
  }

  /** Along a diagonal each entry is the one before, less its first product and with one more. */
  private static void addDiagonal(double[] diagonal, double[] y, int k, int rows) {
    int columns = y.length - rows + 1;
    double entry = 0;
    for (int c = 0; c < columns; c++) {
      entry += y[c] * y[c + k];
    }
    diagonal[0] += entry;
    for (int r = 1; r < diagonal.length; r++) {
      int last = r - 1 + columns;
      entry += y[last] * y[last + k] - y[r - 1] * y[r - 1 + k];
      diagonal[r] += entry;
    }
  }

  private static List<double[]> poles(DMatrixRMaj step) {
    List<double[]> out = new ArrayList<>();
    EigenDecomposition_F64<DMatrixRMaj> eig = DecompositionFactory_DDRM.eig(step.numRows, false);
    if (!eig.decompose(step)) {
      return out;
    }
    for (int i = 0; i < step.numRows; i++) {
      Complex_F64 z = eig.getEigenvalue(i);
      if (z.getImaginary() > 0) {
        out.add(new double[] {z.getReal(), z.getImaginary()});
      }
    }
    return out;
  }
}
