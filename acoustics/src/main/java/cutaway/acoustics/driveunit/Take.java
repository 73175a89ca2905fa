package cutaway.acoustics.driveunit;

import java.util.List;

/**
 * One impedance curve and how the drive unit was held.
 *
 * @param id the tester's name for it
 * @param curve the impedance
 * @param mounting how the drive unit was held
 * @param rigErrors what may be wrong with the whole curve at once
 */
public record Take(String id, ImpedanceCurve curve, Mounting mounting, List<RigError> rigErrors) {
  /** Keeps the list as it is now. */
  public Take {
    rigErrors = List.copyOf(rigErrors);
  }

  /** A take whose rig is not known to err as a whole. */
  public Take(String id, ImpedanceCurve curve, Mounting mounting) {
    this(id, curve, mounting, List.of());
  }

  /** The same take with another curve of it. */
  public Take withCurve(ImpedanceCurve other) {
    return new Take(id, other, mounting, rigErrors);
  }

  /** The same curve taken as held in another way. */
  public Take withMounting(Mounting other) {
    return new Take(id, curve, other, rigErrors);
  }
}
