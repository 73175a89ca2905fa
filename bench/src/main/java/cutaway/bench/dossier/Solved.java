package cutaway.bench.dossier;

import cutaway.bench.finding.Findings;
import java.util.Map;
import java.util.TreeMap;

/**
 * What a solve made of a dossier.
 *
 * @param version of Cutaway that made it
 * @param basis SHA-256 of each file it rests on, by path within the dossier
 * @param evidence SHA-256 of each reading and take that findings may rest on, by id
 * @param understood how each take's file was read, by take id
 * @param findings everything found
 */
public record Solved(
    String version,
    Map<String, String> basis,
    Map<String, String> evidence,
    Map<String, String> understood,
    Findings findings) {
  /** Orders its maps, so that the same dossier gives the same bytes. */
  public Solved {
    basis = new TreeMap<>(basis);
    evidence = new TreeMap<>(evidence);
    understood = new TreeMap<>(understood);
  }
}
