package cutaway.bench.exam;

import cutaway.acoustics.driveunit.JointFit;
import cutaway.bench.sheet.Mount;
import cutaway.bench.sheet.Sheet;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Which takes of a fit were made in the unit's own box. */
final class BoxTakes {
  private BoxTakes() {}

  /** The takes in the unit's own box, by index in the fit; those with the port open first. */
  static List<Integer> all(Sheet sheet, JointFit fit) {
    List<Integer> open = new ArrayList<>();
    List<Integer> blocked = new ArrayList<>();
    for (int k = 0; k < fit.bench().size(); k++) {
      String id = fit.bench().get(k).id();
      for (Sheet.TakeEntry entry : sheet.takes()) {
        if (entry.id().equals(id) && entry.mount() == Mount.BOX) {
          (entry.portBlocked() ? blocked : open).add(k);
        }
      }
    }
    open.addAll(blocked);
    return List.copyOf(open);
  }

  /** Index of the take in the unit's own box with its port open, absent without one. */
  static Optional<Integer> open(Sheet sheet, JointFit fit) {
    return all(sheet, fit).stream().filter(k -> !blocked(sheet, fit, k)).findFirst();
  }

  static boolean blocked(Sheet sheet, JointFit fit, int take) {
    String id = fit.bench().get(take).id();
    return sheet.takes().stream().anyMatch(t -> t.id().equals(id) && t.portBlocked());
  }
}
