package cutaway.acoustics.modes;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import org.ejml.data.Complex_F64;
import org.ejml.data.ZMatrixRMaj;
import org.ejml.dense.row.CommonOps_ZDRM;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class ComplexEliminationTest {
  private static final int BORDER = 3;

  /** Against EJML's solver with pivots, with the real part from definite to as good as lossless. */
  @ParameterizedTest
  @CsvSource({"0, 1, 1e-12", "60, 1, 1e-11", "60, 0.02, 1e-10", "60, 1e-4, 1e-8"})
  void leavesTheSchurComplement(double shift, double loss, double grace) {
    int n = 40;
    Random random = new Random(5);
    double[][] a = symmetric(n, random);
    double[][] b = symmetric(n, random);
    double[][] re = rows(n + BORDER);
    double[][] im = rows(n + BORDER);
    ZMatrixRMaj matrix = new ZMatrixRMaj(n, n);
    ZMatrixRMaj right = new ZMatrixRMaj(n, BORDER);
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        matrix.set(i, j, a[i][j] - (i == j ? shift : 0), loss * b[i][j]);
        if (j >= i) {
          re[i][j - i] = matrix.getReal(i, j);
          im[i][j - i] = matrix.getImag(i, j);
        }
      }
      for (int p = 0; p < BORDER; p++) {
        re[i][n + p - i] = random.nextGaussian();
        im[i][n + p - i] = random.nextGaussian();
        right.set(i, p, re[i][n + p - i], im[i][n + p - i]);
      }
    }
    ZMatrixRMaj found = new ZMatrixRMaj(n, BORDER);
    assertThat(CommonOps_ZDRM.solve(matrix, right, found)).isTrue();
    ZMatrixRMaj border = new ZMatrixRMaj(BORDER, BORDER);
    CommonOps_ZDRM.mult(CommonOps_ZDRM.transpose(right, null), found, border);
    assertThat(ComplexElimination.eliminate(re, im, n)).isTrue();
    Complex_F64 its = new Complex_F64();
    for (int p = 0; p < BORDER; p++) {
      for (int q = p; q < BORDER; q++) {
        border.get(p, q, its);
        double size = its.getMagnitude();
        assertThat(-re[n + p][q - p]).isCloseTo(its.real, within(grace * size));
        assertThat(-im[n + p][q - p]).isCloseTo(its.imaginary, within(grace * size));
      }
    }
  }

  /** The same border for one right side; then what A makes of the solution is that side. */
  @Test
  void solves() {
    int n = 30;
    Random random = new Random(8);
    double[][] a = symmetric(n, random);
    double[][] b = symmetric(n, random);
    double[][] re = rows(n + 1);
    double[][] im = rows(n + 1);
    for (int i = 0; i < n; i++) {
      for (int j = i; j < n; j++) {
        re[i][j - i] = a[i][j] - (i == j ? 50 : 0);
        im[i][j - i] = 0.1 * b[i][j];
      }
      re[i][n - i] = random.nextGaussian();
      im[i][n - i] = random.nextGaussian();
    }
    double[][] keptRe = Arrays.stream(re).map(double[]::clone).toArray(double[][]::new);
    double[][] keptIm = Arrays.stream(im).map(double[]::clone).toArray(double[][]::new);
    double[][] x = new double[2][n];
    assertThat(ComplexElimination.solve(re, im, x)).isTrue();
    for (int i = 0; i < n; i++) {
      double sumRe = 0;
      double sumIm = 0;
      for (int j = 0; j < n; j++) {
        double r = keptRe[Math.min(i, j)][Math.abs(i - j)];
        double m = keptIm[Math.min(i, j)][Math.abs(i - j)];
        sumRe += r * x[0][j] - m * x[1][j];
        sumIm += r * x[1][j] + m * x[0][j];
      }
      assertThat(sumRe).isCloseTo(keptRe[i][n - i], within(1e-10));
      assertThat(sumIm).isCloseTo(keptIm[i][n - i], within(1e-10));
    }
  }

  /** Beside the rest of A; what stands at the border does not count. */
  @ParameterizedTest
  @ValueSource(doubles = {0, 1e-10})
  void tellsAPivotThatIsTooSmall(double pivot) {
    double[][] re = {{pivot, 1, 0}, {1, 0}, {0}};
    double[][] im = {{0, 0, 0}, {0, 0}, {0}};
    assertThat(ComplexElimination.eliminate(re, im, 2)).isFalse();
    double[][] alone = {{1e-10, 1}, {0}};
    assertThat(ComplexElimination.eliminate(alone, new double[][] {{0, 0}, {0}}, 1)).isTrue();
    assertThat(alone[1][0]).isCloseTo(-1e10, within(1.0));
  }

  /** A definite one, with eigenvalues of some hundred. */
  private static double[][] symmetric(int n, Random random) {
    double[][] factor = new double[n][n];
    for (double[] row : factor) {
      Arrays.setAll(row, i -> random.nextGaussian());
    }
    double[][] out = new double[n][n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        for (int k = 0; k < n; k++) {
          out[i][j] += factor[i][k] * factor[j][k];
        }
      }
      out[i][i] += 1;
    }
    return out;
  }

  private static double[][] rows(int n) {
    double[][] out = new double[n][];
    Arrays.setAll(out, i -> new double[n - i]);
    return out;
  }
}
