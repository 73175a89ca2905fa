package cutaway.acoustics.cabinet;

import java.util.ArrayList;
import java.util.List;

/**
 * An outline pulled straight upwards.
 *
 * @param outline seen from above
 * @param bottom z of the lower end, m
 * @param top z of the upper end, m
 */
public record Prism(Outline outline, double bottom, double top) implements BoxShape {
  /** Refuses a prism without height. */
  public Prism {
    if (!(top > bottom)) {
      throw new ImpossibleShapeException("the top does not lie above the bottom");
    }
  }

  @Override
  public double volume() {
    return outline.area() * height();
  }

  /** Height, m. */
  public double height() {
    return top - bottom;
  }

  /** Prisms over the outline's quadrilaterals. */
  List<Hexahedron> cells() {
    List<Hexahedron> out = new ArrayList<>();
    for (Outline.Quad quad : outline.graded()) {
      List<Point> corners = new ArrayList<>();
      for (double z : new double[] {bottom, top}) {
        quad.corners().forEach(p -> corners.add(new Point(p.x(), p.y(), z)));
      }
      out.add(new Hexahedron(corners));
    }
    return List.copyOf(out);
  }
}
