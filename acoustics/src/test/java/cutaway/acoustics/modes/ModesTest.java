package cutaway.acoustics.modes;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

/** Closed form: a free chain of n equal masses, λ_k = 4 sin²(kπ/2n) (first principles). */
class ModesTest {
  private static final int N = 40;

  private static SymmetricSum chain() {
    SymmetricSum sum = new SymmetricSum(N);
    for (int i = 0; i + 1 < N; i++) {
      sum.add(new int[] {i, i + 1}, new double[] {1, -1, -1, 1}, i);
    }
    return sum;
  }

  private static double closed(int k) {
    double s = Math.sin(k * Math.PI / (2 * N));
    return 4 * s * s;
  }

  @Test
  void findsTheChainsModesOneThatDoesNotBendAmongThem() {
    double[] ones = new double[N];
    Arrays.fill(ones, 1);
    Modes modes = Modes.lowest(chain(), ones, 0.01, 8);
    for (int k = 0; k < 8; k++) {
      assertThat(modes.eigenvalue(k)).isCloseTo(closed(k), within(1e-12));
      double square = 0;
      for (double x : modes.shape(k)) {
        square += x * x;
      }
      assertThat(square).isCloseTo(1, within(1e-12));
    }
  }

  /** Masses of three: one on the diagonal, one from each of two elements that overlap. */
  @Test
  void takesAMassThatIsASum() {
    double[] ones = new double[N];
    Arrays.fill(ones, 1);
    SymmetricSum further = new SymmetricSum(N);
    for (int i = 0; i < N; i++) {
      further.add(new int[] {i, (i + 1) % N}, new double[] {1, 0, 0, 1}, i);
    }
    Modes modes = Modes.lowest(chain(), ones, further, 0.01, 5);
    for (int k = 0; k < 5; k++) {
      assertThat(modes.eigenvalue(k)).isCloseTo(closed(k) / 3, within(1e-12));
    }
  }

  @Test
  void givesTheSameBitsAgain() {
    double[] ones = new double[N];
    Arrays.fill(ones, 1);
    Modes first = Modes.lowest(chain(), ones, 0.01, 6);
    Modes again = Modes.lowest(chain(), ones, 0.01, 6);
    for (int k = 0; k < 6; k++) {
      assertThat(again.shape(k)).isEqualTo(first.shape(k));
      assertThat(again.eigenvalue(k)).isEqualTo(first.eigenvalue(k));
    }
  }

  @Test
  void refusesWhatItCannotSolve() {
    double[] ones = new double[N];
    Arrays.fill(ones, 1);
    assertThatThrownBy(() -> Modes.lowest(chain(), ones, 0.01, N))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("40 modes of 40 unknowns");
    assertThatThrownBy(() -> Modes.lowest(chain(), ones, -1, 3))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("not positive definite");
  }

  /** Large enough for two threads: squares of a net, each pulling at its four corners. */
  @Test
  void solvesALargeSystem() {
    int side = 130;
    SymmetricSum net = new SymmetricSum(side * side);
    double[] square = {2, -1, 0, -1, -1, 2, -1, 0, 0, -1, 2, -1, -1, 0, -1, 2};
    for (int row = 0; row + 1 < side; row++) {
      for (int column = 0; column + 1 < side; column++) {
        int at = row * side + column;
        net.add(new int[] {at, at + 1, at + side + 1, at + side}, square, row, column);
      }
    }
    double[] ones = new double[side * side];
    Arrays.fill(ones, 1);
    Modes modes = Modes.lowest(net, ones, 0.3, 3);
    assertThat(modes.factorNonZeros()).isGreaterThan(250_000);
    double[] x = new double[side * side];
    x[77] = 1;
    x[side * side - 5] = -2;
    double[] load = x.clone();
    modes.solveShifted(x, x);
    double[] back = new double[side * side];
    net.multiply(x, back);
    for (int i = 0; i < x.length; i++) {
      assertThat(back[i] + 0.3 * x[i]).isCloseTo(load[i], within(1e-12));
    }
  }

  @Test
  void solvesTheShiftedSystem() {
    double[] ones = new double[N];
    Arrays.fill(ones, 1);
    Modes modes = Modes.lowest(chain(), ones, 0.5, 3);
    double[] x = new double[N];
    x[7] = 1;
    modes.solveShifted(x, x);
    double[] back = new double[N];
    chain().multiply(x, back);
    for (int i = 0; i < N; i++) {
      assertThat(back[i] + 0.5 * x[i]).isCloseTo(i == 7 ? 1 : 0, within(1e-12));
    }
    assertThat(modes.factorNonZeros()).isBetween(N, 6 * N);
  }
}
