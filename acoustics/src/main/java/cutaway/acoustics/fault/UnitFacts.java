package cutaway.acoustics.fault;

import java.util.Optional;

/**
 * What is known of a unit before its noises are looked at.
 *
 * @param resonance of the drive unit, Hz
 * @param tuning of a vented box, Hz; absent where it is sealed
 */
public record UnitFacts(double resonance, Optional<Double> tuning) {}
