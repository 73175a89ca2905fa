package cutaway.bench.exam;

import cutaway.acoustics.cabinet.DampingSheet;
import cutaway.acoustics.cabinet.ImpossibleShapeException;
import cutaway.acoustics.cabinet.LiningKind;
import cutaway.bench.finding.Change;
import cutaway.bench.finding.Change.Batten;
import cutaway.bench.finding.Trial;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.stream.IntStream;

/**
 * Looks for what helps most: one batten, a window brace, another board or a damping sheet for the
 * wall most likely heard; one lining for the standing waves.
 */
public final class RemedyExam {
  private static final int PLACES = 7;
  private static final double FIRST = 0.2;
  private static final double LAST = 0.8;

  /** The best place is sought on to this share of the wall. */
  private static final double FINE = 0.05;

  private static final double THICKER = 0.006;
  private static final double SHEET = 0.002;

  private final RemedyBench bench;
  private final Consumer<String> progress;

  private RemedyExam(RemedyBench bench, Consumer<String> progress) {
    this.bench = bench;
    this.progress = progress;
  }

  /**
   * Tries changes to the wall most likely heard.
   *
   * @param progress told what is being tried
   * @return the most useful first; of the battens, the best upright and the best across
   */
  public static List<Trial> walls(RemedyBench bench, Consumer<String> progress) {
    RemedyExam exam = new RemedyExam(bench, progress);
    Change none = Change.none(bench.worst());
    List<Trial> out = new ArrayList<>();
    exam.batten(none, true).ifPresent(out::add);
    exam.batten(none, false).ifPresent(out::add);
    List<Change> others = new ArrayList<>();
    others.add(none.thicker(THICKER));
    others.add(none.of("birch_plywood"));
    for (DampingSheet.Kind kind : DampingSheet.Kind.values()) {
      others.add(none.with(kind, SHEET));
    }
    others.forEach(c -> exam.tryOut(c).ifPresent(out::add));
    exam.frame(none).ifPresent(out::add);
    out.sort(Comparator.comparingDouble(RemedyExam::heard));
    return out;
  }

  /**
   * Tries a lining on each wall.
   *
   * @param thickness m
   * @return the most useful first; empty where the standing waves are not known
   */
  public static List<Trial> linings(
      RemedyBench bench, double thickness, LiningKind kind, Consumer<String> progress) {
    RemedyExam exam = new RemedyExam(bench, progress);
    List<Trial> out = new ArrayList<>();
    for (String wall : bench.tellsWaves() ? bench.walls() : List.<String>of()) {
      exam.tryOut(Change.none(bench.worst()).lined(wall, thickness, kind)).ifPresent(out::add);
    }
    out.sort(Comparator.comparingDouble(t -> t.rippleAfter().value()));
    return out;
  }

  /** Likelihood that the loudest wall is heard then; among alike, that of the changed one. */
  private static double heard(Trial t) {
    return Math.rint(100 * t.worstAfter().after().heard()) + t.changed().after().heard();
  }

  /** The best place, by even steps and then finer ones about the best of them. */
  private Optional<Trial> batten(Change none, boolean upright) {
    List<Trial> tried = new ArrayList<>();
    for (int i = 0; i < PLACES; i++) {
      double place = FIRST + (LAST - FIRST) * i / (PLACES - 1);
      tryOut(none.with(new Batten(upright, place))).ifPresent(tried::add);
    }
    Optional<Trial> best = tried.stream().min(Comparator.comparingDouble(RemedyExam::heard));
    best.flatMap(t -> t.change().batten())
        .ifPresent(
            b -> {
              for (double step : new double[] {-FINE, FINE}) {
                tryOut(none.with(new Batten(upright, b.place() + step))).ifPresent(tried::add);
              }
            });
    return tried.stream().min(Comparator.comparingDouble(RemedyExam::heard));
  }

  private Optional<Trial> frame(Change none) {
    return IntStream.range(0, PLACES)
        .mapToDouble(i -> FIRST + (LAST - FIRST) * i / (PLACES - 1))
        .mapToObj(at -> tryOut(none.framed(at)))
        .flatMap(Optional::stream)
        .min(Comparator.comparingDouble(RemedyExam::heard));
  }

  private Optional<Trial> tryOut(Change change) {
    String name = name(change);
    progress.accept(name);
    try {
      return Optional.of(bench.tryOut(change));
    } catch (ImpossibleShapeException e) {
      progress.accept(name + " does not fit: " + e.getMessage());
      return Optional.empty();
    }
  }

  /** A change in plain words. */
  public static String name(Change c) {
    List<String> out = new ArrayList<>();
    c.batten()
        .ifPresent(
            b ->
                out.add(
                    String.format(
                        Locale.ROOT,
                        "batten 18 × 40 mm %s at %.0f %% of the %s",
                        b.upright() ? "upright" : "across",
                        100 * b.place(),
                        b.upright() ? "width" : "height")));
    if (c.thicker() != 0) {
      out.add(String.format(Locale.ROOT, "board thicker by %.0f mm, outwards", 1000 * c.thicker()));
    }
    c.material().ifPresent(m -> out.add("board of " + m.replace('_', ' ')));
    c.sheet()
        .ifPresent(
            k ->
                out.add(
                    String.format(
                        Locale.ROOT,
                        "%s, %.1f mm, all over",
                        words(k),
                        1000 * c.sheetThickness())));
    c.frame()
        .ifPresent(
            f ->
                out.add(
                    String.format(
                        Locale.ROOT,
                        "window brace, 18 mm board, at %.0f %% of the height",
                        100 * f)));
    c.linedWall()
        .ifPresent(
            w ->
                out.add(
                    String.format(
                        Locale.ROOT,
                        "%.0f mm of %s on the %s",
                        1000 * c.lining(),
                        c.kind().name().toLowerCase(Locale.ROOT).replace('_', ' '),
                        w)));
    return out.isEmpty() ? "as it is" : String.join("; ", out);
  }

  private static String words(DampingSheet.Kind kind) {
    return kind.name().toLowerCase(Locale.ROOT).replace('_', ' ');
  }
}
