package cutaway.acoustics.fault;

import java.util.Optional;

/**
 * What is known of a unit before its noises are looked at.
 *
 * @param resonance of the drive unit, Hz; absent where not known
 * @param tuning of a vented box, Hz; absent where it is sealed or not known
 */
public record UnitFacts(Optional<Double> resonance, Optional<Double> tuning) {}
