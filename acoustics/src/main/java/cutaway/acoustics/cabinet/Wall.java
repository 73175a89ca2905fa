package cutaway.acoustics.cabinet;

import java.util.Collections;
import java.util.List;

/**
 * A panel in space.
 *
 * @param name what it is called
 * @param plane its middle plane, in whose axes the panel is given
 * @param panel itself
 * @param feet what it stands on, under its outer face
 */
public record Wall(String name, Plane plane, Panel panel, List<Foot> feet) {
  /** Copies its feet. */
  public Wall {
    feet = List.copyOf(feet);
  }

  /** Without feet. */
  public Wall(String name, Plane plane, Panel panel) {
    this(name, plane, panel, List.of());
  }

  /**
   * A plain wall between corners, its edges free until they meet others.
   *
   * @param corners of its middle plane, in space, anticlockwise from outside
   */
  public static Wall between(String name, List<Point> corners, Board board) {
    Plane plane = Plane.through(corners);
    List<Support> free = Collections.nCopies(corners.size(), new Support.Free());
    List<Point> flat = corners.stream().map(plane::local).toList();
    return new Wall(
        name, plane, new Panel(new Outline(flat), board, free, List.of(), List.of(), List.of()));
  }

  /** The same with openings. */
  public Wall with(List<CutOut> cutOuts) {
    return new Wall(
        name,
        plane,
        new Panel(
            panel.outline(),
            panel.board(),
            panel.supports(),
            panel.masses(),
            cutOuts,
            panel.braces()),
        feet);
  }

  /** The same with another panel. */
  public Wall with(Panel other) {
    return new Wall(name, plane, other, feet);
  }

  /** The same on feet. */
  public Wall on(List<Foot> others) {
    return new Wall(name, plane, panel, others);
  }

  /** Corners in space, anticlockwise about the plane's normal. */
  List<Point> corners() {
    return panel.outline().corners().stream().map(plane::space).toList();
  }

  /** What stands on it, on its inner face. */
  List<Wall> braces() {
    return panel.braces().stream().flatMap(b -> b.standingOn(this).stream()).toList();
  }
}
