package cutaway.acoustics.fault;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * What is known of a unit before its noises are looked at.
 *
 * @param resonance of the drive unit, Hz; absent where not known
 * @param tuning of a vented box, Hz; absent where it is sealed or not known
 * @param rings what its walls were heard to ring at when knocked, Hz; empty where they were not
 */
public record UnitFacts(Optional<Double> resonance, Optional<Double> tuning, List<Double> rings) {
  /** Nothing is known. */
  static final UnitFacts NONE = new UnitFacts(Optional.empty(), Optional.empty());

  public UnitFacts {
    rings = List.copyOf(rings);
  }

  /** Of which only these are known. */
  public UnitFacts(Optional<Double> resonance, Optional<Double> tuning) {
    this(resonance, tuning, List.of());
  }

  /** How far a frequency is off the nearest ring, octaves; absent where no wall was knocked. */
  Optional<Double> offRing(double frequency) {
    return rings.stream()
        .map(r -> Math.abs(Math.log(frequency / r)) / Math.log(2))
        .min(Comparator.naturalOrder());
  }
}
