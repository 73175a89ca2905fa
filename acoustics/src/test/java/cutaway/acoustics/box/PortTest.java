package cutaway.acoustics.box;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.Published;
import cutaway.acoustics.air.Air;
import cutaway.acoustics.box.Port.End;
import cutaway.acoustics.estimate.Estimate;
import org.junit.jupiter.api.Test;

/** Published truth: 04_helmholtz_ports.csv; end corrections of 03_end_corrections.csv. */
class PortTest {
  private static final Air AIR = new Air(Estimate.exact(1.204), Estimate.exact(343.2));

  private static Port round(double d, double l, End outer, End inner) {
    return Port.round(Estimate.exact(d), Estimate.exact(l), outer, inner, 1);
  }

  @Test
  void tunesAsTheHelmholtzTableSays() {
    check("ex1", round(0.07, 0.15, End.FLANGED, End.FLANGED), 0.03);
    check("ex2", round(0.1, 0.2, End.FLANGED, End.FREE), 0.05);
    check("ex3", round(0.05, 0.1, End.FREE, End.FREE), 0.01);
    check("ex5", round(0.038, 0.12, End.FLANGED, End.FREE), 0.02);
  }

  private static void check(String id, Port port, double volume) {
    double f = port.tuning(Estimate.exact(volume), AIR).value();
    double expected = Published.value("04_helmholtz_ports.csv", id + ".f");
    // the table takes 0.8217 for the flanged end, this class 0.8216
    assertThat(f).isCloseTo(expected, within(3e-5 * expected));
  }

  @Test
  void usesTheEndCorrectionsLookedUp() {
    assertThat(End.FREE.correction().value())
        .isEqualTo(Published.value("03_end_corrections.csv", "unflanged"));
    assertThat(End.FLANGED.correction().value())
        .isEqualTo(Published.value("03_end_corrections.csv", "flanged"));
  }

  @Test
  void countsSeveralPortsAsOneLighterMass() {
    Port one = round(0.05, 0.1, End.FREE, End.FREE);
    Port two = Port.round(Estimate.exact(0.05), Estimate.exact(0.1), End.FREE, End.FREE, 2);
    assertThat(two.acousticMass(AIR).value())
        .isCloseTo(one.acousticMass(AIR).value() / 2, within(1e-9));
  }

  /** Potential flow round a corner of width 1 between legs of length 3, by finite differences. */
  @Test
  void aSharpBendIsShorterThanItsMiddle() {
    Estimate w = Estimate.exact(0.2);
    Estimate h = Estimate.exact(0.01);
    Port straight = Port.slot(w, h, Estimate.exact(0.3), End.FREE, End.FREE, 1);
    double less = straight.effectiveLength().value() - straight.bent(1).effectiveLength().value();
    assertThat(less / 0.01).isCloseTo(7 - corner(16, 3), within(0.01));
    assertThat(straight.bent(2).effectiveLength().sd()).isGreaterThan(0.0005);
  }

  /** Length of the straight duct that resists as much as two legs and the corner between them. */
  private static double corner(int n, int leg) {
    int size = (leg + 1) * n;
    double[][] p = new double[size][size];
    for (double[] row : p) {
      java.util.Arrays.fill(row, 0.5);
    }
    double flow = 0;
    for (int pass = 0; pass < 6000; pass++) {
      flow = 0;
      for (int i = 0; i < size; i++) {
        for (int j = 0; j < (i < n ? size : n); j++) {
          double sum = 0;
          double weight = 0;
          int[][] near = {{i - 1, j}, {i + 1, j}, {i, j - 1}, {i, j + 1}};
          for (int[] at : near) {
            boolean inside =
                at[0] >= 0
                    && at[1] >= 0
                    && at[0] < size
                    && at[1] < size
                    && (at[0] < n || at[1] < n);
            if (inside) {
              sum += p[at[0]][at[1]];
              weight++;
            }
          }
          if (j == size - 1) {
            sum += 2;
            weight += 2;
          }
          if (i == size - 1) {
            weight += 2;
          }
          p[i][j] += 1.9 * (sum / weight - p[i][j]);
          flow += j == size - 1 ? 2 * (1 - p[i][j]) : 0;
        }
      }
    }
    return 1 / flow;
  }

  /** The mean inverse distance within a rectangle, by brute force. */
  @Test
  void weakensTheEndMassOfASlotAsTheIntegralDoes() {
    assertThat(Port.slotFactor(1)).isEqualTo(1);
    assertThat(Port.slotFactor(8)).isCloseTo(mean(8) / mean(1), within(0.01));
  }

  private static double mean(double aspect) {
    double w = Math.sqrt(aspect);
    java.util.Random random = new java.util.Random(3);
    double sum = 0;
    int n = 2_000_000;
    for (int i = 0; i < n; i++) {
      double x = difference(random) * w;
      double y = difference(random) / w;
      sum += 1 / Math.hypot(x, y);
    }
    return sum / n;
  }

  private static double difference(java.util.Random random) {
    double first = random.nextDouble();
    return first - random.nextDouble();
  }

  @Test
  void refusesNoPorts() {
    assertThatThrownBy(
            () ->
                Port.slot(
                    Estimate.exact(0.1),
                    Estimate.exact(0.02),
                    Estimate.exact(0.2),
                    End.FREE,
                    End.NEAR_WALL,
                    0))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
