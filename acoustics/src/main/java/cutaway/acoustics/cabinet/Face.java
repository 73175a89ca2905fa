package cutaway.acoustics.cabinet;

/** The walls of a box with eight corners, each with its axis in the cube and its end there. */
public enum Face {
  /** Left, at ξ = −1. */
  LEFT(0, -1),
  /** Right, at ξ = 1. */
  RIGHT(0, 1),
  /** Front, at η = −1. */
  FRONT(1, -1),
  /** Back, at η = 1. */
  BACK(1, 1),
  /** Bottom, at ζ = −1. */
  BOTTOM(2, -1),
  /** Top, at ζ = 1. */
  TOP(2, 1);

  private final int axis;
  private final int end;

  Face(int axis, int end) {
    this.axis = axis;
    this.end = end;
  }

  int axis() {
    return axis;
  }

  int end() {
    return end;
  }
}
