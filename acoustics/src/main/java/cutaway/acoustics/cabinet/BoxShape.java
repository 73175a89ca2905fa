package cutaway.acoustics.cabinet;

/** The room inside a box. */
public sealed interface BoxShape permits EightCorners, Prism {
  /** Its volume, m³. */
  double volume();
}
