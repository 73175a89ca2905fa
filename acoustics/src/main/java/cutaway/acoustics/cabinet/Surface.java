package cutaway.acoustics.cabinet;

import java.util.List;

/**
 * A wall as places to integrate over.
 *
 * @param places in space
 * @param areas that each stands for, m²
 */
@SuppressWarnings("ArrayRecordComponent")
public record Surface(List<Point> places, double[] areas) {}
