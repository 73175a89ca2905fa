package cutaway.bench.finding;

import cutaway.acoustics.estimate.Estimate;
import java.util.Optional;

/**
 * A change tried on paper.
 *
 * @param what in plain words
 * @param wall the wall it is made to
 * @param change of the loudest resonance's level of that wall, dB
 * @param heardBefore likelihood that the wall is heard as it is
 * @param heardAfter with the change
 * @param worstAfter the same of the wall then most likely heard
 * @param addedMass kg
 * @param lostVolume m³
 * @param tuning of a vented box after it, Hz
 */
public record Remedy(
    String what,
    String wall,
    Estimate change,
    double heardBefore,
    double heardAfter,
    double worstAfter,
    double addedMass,
    double lostVolume,
    Optional<Estimate> tuning) {}
