package cutaway.acoustics.cabinet;

import java.util.ArrayList;
import java.util.List;

/**
 * What a box stands on: a round pad under the outer face of a wall, bedded evenly on springs to a
 * floor that stands still (docs/methods/panel.md).
 *
 * @param at its middle, in the axes of the wall's plane
 * @param diameter m
 * @param stiffness of the whole pad across the wall, N/m
 * @param sideways of the whole pad in each direction along the wall, N/m
 */
public record Foot(Point at, double diameter, double stiffness, double sideways) {
  /** Six places of seven lie so far from the middle, over the radius. */
  private static final double AWAY = Math.sqrt(2.0 / 3);

  /** Refuses a foot without size or stiffness. */
  public Foot {
    if (!(diameter > 0) || !(stiffness > 0) || !(sideways >= 0)) {
      throw new IllegalArgumentException(
          "a foot of " + diameter + " m, " + stiffness + " and " + sideways + " N/m");
    }
  }

  /**
   * A part of the pad.
   *
   * @param at in the axes of the wall's plane
   * @param share of the pad's area
   */
  record Part(Point at, double share) {}

  /**
   * Seven parts that stand for the disc, exact for polynomials up to the fifth degree (Abramowitz
   * and Stegun 25.4.61, from memory; tested).
   */
  List<Part> parts() {
    List<Part> out = new ArrayList<>();
    out.add(new Part(at, 0.25));
    for (int i = 0; i < 6; i++) {
      double angle = i * Math.PI / 3;
      Point off = new Point(Math.cos(angle), Math.sin(angle), 0).times(AWAY * diameter / 2);
      out.add(new Part(at.plus(off), 0.125));
    }
    return out;
  }
}
