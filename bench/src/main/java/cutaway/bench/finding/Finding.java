package cutaway.bench.finding;

import cutaway.acoustics.estimate.Estimate;
import java.util.List;

/**
 * A derived result.
 *
 * @param id stable, dotted: drive-unit.fs
 * @param name in plain words
 * @param symbol the trade's symbol
 * @param estimate value and standard uncertainty, SI
 * @param unit SI unit of the estimate
 * @param method how it was found, with the source of the formula
 * @param restsOn ids of takes and readings it rests on
 * @param fingerprint content hash of what it rests on
 * @param cautions what to keep in mind
 */
public record Finding(
    String id,
    String name,
    String symbol,
    Estimate estimate,
    String unit,
    String method,
    List<String> restsOn,
    String fingerprint,
    List<String> cautions) {
  /** Copies its lists. */
  public Finding {
    restsOn = List.copyOf(restsOn);
    cautions = List.copyOf(cautions);
  }
}
