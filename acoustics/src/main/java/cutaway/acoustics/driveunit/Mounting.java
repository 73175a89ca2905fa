package cutaway.acoustics.driveunit;

import cutaway.acoustics.estimate.Estimate;
import java.util.Optional;

/** How the drive unit was held while a take was made. */
public sealed interface Mounting {
  /** Free in air, away from walls. */
  record FreeAir() implements Mounting {}

  /**
   * Free in air with a known mass stuck to the diaphragm.
   *
   * @param mass added mass, kg
   */
  record AddedMass(Estimate mass) implements Mounting {}

  /**
   * With a box behind the diaphragm.
   *
   * @param load the kind of box
   * @param volume its air volume where a reading gives it, m³; a test box has one, the unit's own
   *     box is measured by the fit
   */
  record Boxed(RearLoad load, Optional<Estimate> volume) implements Mounting {}
}
