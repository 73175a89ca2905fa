package cutaway.app.page;

import cutaway.acoustics.board.Material;
import cutaway.acoustics.board.MaterialTable;
import cutaway.acoustics.cabinet.DampingSheet;
import cutaway.acoustics.cabinet.ImpossibleShapeException;
import cutaway.acoustics.cabinet.LiningKind;
import cutaway.bench.dossier.Dossier;
import cutaway.bench.dossier.Solved;
import cutaway.bench.exam.RemedyBench;
import cutaway.bench.finding.Change;
import cutaway.bench.finding.Change.Batten;
import cutaway.bench.finding.Trial;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.function.Function;

/** Keeps a dossier's remedy bench while the dossier stays as it is. */
final class RemedyDesk {
  private String stamp = "";
  private Optional<RemedyBench> bench = Optional.empty();
  private final ExecutorService beside = Executors.newSingleThreadExecutor(RemedyDesk::daemon);

  /** A thread that does not keep the program from ending. */
  private static Thread daemon(Runnable work) {
    Thread out = new Thread(work, "remedies");
    out.setDaemon(true);
    return out;
  }

  /** The bench of a dossier as of a stamp; absent where its walls are not known. */
  synchronized Optional<RemedyBench> bench(
      String now, Dossier dossier, Function<Dossier, Solved> solve) {
    // a folder that cannot be looked through has the stamp 0: nothing is kept for it
    if (!stamp.equals(now) || now.equals("0")) {
      bench = RemedyBench.of(dossier.sheet(), solve.apply(dossier).findings(), dossier.bench());
      stamp = now;
    }
    return bench;
  }

  /** Begins to work out what sliders may ask for next, until another bench is looked at. */
  void prepare(RemedyBench on) {
    beside.execute(
        () -> {
          try {
            boolean more = true;
            while (more && isAt(on)) {
              more = on.prepare();
            }
          } catch (ImpossibleShapeException e) {
            return; // whoever asks for it is told
          }
        });
  }

  private synchronized boolean isAt(RemedyBench on) {
    return bench.filter(b -> b == on).isPresent();
  }

  /** Tries a change; one at a time. */
  synchronized Trial tryOut(RemedyBench on, Change change) {
    return on.tryOut(change);
  }

  /**
   * A change as the page's form puts it.
   *
   * @param field value of a field by its name, null where it is not sent
   */
  static Change change(RemedyBench bench, Function<String, String> field) {
    String wall = one(field, "wall");
    Change change = Change.none(bench.walls().contains(wall) ? wall : bench.worst());
    String batten = one(field, "batten");
    if (batten.equals("upright") || batten.equals("across")) {
      double place = number(field, "place", 50, 10, 90) / 100;
      change = change.with(new Batten(batten.equals("upright"), place));
    }
    change = change.thicker(number(field, "thicker", 0, 0, 12) / 1000);
    String material = one(field, "material");
    if (materials().contains(material)) {
      change = change.of(material);
    }
    if (!one(field, "frame").isEmpty()) {
      change = change.framed(number(field, "frame", 50, 10, 90) / 100);
    }
    for (DampingSheet.Kind kind : DampingSheet.Kind.values()) {
      if (name(kind).equals(one(field, "sheet"))) {
        change = change.with(kind, number(field, "sheet-thickness", 2, 1, 6) / 1000);
      }
    }
    String lined = one(field, "lined");
    if (bench.walls().contains(lined)) {
      LiningKind what = LiningKind.POLYESTER_FIBRE;
      for (LiningKind kind : LiningKind.values()) {
        what = name(kind).equals(one(field, "kind")) ? kind : what;
      }
      change = change.lined(lined, number(field, "lining", 30, 10, 80) / 1000, what);
    }
    return change;
  }

  /** Heights at which a window brace fits, % of the box's. */
  static List<Integer> heights(RemedyBench bench) {
    return bench.frameHeights().stream().map(at -> (int) Math.round(100 * at)).toList();
  }

  /** Boards that can be tried. */
  static List<String> materials() {
    return MaterialTable.usual().stream().map(Material::name).toList();
  }

  /** A constant as the page calls it. */
  static String name(Enum<?> constant) {
    return constant.name().toLowerCase(Locale.ROOT).replace('_', ' ');
  }

  private static String one(Function<String, String> field, String name) {
    return Optional.ofNullable(field.apply(name)).orElse("");
  }

  private static double number(
      Function<String, String> field, String name, double otherwise, double low, double high) {
    try {
      double given = Double.parseDouble(one(field, name));
      return given >= low && given <= high ? given : otherwise;
    } catch (NumberFormatException e) {
      return otherwise;
    }
  }
}
