package cutaway.acoustics.modes;

import java.util.Arrays;
import java.util.Optional;
import java.util.stream.IntStream;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;
import org.ejml.dense.row.factory.DecompositionFactory_DDRM;

/**
 * Modes of K x = λ M x among the sums of a few vectors (Rayleigh–Ritz): never below the true ones,
 * and off by the square of what the vectors leave out. With the modes of something much alike for
 * vectors they need no large matrix to be factored.
 */
public final class Ritz {
  private Ritz() {}

  /**
   * Modes of something changed among the sums of those it had.
   *
   * @param before modes of K and M
   * @param stiffer what K has become over what it was
   * @param heavier the same of M's diagonal
   * @param further and of what M is besides
   */
  public static Modes changed(
      Modes before, SymmetricSum stiffer, double[] heavier, SymmetricSum further) {
    int m = before.size();
    double[][] vectors = new double[m][];
    Arrays.setAll(vectors, before::shape);
    DMatrixRMaj k = projected(stiffer, new double[stiffer.size()], vectors);
    DMatrixRMaj weighed = projected(further, heavier, vectors);
    for (int i = 0; i < m; i++) {
      k.add(i, i, before.eigenvalue(i));
      weighed.add(i, i, 1);
    }
    return small(k, weighed, vectors);
  }

  /**
   * VᵀAV, symmetric.
   *
   * @param sum A without
   * @param diagonal what is added to its diagonal
   * @param vectors columns of V
   */
  public static DMatrixRMaj projected(SymmetricSum sum, double[] diagonal, double[][] vectors) {
    int m = vectors.length;
    DMatrixRMaj out = sum.projected(vectors);
    // most often few numbers of the diagonal, or none, have changed
    int[] places = IntStream.range(0, diagonal.length).filter(k -> diagonal[k] != 0).toArray();
    double[][] rows = Arrays.stream(vectors).map(v -> taken(v, places)).toArray(double[][]::new);
    double[] further = taken(diagonal, places);
    for (int i = 0; i < m; i++) {
      double[] weighed = rows[i].clone();
      for (int k = 0; k < weighed.length; k++) {
        weighed[k] *= further[k];
      }
      for (int j = 0; j <= i; j++) {
        double own = Dot.of(weighed, 0, rows[j], 0, weighed.length);
        set(out, i, j, (out.get(i, j) + out.get(j, i)) / 2 + own);
      }
    }
    return out;
  }

  private static double[] taken(double[] from, int[] places) {
    return Arrays.stream(places).mapToDouble(k -> from[k]).toArray();
  }

  private static void set(DMatrixRMaj a, int i, int j, double value) {
    a.set(i, j, value);
    a.set(j, i, value);
  }

  /** With M = LLᵀ those of L⁻¹KL⁻ᵀ. */
  private static Modes small(DMatrixRMaj k, DMatrixRMaj mass, double[][] vectors) {
    int m = k.numRows;
    var cholesky = DecompositionFactory_DDRM.chol(m, true);
    if (!cholesky.decompose(mass.copy())) {
      throw new IllegalArgumentException("the vectors depend on each other");
    }
    DMatrixRMaj inverse = new DMatrixRMaj(m, m);
    CommonOps_DDRM.invert(cholesky.getT(null), inverse);
    DMatrixRMaj half = new DMatrixRMaj(m, m);
    DMatrixRMaj plain = new DMatrixRMaj(m, m);
    CommonOps_DDRM.mult(inverse, k, half);
    CommonOps_DDRM.multTransB(half, inverse, plain);
    for (int i = 0; i < m; i++) {
      for (int j = 0; j < i; j++) {
        set(plain, i, j, (plain.get(i, j) + plain.get(j, i)) / 2);
      }
    }
    var eigen = DecompositionFactory_DDRM.eig(m, true, true);
    if (!eigen.decompose(plain)) {
      throw new IllegalStateException("no modes within the vectors");
    }
    int[] order =
        IntStream.range(0, m)
            .boxed()
            .sorted(
                (a, b) ->
                    Double.compare(
                        eigen.getEigenvalue(a).getReal(), eigen.getEigenvalue(b).getReal()))
            .mapToInt(Integer::intValue)
            .toArray();
    double[] values = new double[m];
    double[][] shapes = new double[m][];
    DMatrixRMaj weights = new DMatrixRMaj(m, 1);
    for (int i = 0; i < m; i++) {
      values[i] = eigen.getEigenvalue(order[i]).getReal();
      CommonOps_DDRM.multTransA(inverse, eigen.getEigenVector(order[i]), weights);
      shapes[i] = sum(vectors, weights.data);
    }
    return new Modes(values, shapes, Optional.empty());
  }

  private static double[] sum(double[][] vectors, double[] weights) {
    double[] out = new double[vectors[0].length];
    for (int v = 0; v < vectors.length; v++) {
      for (int i = 0; i < out.length; i++) {
        out[i] += weights[v] * vectors[v][i];
      }
    }
    return out;
  }
}
