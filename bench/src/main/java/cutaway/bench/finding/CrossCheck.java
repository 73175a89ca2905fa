package cutaway.bench.finding;

import cutaway.acoustics.estimate.Estimate;

/**
 * Two independent ways to one quantity.
 *
 * @param id stable, dotted
 * @param quantity what both tell
 * @param first the first way
 * @param firstEstimate what it gives, SI
 * @param second the second way
 * @param secondEstimate what it gives, SI
 * @param unit SI unit of both
 * @param sigmas by how many standard deviations they disagree, correlations counted
 */
public record CrossCheck(
    String id,
    String quantity,
    String first,
    Estimate firstEstimate,
    String second,
    Estimate secondEstimate,
    String unit,
    double sigmas) {}
