package cutaway.benchmarks.demo;

/**
 * ẋ = A x + b u, stepped exactly for an input that runs in straight lines between samples.
 *
 * <p>The step matrices come from the exponential of the system augmented by the input and its slope
 * (C. F. Van Loan, IEEE Trans. Automat. Contr. 23 (1978), from memory), by scaling and squaring of
 * the Taylor series.
 */
final class LinearSystem {
  private final double[][] step;
  private final int n;
  private final double[] x;
  private final double[] next;
  private double before;

  LinearSystem(double[][] a, double[] b, double h) {
    n = b.length;
    double[][] m = new double[n + 2][n + 2];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        m[i][j] = a[i][j] * h;
      }
      m[i][n] = b[i] * h;
    }
    m[n][n + 1] = 1;
    step = exponential(m);
    x = new double[n];
    next = new double[n];
  }

  /** Advances to a new input value and returns the state, not to be altered. */
  double[] advance(double u) {
    for (int i = 0; i < n; i++) {
      double sum = step[i][n] * before + step[i][n + 1] * (u - before);
      for (int j = 0; j < n; j++) {
        sum += step[i][j] * x[j];
      }
      next[i] = sum;
    }
    System.arraycopy(next, 0, x, 0, n);
    before = u;
    return x;
  }

  private static double[][] exponential(double[][] m) {
    int size = m.length;
    double norm = 0;
    for (double[] row : m) {
      double sum = 0;
      for (double v : row) {
        sum += Math.abs(v);
      }
      norm = Math.max(norm, sum);
    }
    int squarings = Math.max(0, (int) Math.ceil(Math.log(norm / 0.25) / Math.log(2)));
    double scale = Math.pow(2, -squarings);
    double[][] term = identity(size);
    double[][] sum = identity(size);
    for (int k = 1; k < 20; k++) {
      term = times(term, m, scale / k);
      for (int i = 0; i < size; i++) {
        for (int j = 0; j < size; j++) {
          sum[i][j] += term[i][j];
        }
      }
    }
    for (int i = 0; i < squarings; i++) {
      sum = times(sum, sum, 1);
    }
    return sum;
  }

  private static double[][] identity(int size) {
    double[][] out = new double[size][size];
    for (int i = 0; i < size; i++) {
      out[i][i] = 1;
    }
    return out;
  }

  private static double[][] times(double[][] a, double[][] b, double factor) {
    int size = a.length;
    double[][] out = new double[size][size];
    for (int i = 0; i < size; i++) {
      for (int k = 0; k < size; k++) {
        double v = a[i][k] * factor;
        for (int j = 0; j < size && v != 0; j++) {
          out[i][j] += v * b[k][j];
        }
      }
    }
    return out;
  }
}
