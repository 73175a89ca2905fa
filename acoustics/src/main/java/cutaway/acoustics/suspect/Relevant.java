package cutaway.acoustics.suspect;

import cutaway.acoustics.fault.Evidence;
import cutaway.acoustics.fault.Family;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** Which clues of a take count. */
final class Relevant {
  private Relevant() {}

  /**
   * Where a take is compared with one before, the comparison counts and not the same clues twice.
   */
  static List<Evidence> of(List<Evidence> take) {
    Set<Family> told = EnumSet.noneOf(Family.class);
    take.forEach(e -> told.add(e.family()));
    return take.stream()
        .filter(e -> comparison(e.family()).filter(told::contains).isEmpty())
        .toList();
  }

  private static Optional<Family> comparison(Family family) {
    return switch (family) {
      case SWEPT, ELSEWHERE, BESIDE, STANDING, MUSIC, MOMENT -> Optional.of(Family.LEFT);
      case MAINS -> Optional.of(Family.MAINS_LEFT);
      case STRAY -> Optional.of(Family.STRAY_LEFT);
      case HISS -> Optional.of(Family.HISS_LEFT);
      default -> Optional.empty();
    };
  }
}
