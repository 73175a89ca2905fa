package cutaway.acoustics.suspect;

import cutaway.acoustics.fault.Evidence;
import java.util.Optional;

/** Whose counts tell how likely clues are. */
final class Source {
  /** Where no cause disturbs a family. */
  static final String NOTHING = "NOTHING";

  private Source() {}

  /**
   * Of a cause.
   *
   * @param cause that disturbs the family; absent where none does
   * @return absent where a hand may have found the place or not: nothing is counted there
   */
  static Optional<String> of(Optional<Cause> cause, Evidence e) {
    Optional<Cause> active = cause.filter(c -> c.disturbs(e.family()));
    if (active.isEmpty()) {
      return Optional.of(NOTHING);
    }
    Effect effect = active.get().under(e.intervention());
    if (e.family().isLeft()) {
      return Optional.of(effect.name());
    }
    return switch (effect) {
      case GONE -> Optional.of(NOTHING);
      case DAMPED -> Optional.empty();
      default -> active.map(c -> c.soundsLike().name());
    };
  }
}
