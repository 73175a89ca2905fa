package cutaway.acoustics.modes;

/**
 * Elimination of the leading unknowns of a complex symmetric matrix, as a bordered system needs it
 * whose answer is wanted at its border only.
 *
 * <p>Without exchanging rows: the imaginary part of the leading block must be definite, as it is of
 * everything that loses energy. Every leading minor then differs from zero, and the factors grow no
 * more than the ratio of real to imaginary part lets them (N. J. Higham, Math. Comp. 67 (1998)
 * 1591, from memory; verified in the tests against an elimination with pivots).
 */
public final class ComplexElimination {
  private ComplexElimination() {}

  /**
   * Leaves in the last rows, for [A D; Dᵀ B], the upper half of B − Dᵀ A⁻¹ D.
   *
   * @param re real parts, row i from its diagonal on; written over
   * @param im imaginary parts, likewise
   * @param unknowns rows of A
   * @return whether every pivot differs from zero
   */
  public static boolean eliminate(double[][] re, double[][] im, int unknowns) {
    for (int k = 0; k < unknowns; k++) {
      double a = re[k][0];
      double b = im[k][0];
      double square = a * a + b * b;
      if (!(square > 0)) {
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
