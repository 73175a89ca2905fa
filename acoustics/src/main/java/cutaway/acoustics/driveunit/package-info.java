/**
 * What is in the drive unit: from terminal impedance to parameters.
 *
 * <p>Answers: which resistance, resonance, losses, motor and coil explain every impedance curve and
 * scale reading at once, and how surely. Needs: {@link cutaway.acoustics.driveunit.ImpedanceCurve}s
 * with the mounting each was taken in. Begin at {@link cutaway.acoustics.driveunit.JointFit}. The
 * model is in {@code docs/methods/drive-unit.md}.
 */
@NullMarked
package cutaway.acoustics.driveunit;

import org.jspecify.annotations.NullMarked;
