package cutaway.acoustics.cabinet;

import java.util.List;

/** An opening in a panel, its rim free. */
public sealed interface CutOut permits Hole, Window {
  /**
   * From it, flange and all, to the sides of a convex figure; not above zero where it reaches over.
   */
  double clearance(List<Point> corners);

  /** Whether it lies within a panel. */
  boolean within(Outline outline);
}
