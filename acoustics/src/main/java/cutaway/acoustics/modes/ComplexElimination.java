package cutaway.acoustics.modes;

/**
 * Elimination of the leading unknowns of a complex symmetric matrix, as a bordered system needs it
 * whose answer is wanted at its border only.
 *
 * <p>Without exchanging rows, which keeps the symmetry and half of the work. Where the imaginary
 * part of the leading block is definite, as it is of what loses energy everywhere, no leading minor
 * can be zero; near that it may happen, and a pivot that is small beside its row is told.
 */
public final class ComplexElimination {
  /** A pivot below this share of the largest number in its row leaves too few digits. */
  private static final double SMALL = 1e-8;

  private ComplexElimination() {}

  /**
   * Leaves in the last rows, for [A D; Dᵀ B], the upper half of B − Dᵀ A⁻¹ D.
   *
   * @param re real parts, row i from its diagonal on; written over
   * @param im imaginary parts, likewise
   * @param unknowns rows of A
   * @return whether no pivot was too small beside the rest of its row in A
   */
  public static boolean eliminate(double[][] re, double[][] im, int unknowns) {
    for (int k = 0; k < unknowns; k++) {
      double a = re[k][0];
      double b = im[k][0];
      double square = a * a + b * b;
      if (!(square > SMALL * SMALL * largest(re[k], im[k], unknowns - k))) {
        return false;
      }
      for (int i = k + 1; i < re.length; i++) {
        double c = re[k][i - k];
        double d = im[k][i - k];
        // times the row below this pivot, over it
        subtract(re, im, k, i, (c * a + d * b) / square, (d * a - c * b) / square);
      }
    }
    return true;
  }

  /**
   * Solves A x = d.
   *
   * @param re real parts of [A d; dᵀ 0], row i from its diagonal on; written over
   * @param im imaginary parts, likewise
   * @param x real and imaginary parts of the solution; 2 × unknowns, written over
   * @return whether no pivot was too small; x is left as it was where one is
   */
  public static boolean solve(double[][] re, double[][] im, double[][] x) {
    int n = re.length - 1;
    if (!eliminate(re, im, n)) {
      return false;
    }
    for (int i = n - 1; i >= 0; i--) {
      double a = re[i][n - i];
      double b = im[i][n - i];
      for (int j = i + 1; j < n; j++) {
        a -= re[i][j - i] * x[0][j] - im[i][j - i] * x[1][j];
        b -= re[i][j - i] * x[1][j] + im[i][j - i] * x[0][j];
      }
      double c = re[i][0];
      double d = im[i][0];
      double square = c * c + d * d;
      x[0][i] = (a * c + b * d) / square;
      x[1][i] = (b * c - a * d) / square;
    }
    return true;
  }

  /** Square of the largest of the first numbers in a row. */
  private static double largest(double[] re, double[] im, int count) {
    double out = 0;
    for (int i = 0; i < count; i++) {
      out = Math.max(out, re[i] * re[i] + im[i] * im[i]);
    }
    return out;
  }

  private static void subtract(double[][] re, double[][] im, int k, int i, double c, double d) {
    double[] fromRe = re[k];
    double[] fromIm = im[k];
    double[] toRe = re[i];
    double[] toIm = im[i];
    int off = i - k;
    for (int j = 0; j < toRe.length; j++) {
      toRe[j] -= c * fromRe[j + off] - d * fromIm[j + off];
      toIm[j] -= c * fromIm[j + off] + d * fromRe[j + off];
    }
  }
}
