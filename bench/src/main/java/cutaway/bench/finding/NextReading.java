package cutaway.bench.finding;

/**
 * A reading or take that would tell more.
 *
 * @param what what to do
 * @param tells which quantity it would sharpen most
 * @param before its relative standard uncertainty now; infinite where nothing tells it
 * @param after what it would be, computed from the Fisher information
 */
public record NextReading(String what, String tells, double before, double after) {}
