package cutaway.acoustics.cabinet;

import java.util.List;

/**
 * An opening with straight sides.
 *
 * @param corners in order, in the panel's plane
 */
public record Window(List<Point> corners) implements CutOut {
  /** Puts the corners anticlockwise. */
  public Window {
    corners = new Outline(corners).corners();
  }

  @Override
  public double clearance(List<Point> convex) {
    return corners.stream().mapToDouble(p -> Panel.gap(convex, p)).min().orElseThrow();
  }

  @Override
  public boolean within(Outline outline) {
    return corners.stream().allMatch(outline::holds);
  }
}
