package cutaway.acoustics.cabinet;

import java.util.List;

/**
 * A round cut-out of a panel, its rim free, with what is screwed into it.
 *
 * @param centre its middle, in the panel's plane
 * @param radius m
 * @param ring how far from the middle the part's flange rests on the board, m; the radius for none
 * @param mass of the part, kg, spread over the flange; it stiffens nothing
 */
public record Hole(Point centre, double radius, double ring, double mass) implements CutOut {
  /** Refuses a flange that does not reach the board. */
  public Hole {
    if (!(radius > 0) || !(ring >= radius) || !(mass >= 0) || (mass > 0 && ring == radius)) {
      throw new IllegalArgumentException(
          "a cut-out of radius " + radius + " m with a flange out to " + ring + " m");
    }
  }

  /** With nothing in it. */
  public static Hole open(Point centre, double radius) {
    return new Hole(centre, radius, radius, 0);
  }

  /** Mass of a square metre of flange, kg/m². */
  double surfaceMass() {
    return mass == 0 ? 0 : mass / (Math.PI * (ring * ring - radius * radius));
  }

  @Override
  public double clearance(List<Point> corners) {
    return Panel.gap(corners, centre) - ring;
  }

  @Override
  public boolean within(Outline outline) {
    return outline.holds(centre) && outline.room(centre) > ring;
  }
}
