package cutaway.bench.exam;

import cutaway.acoustics.cabinet.Point;
import cutaway.acoustics.estimate.Estimate;
import cutaway.acoustics.knock.Knock;
import cutaway.acoustics.knock.Ring;
import cutaway.acoustics.knock.Tap;
import cutaway.bench.finding.Notice;
import cutaway.bench.finding.Shown;
import cutaway.bench.problem.ProblemException;
import cutaway.bench.result.Results;
import cutaway.bench.sheet.Sheet;
import cutaway.bench.sheet.Sheet.TakeEntry;
import cutaway.bench.take.SoundFile;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Reads the knocks: taps, the modes that ring after them, and what was wrong. */
final class KnockExam {
  private static final String METHOD =
      "poles shared by all good taps, by shift invariance of the signal subspace, stable over its"
          + " order (Hua and Sarkar 1990, Roy and Kailath 1989)";

  /** Longer recordings are no knocks, s. */
  private static final double LONGEST = 120;

  /** More are listed in the curves only. */
  private static final int MOST = 6;

  private static final Pattern RING = Pattern.compile("walls\\.([^.]+)\\.ring-\\d+");

  /** Modes on every wall within this and with losses alike are the room's or the whole box's. */
  private static final double EVERYWHERE = 0.004;

  private final Function<String, Path> resolve;
  private final Results results;
  private final Map<String, String> understood = new LinkedHashMap<>();
  private final Map<String, Heard> heard = new LinkedHashMap<>();

  /**
   * What a wall's knocks told.
   *
   * @param take id of the take
   * @param rings its modes, lowest first
   * @param at where each tap that was used fell, right and up on the wall, m; empty where not told
   */
  record Heard(String take, List<Ring> rings, List<Point> at) {
    /** The same with other rings. */
    Heard with(List<Ring> others) {
      return new Heard(take, others, at);
    }
  }

  private KnockExam(Function<String, Path> resolve, Results results) {
    this.resolve = resolve;
    this.results = results;
  }

  /**
   * Reads every knock of a sheet.
   *
   * @param understood told how each file was read
   * @return by wall
   */
  static Map<String, Heard> run(
      Sheet sheet,
      List<String> walls,
      Function<String, Path> resolve,
      Results results,
      Map<String, String> understood) {
    KnockExam exam = new KnockExam(resolve, results);
    for (TakeEntry take : sheet.takes()) {
      if (take.isKnock()) {
        try {
          exam.read(take, walls);
        } catch (ProblemException e) {
          // one bad recording takes nothing from the rest
          e.problems()
              .forEach(
                  p -> results.notice(Notice.fault("takes." + take.id(), p.what(), p.remedy())));
        }
      }
    }
    exam.everywhere();
    exam.tell();
    understood.putAll(exam.understood);
    return exam.heard;
  }

  private void read(TakeEntry take, List<String> walls) {
    String about = "takes." + take.id();
    String wall = take.wall().orElse("");
    if (!walls.isEmpty() && !walls.contains(wall)) {
      results.notice(
          Notice.fault(
              about,
              "there is no wall '" + wall + "'",
              "the walls of this box are " + String.join(", ", walls)));
      return;
    }
    SoundFile file = SoundFile.openTaps(resolve.apply(take.file()), take.file(), about);
    file.notices().forEach(results::notice);
    double seconds = file.frames() / file.rate();
    if (seconds > LONGEST) {
      results.notice(
          Notice.fault(
              about,
              String.format(Locale.ROOT, "lasts %.0f s; a knock is a few taps", seconds),
              "cut the taps out of it"));
      return;
    }
    Knock knock = Knock.of(file.samples(0), file.rate());
    understood.put(
        take.id(),
        String.format(
            Locale.ROOT,
            "%s at %s kHz, %.1f s, %d taps, %d of them used, %d modes",
            file.format(),
            Shown.digits(file.rate() / 1000, 4),
            seconds,
            knock.taps().size(),
            knock.used().size(),
            knock.rings().size()));
    taps(about, knock);
    KnockPictures.of(knock, file.samples(0), file.rate(), wall, take.id(), results);
    if (!knock.rings().isEmpty()) {
      heard.merge(
          wall,
          new Heard(take.id(), knock.rings(), places(take, knock)),
          (a, b) -> a.rings().size() >= b.rings().size() ? a : b);
    }
  }

  /** Where the taps fell that were used. */
  private List<Point> places(TakeEntry take, Knock knock) {
    int told = take.at().size();
    int taps = knock.taps().size();
    if (told == taps) {
      return knock.used().stream().map(take.at()::get).toList();
    }
    if (told > 1) {
      results.notice(
          Notice.caution(
              "takes." + take.id(),
              String.format(
                  Locale.ROOT,
                  "the sheet lists %d places but %d taps were found; its modes are told apart by"
                      + " frequency alone",
                  told,
                  taps),
              "list a place for each tap, those that were left out too"));
    }
    return List.of();
  }

  private void taps(String about, Knock knock) {
    int taps = knock.taps().size();
    long doubled = knock.taps().stream().filter(Tap::doubled).count();
    long clipped = knock.taps().stream().filter(Tap::isClipped).count();
    if (taps == 0) {
      results.notice(
          Notice.fault(
              about,
              "no tap was found: silence, a steady sound, or music",
              "knock on the wall with a knuckle, once a second, with the room quiet before"));
      return;
    }
    if (doubled > 0) {
      results.notice(
          Notice.note(
              about,
              doubled + " of " + taps + " taps fell into each other's ringing and were left out",
              "let each tap die away"));
    }
    if (clipped > 0) {
      results.notice(
          Notice.note(
              about,
              clipped + " of " + taps + " taps are clipped; only what follows was used",
              "lower the gain or knock softer"));
    }
    if (!knock.used().isEmpty() && knock.rings().isEmpty()) {
      results.notice(
          Notice.caution(
              about,
              "the taps ring in no mode that could be told from the noise",
              "hold the microphone a few centimetres from the wall, or stick the sensor on"));
    }
    if (knock.used().size() == 1) {
      results.notice(
          Notice.note(
              about,
              "one usable tap: how well its modes are known rests on the noise alone",
              "give five taps"));
    }
  }

  /** What rings alike on every wall that was tapped is not one wall's. */
  private void everywhere() {
    if (heard.size() < 3) {
      return;
    }
    List<Heard> all = List.copyOf(heard.values());
    List<Ring> shared =
        all.get(0).rings().stream()
            .filter(r -> all.stream().allMatch(h -> h.rings().stream().anyMatch(o -> same(r, o))))
            .toList();
    for (Ring ring : shared) {
      results.notice(
          Notice.note(
              "walls",
              String.format(
                  Locale.ROOT,
                  "%.0f Hz rings alike on every wall that was tapped: the room, or the box as a"
                      + " whole",
                  ring.frequency()),
              "knock elsewhere in the room to tell which"));
    }
  }

  private static boolean same(Ring a, Ring b) {
    return Math.abs(a.frequency() / b.frequency() - 1) < EVERYWHERE
        && Math.abs(a.loss() / b.loss() - 1) < 0.3;
  }

  /** Of which wall a finding of that name is a ring; absent where it is something else. */
  static Optional<String> ringing(String id) {
    Matcher ring = RING.matcher(id);
    return ring.matches() ? Optional.of(ring.group(1)) : Optional.empty();
  }

  private void tell() {
    heard.forEach(
        (wall, its) -> {
          List<String> restsOn = List.of("takes." + its.take());
          List<Ring> strongest =
              its.rings().stream()
                  .sorted((a, b) -> Double.compare(b.level(), a.level()))
                  .limit(MOST)
                  .sorted((a, b) -> Double.compare(a.frequency(), b.frequency()))
                  .toList();
          int number = 1;
          for (Ring ring : strongest) {
            String id = "walls." + wall + ".ring-" + number;
            results.add(
                id,
                "Ring " + number + " of the " + wall + " wall",
                "f_" + number,
                new Estimate(ring.frequency(), ring.frequencyUncertainty()),
                "Hz",
                METHOD,
                restsOn);
            results.add(
                id + ".loss",
                "Loss factor of ring " + number + " of the " + wall + " wall",
                "η_" + number,
                new Estimate(ring.loss(), ring.lossUncertainty()),
                "1",
                METHOD,
                restsOn);
            number++;
          }
        });
  }
}
