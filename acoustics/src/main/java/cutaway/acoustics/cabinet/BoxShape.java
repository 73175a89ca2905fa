package cutaway.acoustics.cabinet;

/** The room inside a box. */
public sealed interface BoxShape permits EightCorners, Prism, Polyhedron {
  /** Its volume, m³. */
  double volume();
}
