package cutaway.bench.exam;

import cutaway.acoustics.cabinet.BoxModes;
import cutaway.acoustics.knock.Ring;
import cutaway.bench.finding.Notice;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.stream.Collectors;

/** Rings of a knock that are the box moving on its feet as a whole. */
final class OnFeet {
  /** Such a ring lies up to this far above the highest computed: a factor of two in stiffness. */
  private static final double ABOVE = 1.5;

  /** And no nearer below the lowest mode of the walls; judgement. */
  private static final double BELOW = 0.6;

  private OnFeet() {}

  /** Without those. */
  static List<Ring> dropped(BoxModes modes, List<Ring> rings) {
    return rings.stream().filter(Predicate.not(of(modes))).toList();
  }

  /** What is told of them. */
  static Optional<Notice> told(BoxModes modes, String wall, KnockExam.Heard heard) {
    String which =
        heard.rings().stream()
            .filter(of(modes))
            .map(r -> String.format(Locale.ROOT, "%.0f Hz", r.frequency()))
            .collect(Collectors.joining(", "));
    return which.isEmpty()
        ? Optional.empty()
        : Optional.of(
            Notice.note(
                "takes." + heard.take(),
                "what rings at "
                    + which
                    + " on the "
                    + wall
                    + " is taken for the box moving on its feet, not for the wall",
                "lay the box on soft foam and knock again to be sure"));
  }

  private static Predicate<Ring> of(BoxModes modes) {
    double[] whole = modes.onFeet();
    double highest = whole.length == 0 ? 0 : ABOVE * whole[whole.length - 1];
    double top = Math.min(highest, BELOW * modes.frequency(0));
    return ring -> ring.frequency() < top;
  }
}
