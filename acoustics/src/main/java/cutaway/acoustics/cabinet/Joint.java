package cutaway.acoustics.cabinet;

/**
 * A line within a panel along which another stands on it.
 *
 * @param from where it begins, in the panel's plane
 * @param to where it ends
 */
record Joint(Point from, Point to) {}
