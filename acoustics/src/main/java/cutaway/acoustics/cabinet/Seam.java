package cutaway.acoustics.cabinet;

import cutaway.acoustics.modes.Lobatto;
import java.util.ArrayList;
import java.util.List;

/**
 * An edge that walls share. It moves by polynomials of its own, to which the edge of each wall is
 * tied, so that every wall can be cut into cells by itself. The corner of two boards is a thick
 * beam: it turns about itself freely, but across itself only as its line does.
 */
final class Seam {
  private final Edge edge;
  private final List<Piece> pieces = new ArrayList<>();

  /**
   * A stretch of the edge, between shares of its length.
   *
   * @param motions of its points
   */
  private record Piece(double start, double end, Lobatto lobatto, List<Motion> motions) {}

  /** Hands out the motion of a joint at a place, the same for the same place. */
  interface Joints {
    Motion at(Point p);
  }

  /**
   * Lays points along an edge.
   *
   * @param breaks shares of its length at which something stands on it, in order
   * @param longest cell of the walls, m
   * @param order of the walls' polynomials
   */
  Seam(Edge edge, List<Double> breaks, double longest, int order, Joints joints) {
    this.edge = edge;
    double length = edge.to().minus(edge.from()).length();
    double start = 0;
    List<Double> ends = new ArrayList<>(breaks);
    ends.add(1.0);
    for (double end : ends) {
      int parts = (int) Math.max(1, Math.ceil((end - start) * length / (2 * longest)));
      for (int i = 0; i < parts; i++) {
        double low = start + (end - start) * i / parts;
        double high = start + (end - start) * (i + 1) / parts;
        double cells = (high - low) * length / longest;
        boolean whole = parts == 1 && ends.size() == 1;
        Lobatto lobatto = Lobatto.of(order(cells, order, whole));
        List<Motion> motions = new ArrayList<>();
        for (int k = 0; k < lobatto.size(); k++) {
          motions.add(
              joints.at(
                  edge.from().towards(edge.to(), low + (high - low) * (1 + lobatto.point(k)) / 2)));
        }
        pieces.add(new Piece(low, high, lobatto, motions));
      }
      start = end;
    }
  }

  /**
   * Of a piece: no more than the walls have along it, or some of its shapes would move no wall. A
   * wall has cells of at most {@link PanelCells#LONGER} the longest, which end where the edge does,
   * but not where a piece of it does.
   */
  private static int order(double cells, int order, boolean whole) {
    double most =
        whole
            ? Math.ceil(order * cells / PanelCells.LONGER - 1e-9)
            : Math.floor(0.9 * order * cells);
    return Math.max(CellOrders.of(cells, order), (int) most);
  }

  /** How the edge moves at a place on it. */
  Motion at(Point p) {
    Point along = edge.to().minus(edge.from());
    double share = p.minus(edge.from()).dot(along) / along.dot(along);
    Piece piece = pieces.get(0);
    for (Piece next : pieces) {
      piece = next.start() <= share + 1e-9 ? next : piece;
    }
    double xi = 2 * (share - piece.start()) / (piece.end() - piece.start()) - 1;
    double place = Math.max(-1, Math.min(1, xi));
    Motion moved = Motion.sum(piece.motions(), piece.lobatto().values(place));
    double[] slopes = piece.lobatto().slopes(place);
    double stretch = along.length() * (piece.end() - piece.start()) / 2;
    for (int i = 0; i < slopes.length; i++) {
      slopes[i] /= stretch;
    }
    Motion bent = Motion.sum(piece.motions(), slopes);
    return moved.onLine(along.unit(), bent);
  }

  /** The edge. */
  Edge edge() {
    return edge;
  }
}
