package cutaway.acoustics.suspect;

/** What an intervention does to a cause. */
public enum Effect {
  /** It acts as before. */
  STAYS,
  /** It is silent. */
  GONE,
  /** It acts, but what drives it is not the same. */
  MOVED,
  /** Softer, or silent, if the hand found the place. */
  DAMPED,
  /** It comes and goes whatever is done. */
  BY_CHANCE
}
