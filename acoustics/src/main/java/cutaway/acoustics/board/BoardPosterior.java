package cutaway.acoustics.board;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * What thickness, density, stiffness and material fit the readings.
 *
 * @param odds of each candidate, adding up to 1
 * @param thickness m
 * @param density kg/m³
 * @param modulus Pa
 * @param fixity of the edges
 * @param gains what further readings would tell about the material, bits
 * @param convergence largest change of any odds when the quadrature is twice as fine
 */
public record BoardPosterior(
    Map<String, Double> odds,
    Interval thickness,
    Interval density,
    Interval modulus,
    Interval fixity,
    Map<Gain, Double> gains,
    double convergence) {
  /** Odds from which a material is called known. */
  public static final double DECIDED = 0.8;

  /** Copies its maps. */
  public BoardPosterior {
    odds = java.util.Collections.unmodifiableMap(new LinkedHashMap<>(odds));
    gains = Map.copyOf(gains);
  }

  /**
   * A quantity's middle and nine tenths about it.
   *
   * @param low one in twenty lie below
   * @param median half
   * @param high one in twenty lie above
   */
  public record Interval(double low, double median, double high) {}

  /** A reading that could be taken next. */
  public enum Gain {
    /** The depth of a hole drilled through it, within 0.2 mm. */
    THICKNESS,
    /** Density of a piece, within 3 %. */
    DENSITY,
    /** How its edges hold it, from a second wall's knock. */
    SECOND_KNOCK
  }

  /** Materials from the likeliest on. */
  public List<String> ranked() {
    return odds.entrySet().stream()
        .sorted((a, b) -> Double.compare(b.getValue(), a.getValue()))
        .map(Map.Entry::getKey)
        .toList();
  }

  /** Whether the readings tell the material. */
  public boolean decided() {
    return odds.values().stream().anyMatch(o -> o >= DECIDED);
  }

  /** The reading that would tell most. */
  public Gain next() {
    return gains.entrySet().stream()
        .max(Map.Entry.comparingByValue())
        .map(Map.Entry::getKey)
        .orElseThrow();
  }
}
