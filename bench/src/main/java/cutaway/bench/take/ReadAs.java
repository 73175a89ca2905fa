package cutaway.bench.take;

import java.util.List;
import java.util.Optional;

/**
 * How the tester says a curve file is to be read, against what Cutaway would make of it.
 *
 * @param columns meaning of each column in order: frequency, magnitude, phase, real, imaginary,
 *     ignore; empty to find out
 * @param frequencyUnit Hz or kHz
 * @param phaseUnit degrees or radians
 */
public record ReadAs(
    List<String> columns, Optional<String> frequencyUnit, Optional<String> phaseUnit) {
  /** Nothing said. */
  public static final ReadAs FOUND = new ReadAs(List.of(), Optional.empty(), Optional.empty());
}
