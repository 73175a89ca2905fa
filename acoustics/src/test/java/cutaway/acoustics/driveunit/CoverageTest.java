package cutaway.acoustics.driveunit;

import static org.assertj.core.api.Assertions.assertThat;

import cutaway.acoustics.estimate.Estimate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/**
 * Known answers: over many invented drive units, truths fall within one standard uncertainty about
 * 68 times in a hundred and within two about 95 times. How it was run is in {@code
 * docs/methods/accuracy.md}.
 */
class CoverageTest {
  private static final int UNITS = 600;

  @Test
  void uncertaintiesAreHonest() {
    Map<String, int[]> counts = new LinkedHashMap<>();
    for (int i = 0; i < UNITS; i++) {
      Bench b = new Bench(1000 + i).varied();
      List<Take> takes = b.usual();
      JointFit fit = JointFit.of(takes, b.readings(0.005));
      tally(counts, "R_e", Optional.of(fit.averaged(Fitted::re)), b.re);
      tally(counts, "f_s", Optional.of(fit.averaged(Fitted::fs)), b.fs);
      tally(counts, "Q_ms", Optional.of(fit.averaged(Fitted::qms)), b.qms);
      tally(counts, "Q_es", Optional.of(fit.averaged(Fitted::qes)), b.qes);
      tally(counts, "Q_ts", Optional.of(fit.averaged(Fitted::qts)), 1 / (1 / b.qms + 1 / b.qes));
      tally(counts, "M_ms", fit.averagedIfShown(Fitted::mms), b.mms);
      tally(counts, "C_ms", fit.averagedIfShown(Fitted::cms), b.cms());
      tally(counts, "R_ms", fit.averagedIfShown(Fitted::rms), 2 * Math.PI * b.fs * b.mms / b.qms);
      tally(counts, "Bl", fit.averagedIfShown(Fitted::bl), b.bl());
      tally(counts, "V_as", fit.averagedIfShown(Fitted::vas), b.vas());
      tally(counts, "S_d", fit.averagedIfShown(Fitted::sd), b.area());
    }
    counts.forEach(
        (name, c) -> {
          assertThat(c[0]).as(name + " within one").isBetween(63 * UNITS / 100, 73 * UNITS / 100);
          assertThat(c[1]).as(name + " within two").isBetween(92 * UNITS / 100, 97 * UNITS / 100);
        });
  }

  private static void tally(
      Map<String, int[]> counts, String name, Optional<Estimate> found, double truth) {
    double off = found.orElseThrow().disagreement(Estimate.exact(truth));
    int[] c = counts.computeIfAbsent(name, k -> new int[2]);
    c[0] += off <= 1 ? 1 : 0;
    c[1] += off <= 2 ? 1 : 0;
  }
}
