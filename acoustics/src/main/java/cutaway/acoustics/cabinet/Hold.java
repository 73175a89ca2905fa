package cutaway.acoustics.cabinet;

import java.util.List;

/**
 * How the edges that a place of a panel lies on hold it.
 *
 * @param moves whether it moves off the plane, turns and slides along its edge
 * @param turnsAcross whether it turns and slides across it
 * @param across unit vector across the edge, in the panel's axes
 */
@SuppressWarnings("ArrayRecordComponent")
record Hold(boolean moves, boolean turnsAcross, double[] across) {
  /** Whether nothing of it moves. */
  boolean clamped() {
    return !moves && !turnsAcross;
  }

  static Hold at(Panel panel, Point p, double grain) {
    boolean moves = true;
    boolean turnsAcross = true;
    double[] frame = {1, 0};
    List<Point> corners = panel.outline().corners();
    for (int edge = 0; edge < corners.size(); edge++) {
      Point from = corners.get(edge);
      Point to = corners.get((edge + 1) % corners.size());
      Support support = panel.supports().get(edge);
      if (support instanceof Support.Free || !new Edge(from, to).covers(p, grain)) {
        continue;
      }
      Point along = to.minus(from).unit();
      // outwards of an anticlockwise outline
      double[] across = {along.y(), -along.x()};
      boolean held = support instanceof Support.Clamped;
      boolean crossed = !moves && Math.abs(across[0] * frame[1] - across[1] * frame[0]) > 1e-6;
      moves = false;
      turnsAcross = turnsAcross && !held && !crossed;
      frame = across;
    }
    return new Hold(moves, turnsAcross, frame);
  }
}
