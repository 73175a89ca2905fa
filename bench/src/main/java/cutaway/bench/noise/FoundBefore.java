package cutaway.bench.noise;

import cutaway.acoustics.fault.Clue;
import cutaway.acoustics.fault.UnitFacts;
import cutaway.bench.finding.Finding;
import cutaway.bench.sheet.SoundReadings;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * What other exams found that bears on noises.
 *
 * @param resonance of the drive unit
 * @param tuning of the box
 * @param rings of knocked walls
 */
public record FoundBefore(
    Optional<Finding> resonance, Optional<Finding> tuning, List<Finding> rings) {
  public FoundBefore {
    rings = List.copyOf(rings);
  }

  /** With what the sheet tells where nothing was found. */
  UnitFacts facts(SoundReadings told) {
    return new UnitFacts(
        value(resonance).or(() -> told.resonance().map(r -> r.estimate().value())),
        value(tuning).or(() -> told.tuning().map(r -> r.estimate().value())),
        rings.stream().map(r -> r.estimate().value()).toList());
  }

  private static Optional<Double> value(Optional<Finding> finding) {
    return finding.map(f -> f.estimate().value());
  }

  /** What they come to, without what changes nothing. */
  public List<String> fingerprint() {
    return Stream.of(resonance.stream(), tuning.stream(), rings.stream())
        .flatMap(s -> s)
        .map(f -> f.id() + " " + f.estimate().value())
        .toList();
  }

  /**
   * Id of the finding that a clue rests on besides its take; empty where there is none.
   *
   * @param frequency at which something is left over, Hz
   */
  String behind(Clue clue, Optional<Double> frequency) {
    Optional<Finding> out =
        switch (clue) {
          case OVER_RESONANCE -> resonance;
          case OVER_TUNING -> tuning;
          case OFF_RING ->
              frequency.flatMap(
                  f ->
                      rings.stream()
                          .min(
                              Comparator.comparingDouble(
                                  r -> Math.abs(Math.log(r.estimate().value() / f)))));
          default -> Optional.empty();
        };
    return out.map(Finding::id).orElse("");
  }
}
