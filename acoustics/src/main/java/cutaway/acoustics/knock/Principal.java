package cutaway.acoustics.knock;

import org.ejml.data.DMatrixRMaj;
import org.netlib.lapack.Dlamch;
import org.netlib.lapack.Dormtr;
import org.netlib.lapack.Dstemr;
import org.netlib.lapack.Dsterf;
import org.netlib.lapack.Dsytrd;
import org.netlib.util.booleanW;
import org.netlib.util.intW;

/**
 * All eigenvalues of a symmetric matrix, and the vectors of the largest: LAPACK's relatively robust
 * representations, which need not find the vectors that nobody asks for.
 */
final class Principal {
  private static final String LOWER = "L";
  private static final int WORK = 64;

  static {
    // it finds out about the machine when first asked, which two threads must not do at once
    Dlamch.dlamch("E");
  }

  private final int n;

  /** The matrix in tridiagonal form, and the reflections that made it so. */
  private final double[] reflections;

  private final double[] diagonal;
  private final double[] beside;
  private final double[] factors;
  private final double[] work;

  /** Lowest first. */
  private final double[] values;

  /**
   * Finds the values.
   *
   * @param matrix n × n, symmetric; kept as it is
   */
  Principal(DMatrixRMaj matrix) {
    n = matrix.numRows;
    reflections = matrix.data.clone();
    diagonal = new double[n];
    beside = new double[n];
    factors = new double[n];
    work = new double[WORK * n];
    intW info = new intW(0);
    Dsytrd.dsytrd(
        LOWER,
        n,
        reflections,
        0,
        n,
        diagonal,
        0,
        beside,
        0,
        factors,
        0,
        work,
        0,
        work.length,
        info);
    values = diagonal.clone();
    Dsterf.dsterf(n, values, 0, beside.clone(), 0, info);
    check(info);
  }

  /** An eigenvalue, 0 for the largest. */
  double value(int number) {
    return values[n - 1 - number];
  }

  /**
   * Vectors of the largest values.
   *
   * @return n × most, largest first
   */
  DMatrixRMaj vectors(int most) {
    double[] columns = new double[n * most];
    int[] integers = new int[10 * n];
    intW info = new intW(0);
    Dstemr.dstemr(
        "V",
        "I",
        n,
        diagonal.clone(),
        0,
        beside.clone(),
        0,
        0,
        0,
        n - most + 1,
        n,
        new intW(0),
        new double[n],
        0,
        columns,
        0,
        n,
        most,
        new int[2 * n],
        0,
        new booleanW(true),
        work,
        0,
        work.length,
        integers,
        0,
        integers.length,
        info);
    check(info);
    Dormtr.dormtr(
        "L",
        LOWER,
        "N",
        n,
        most,
        reflections,
        0,
        n,
        factors,
        0,
        columns,
        0,
        n,
        work,
        0,
        work.length,
        info);
    DMatrixRMaj out = new DMatrixRMaj(n, most);
    for (int c = 0; c < most; c++) {
      for (int r = 0; r < n; r++) {
        out.set(r, c, columns[(most - 1 - c) * n + r]);
      }
    }
    return out;
  }

  private static void check(intW info) {
    if (info.val != 0) {
      throw new IllegalStateException("no eigenvectors: LAPACK's code " + info.val);
    }
  }
}
