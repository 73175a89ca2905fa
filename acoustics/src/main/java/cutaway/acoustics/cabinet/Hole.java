package cutaway.acoustics.cabinet;

/**
 * A round cut-out of a panel, its rim free.
 *
 * @param centre its middle, in the panel's plane
 * @param radius m
 */
public record Hole(Point centre, double radius) {}
