package cutaway.bench.noise;

import static org.assertj.core.api.Assertions.assertThat;

import cutaway.acoustics.suspect.Cause;
import cutaway.acoustics.suspect.Odds;
import cutaway.acoustics.suspect.Origin;
import cutaway.acoustics.suspect.Suspect;
import java.util.EnumMap;
import java.util.Map;
import org.junit.jupiter.api.Test;

class NoiseVerdictTest {
  /** Odds of causes that are all there are; those of no cause are of nothing wrong. */
  private static String of(double nothing, double faulty, Map<Cause, Double> causes) {
    Map<Suspect, Double> suspects = new EnumMap<>(Suspect.class);
    causes.forEach((c, p) -> suspects.merge(c.suspect(), p, Double::sum));
    suspects.put(Suspect.NOTHING, nothing);
    Map<Origin, Double> origins = new EnumMap<>(Origin.class);
    causes.forEach((c, p) -> origins.merge(c.origin(), p, Double::sum));
    return NoiseVerdict.of(new Odds(causes, suspects, origins, faulty));
  }

  @Test
  void aFaultIsNamedWithItsOwnPlace() {
    assertThat(of(0.02, 0.98, Map.of(Cause.PANEL_BUZZ, 0.9, Cause.CLIPPING_HARD, 0.95)))
        .isEqualTo(
            "Very likely: amplifier overload (cut off, bent over or too slow). It comes from "
                + Origin.AMPLIFIER.words()
                + ".");
    assertThat(of(0.4, 0.6, Map.of(Cause.COIL_RUB, 0.6)))
        .startsWith("Likelier than not: coil rubbing");
  }

  @Test
  void aPlaceThatIsNotSureIsNotSaidToBe() {
    assertThat(of(0.05, 0.95, Map.of(Cause.HISS, 0.55, Cause.HISS_AT_INPUT, 0.4)))
        .isEqualTo(
            "Very likely: hiss. It comes from "
                + Origin.AMPLIFIER.words()
                + ", or else from "
                + Origin.INPUT_WIRING.words()
                + ".");
  }

  @Test
  void noiseOfTheRoomHidesNoSureFault() {
    assertThat(of(0, 0.9999, Map.of(Cause.PROTECTION_MUTE, 0.999, Cause.KEYBOARD, 0.9999)))
        .startsWith("Very likely: protection")
        .endsWith("Beside it there is noise from outside the unit.");
    assertThat(of(0.05, 0.6, Map.of(Cause.PROTECTION_MUTE, 0.6, Cause.KEYBOARD, 0.9)))
        .startsWith("Not settled: noise from outside the unit, and beside it perhaps protection");
    assertThat(of(0.05, 0.1, Map.of(Cause.PROTECTION_MUTE, 0.1, Cause.KEYBOARD, 0.9)))
        .isEqualTo("No fault of the unit shows here: noise from outside the unit.");
  }

  @Test
  void nothingIsSaidOfAUnitWhoseRecordingIsAtFault() {
    assertThat(of(0, 0.03, Map.of(Cause.OVERLOAD, 0.99)))
        .isEqualTo(
            "Nothing is told of the unit: fault of the recording. Mend that and record again.");
    assertThat(of(0.9, 0.05, Map.of())).isEqualTo("No fault of the unit shows here.");
    assertThat(of(0.4, 0.45, Map.of(Cause.COIL_RUB, 0.3))).startsWith("Not settled: nothing wrong");
  }
}
