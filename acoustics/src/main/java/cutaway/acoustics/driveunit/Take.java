package cutaway.acoustics.driveunit;

/**
 * One impedance curve and how the drive unit was held.
 *
 * @param id the tester's name for it
 * @param curve the impedance
 * @param mounting how the drive unit was held
 */
public record Take(String id, ImpedanceCurve curve, Mounting mounting) {}
