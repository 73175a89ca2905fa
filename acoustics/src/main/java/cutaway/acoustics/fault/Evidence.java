package cutaway.acoustics.fault;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;

/**
 * Clues of one family as a take tells them.
 *
 * @param intervention what was done to the unit meanwhile
 * @param values by clue, those that can be told
 */
public record Evidence(Family family, Intervention intervention, Map<Clue, Double> values) {
  public Evidence {
    Map<Clue, Double> ordered = new EnumMap<>(Clue.class);
    ordered.putAll(values);
    values = Collections.unmodifiableMap(ordered);
  }

  /** A value. */
  public double value(Clue clue) {
    Double out = values.get(clue);
    if (out == null) {
      throw new IllegalArgumentException(clue + " is not told here");
    }
    return out;
  }
}
