package cutaway.acoustics.cabinet;

/** How an edge of a panel is held. */
public sealed interface Support {
  /** Not at all. */
  record Free() implements Support {}

  /** Neither moves nor turns. */
  record Clamped() implements Support {}

  /**
   * Does not move; turns about itself against a spring.
   *
   * @param spring N·m/rad for each metre; 0 for an edge that turns freely
   */
  record Supported(double spring) implements Support {}
}
