package cutaway.bench.noise;

import static org.assertj.core.api.Assertions.assertThat;

import cutaway.acoustics.estimate.Estimate;
import cutaway.acoustics.fault.Clue;
import cutaway.acoustics.fault.UnitFacts;
import cutaway.bench.finding.Finding;
import cutaway.bench.sheet.SoundReadings;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class FoundBeforeTest {
  private static Finding finding(String id, double hertz) {
    return new Finding(id, id, "f", new Estimate(hertz, 0.1), "Hz", "", List.of(), "", List.of());
  }

  private static final FoundBefore FOUND =
      new FoundBefore(
          Optional.of(finding("drive-unit.fs", 36)),
          Optional.empty(),
          List.of(finding("walls.left.ring-1", 210), finding("walls.left.ring-2", 340)));

  @Test
  void aClueRestsOnTheFindingItIsMeasuredAgainst() {
    assertThat(FOUND.behind(Clue.OVER_RESONANCE, Optional.of(40.0))).isEqualTo("drive-unit.fs");
    assertThat(FOUND.behind(Clue.OFF_RING, Optional.of(300.0))).isEqualTo("walls.left.ring-2");
    assertThat(FOUND.behind(Clue.OFF_RING, Optional.of(240.0))).isEqualTo("walls.left.ring-1");
    assertThat(FOUND.behind(Clue.OFF_RING, Optional.empty())).isEmpty();
    assertThat(FOUND.behind(Clue.OVER_TUNING, Optional.of(40.0))).isEmpty();
    assertThat(FOUND.behind(Clue.MARGIN, Optional.of(40.0))).isEmpty();
  }

  @Test
  void itsFactsAreThoseThatNoisesAreWeighedBy() {
    UnitFacts facts = FOUND.facts(SoundReadings.NONE);
    assertThat(facts.resonance()).contains(36.0);
    assertThat(facts.tuning()).isEmpty();
    assertThat(facts.rings()).containsExactly(210.0, 340.0);
    assertThat(FOUND.fingerprint()).hasSize(3);
  }
}
