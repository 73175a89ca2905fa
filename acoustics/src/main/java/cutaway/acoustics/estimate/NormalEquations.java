package cutaway.acoustics.estimate;

/**
 * JᵀWJ and JᵀWr from the columns of a Jacobian.
 *
 * <p>Products of two columns with four are formed in one pass, so that every number loaded is used
 * several times and no addition has to wait for the one before it. Rows above the first and below
 * the last that matter to a column are left out.
 */
final class NormalEquations {
  private static final int BLOCK = 4;

  private final int size;
  private final double[] weights;

  /** JᵀWJ, p × p row-major. */
  final double[] information;

  /** JᵀWr. */
  final double[] gradient;

  private final double[][] weighted;

  /** The residual, then the columns of J. */
  private final double[][] columns;

  private final int[] first;
  private final int[] end;
  private final double[] products = new double[2 * BLOCK];

  NormalEquations(int size, double[] weights) {
    this.size = size;
    this.weights = weights;
    this.information = new double[size * size];
    this.gradient = new double[size];
    this.weighted = new double[2][weights.length];
    this.columns = new double[size + 1][];
    this.first = new int[size];
    this.end = new int[size];
  }

  /** Σ w r². */
  static double cost(double[] residual, double[] weights) {
    double even = 0;
    double odd = 0;
    int n = residual.length;
    int i = 0;
    for (; i <= n - 2; i += 2) {
      even += weights[i] * residual[i] * residual[i];
      odd += weights[i + 1] * residual[i + 1] * residual[i + 1];
    }
    return even + odd + (i < n ? weights[i] * residual[i] * residual[i] : 0);
  }

  /** Forms both; jacobian holds p columns. */
  void form(double[][] jacobian, double[] residual) {
    columns[0] = residual;
    System.arraycopy(jacobian, 0, columns, 1, size);
    for (int i = 0; i < size; i++) {
      first[i] = firstNonZero(jacobian[i]);
      end[i] = endOfNonZero(jacobian[i], first[i]);
    }
    for (int i = 0; i < size; i += 2) {
      int j = Math.min(i + 1, size - 1);
      int from = Math.min(first[i], first[j]);
      int to = Math.max(end[i], end[j]);
      weigh(jacobian[i], weighted[0], from, to);
      weigh(jacobian[j], weighted[1], from, to);
      int column = 0;
      for (; column <= j; column += BLOCK) {
        multiply(column, from, to);
        keep(i, j, column);
      }
      if (column == j + 1) {
        put(i, j, product(weighted[0], jacobian[j], from, to));
        put(j, j, product(weighted[1], jacobian[j], from, to));
      }
    }
  }

  private static double product(double[] a, double[] b, int from, int to) {
    double s0 = 0;
    double s1 = 0;
    double s2 = 0;
    double s3 = 0;
    int i = from;
    for (; i <= to - 4; i += 4) {
      s0 += a[i] * b[i];
      s1 += a[i + 1] * b[i + 1];
      s2 += a[i + 2] * b[i + 2];
      s3 += a[i + 3] * b[i + 3];
    }
    for (; i < to; i++) {
      s0 += a[i] * b[i];
    }
    return (s0 + s1) + (s2 + s3);
  }

  private void weigh(double[] column, double[] out, int from, int to) {
    for (int row = from; row < to; row++) {
      out[row] = weights[row] * column[row];
    }
  }

  /** Products of both weighted columns with four others; past the last, the last again. */
  private void multiply(int at, int from, int to) {
    double[] p = weighted[0];
    double[] q = weighted[1];
    double[] a = columns[at];
    double[] b = columns[Math.min(at + 1, size)];
    double[] c = columns[Math.min(at + 2, size)];
    double[] d = columns[Math.min(at + 3, size)];
    double pa = 0;
    double pb = 0;
    double pc = 0;
    double pd = 0;
    double qa = 0;
    double qb = 0;
    double qc = 0;
    double qd = 0;
    for (int i = from; i < to; i++) {
      double x = p[i];
      double y = q[i];
      pa += x * a[i];
      pb += x * b[i];
      pc += x * c[i];
      pd += x * d[i];
      qa += y * a[i];
      qb += y * b[i];
      qc += y * c[i];
      qd += y * d[i];
    }
    products[0] = pa;
    products[1] = pb;
    products[2] = pc;
    products[3] = pd;
    products[4] = qa;
    products[5] = qb;
    products[6] = qc;
    products[7] = qd;
  }

  private void keep(int i, int j, int column) {
    for (int k = 0; k < BLOCK && column + k <= size; k++) {
      put(i, column + k - 1, products[k]);
      put(j, column + k - 1, products[BLOCK + k]);
    }
  }

  private void put(int i, int column, double product) {
    if (column < 0) {
      gradient[i] = product;
    } else {
      information[i * size + column] = product;
      information[column * size + i] = product;
    }
  }

  private static int firstNonZero(double[] column) {
    int at = 0;
    while (at < column.length && column[at] == 0) {
      at++;
    }
    return at;
  }

  private static int endOfNonZero(double[] column, int first) {
    int at = column.length;
    while (at > first && column[at - 1] == 0) {
      at--;
    }
    return at;
  }
}
