package cutaway.bench.noise;

import cutaway.acoustics.fault.AtRest;
import cutaway.acoustics.fault.Clue;
import cutaway.acoustics.fault.Evidence;
import cutaway.acoustics.fault.Family;
import cutaway.acoustics.fault.TakeClues;
import cutaway.acoustics.fault.TakeSeries;
import cutaway.acoustics.suspect.Belief;
import cutaway.acoustics.suspect.ClueWords;
import cutaway.acoustics.suspect.Likelihoods;
import cutaway.acoustics.suspect.Odds;
import cutaway.acoustics.suspect.Reason;
import cutaway.acoustics.suspect.Reasons;
import cutaway.acoustics.suspect.Suspect;
import cutaway.acoustics.suspect.SuspectNetwork;
import cutaway.bench.finding.Suspicion;
import cutaway.bench.finding.Suspicion.Chance;
import cutaway.bench.finding.Suspicion.Step;
import cutaway.bench.finding.Suspicion.SuspectLine;
import cutaway.bench.noise.NoiseTests.Done;
import cutaway.bench.problem.ProblemException;
import cutaway.bench.result.Results;
import cutaway.bench.sheet.BoxKind;
import cutaway.bench.sheet.Sheet;
import cutaway.bench.sheet.SoundTake;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.function.Supplier;

/** Who makes a noise: what is left over in each take, odds of the suspects, and the next test. */
public final class NoiseExam {
  private static final String METHOD =
      "odds by a network of clues whose likelihoods are counted on an invented population"
          + " (docs/methods/suspects.md)";

  /** Clues that are told of a suspect, each way. */
  private static final int TOLD = 3;

  private final Sheet sheet;
  private final Results results;
  private final NoiseNotices notices;
  private final Map<String, String> understood;
  private final boolean vented;
  private final FoundBefore found;
  private final TakeSeries series;
  private final Likelihoods likelihoods = CountedClues.likelihoods();
  private final List<Done> done = new ArrayList<>();
  private final List<List<Evidence>> evidence = new ArrayList<>();
  private final List<Step> history = new ArrayList<>();

  private NoiseExam(
      Sheet sheet, FoundBefore found, Results results, Map<String, String> understood) {
    this.sheet = sheet;
    this.results = results;
    this.notices = new NoiseNotices(results);
    this.understood = understood;
    // where the box is not told a port is not ruled out
    this.vented = sheet.box().map(b -> b.loading() != BoxKind.SEALED).orElse(true);
    this.found = found;
    this.series = new TakeSeries(found.facts(sheet.sounds()));
  }

  /**
   * Looks at all sounds of a sheet, one after another.
   *
   * @param found of the unit by other exams
   * @param understood told how each file was read
   */
  public static void run(
      Sheet sheet,
      FoundBefore found,
      Function<String, Path> resolve,
      Consumer<String> progress,
      Results results,
      Map<String, String> understood) {
    if (sheet.sounds().takes().isEmpty()) {
      return;
    }
    NoiseExam exam = new NoiseExam(sheet, found, results, understood);
    Belief belief =
        new SuspectNetwork(exam.likelihoods, SuspectNetwork.WEIGHT, exam.vented).prior();
    List<SoundTake> takes = sheet.sounds().takes();
    try (SoundsAhead ahead = new SoundsAhead(sheet, resolve)) {
      for (int i = 0; i < takes.size(); i++) {
        int take = i;
        progress.accept("noise in " + takes.get(i).id());
        belief = exam.hear(takes.get(i), () -> ahead.read(take, results), belief);
      }
    }
    if (!exam.done.isEmpty()) {
      exam.notices.fromOnePlace(exam.done);
      results.suspicion(exam.suspicion(belief));
      belief.odds().named().ifPresent(s -> NoiseOnset.tell(s, exam.done, results));
    }
  }

  /** Reads all sounds and says what is odd about them, without looking for noises. */
  public static void check(
      Sheet sheet,
      Function<String, Path> resolve,
      Results results,
      Map<String, String> understood) {
    SoundFiles files = new SoundFiles(resolve, results);
    NoiseNotices notices = new NoiseNotices(results);
    for (SoundTake sound : sheet.sounds().takes()) {
      try {
        SoundFiles.Read read = files.read(sound);
        understood.put(sound.id(), read.understood());
        notices.uncalibrated(sound);
        if (read.usable() && !TakeClues.isHeld(read.take())) {
          notices.notFound(sound, read.take());
        }
      } catch (ProblemException e) {
        notices.refused(sound, e);
      }
    }
  }

  private Belief hear(SoundTake sound, Supplier<SoundFiles.Read> file, Belief belief) {
    try {
      SoundFiles.Read read = file.get();
      TakeClues clues = read.usable() ? series.read(read.take()) : series.flaws(read.take());
      List<Evidence> told = clues.evidence();
      if (told.isEmpty()) {
        notices.notFound(sound, read.take());
        return belief;
      }
      understood.put(sound.id(), read.understood());
      notices.uncalibrated(sound);
      clues.notCompared().ifPresent(n -> notices.notCompared(sound, n));
      clues
          .rest()
          .flatMap(AtRest::hum)
          .ifPresent(h -> notices.mains(sound, h.frequency(), sheet.mains()));
      if (read.usable()) {
        new NoiseLevels(sheet.sounds(), results).tell(sound, read.take(), clues);
      }
      done.add(Done.of(sound, read.take(), clues, read.usable()));
      evidence.add(told);
      Belief after = belief.and(told);
      history.add(new Step(sound.id(), NoiseNotices.words(sound), likeliest(after.odds(), TOLD)));
      return after;
    } catch (ProblemException e) {
      notices.refused(sound, e);
      return belief;
    }
  }

  private static List<Chance> likeliest(Odds odds, int most) {
    return odds.ranked().stream().limit(most).map(s -> new Chance(s.words(), odds.of(s))).toList();
  }

  private Suspicion suspicion(Belief belief) {
    Odds odds = belief.odds();
    List<SuspectLine> suspects = odds.ranked().stream().map(s -> line(s, odds)).toList();
    List<Chance> origins =
        odds.rankedOrigins().stream()
            .map(o -> new Chance(o.words(), odds.origins().getOrDefault(o, 0.0)))
            .toList();
    boolean mains =
        odds.ranked().stream().limit(2).anyMatch(s -> s.nearMains() && odds.of(s) > 0.2);
    return new Suspicion(
        NoiseVerdict.of(odds),
        odds.faulty(),
        suspects,
        origins,
        history,
        NoiseTests.of(belief, vented, done),
        NoiseLevels.shows(done),
        done.stream()
            .filter(Done::untouched)
            .flatMap(
                d ->
                    d.clues().places().stream()
                        .map(
                            p ->
                                NoisePictures.of(
                                    d.sound().id(), d.take().signal().orElseThrow(), p)))
            .toList(),
        NoiseClips.offered(done),
        mains
            ? List.of(
                "Mains parts are suspected. Stop before opening it: unplug, and let a qualified person"
                    + " look inside; capacitors hold their charge long after. Follow local codes."
                    + " Tests from outside come first.")
            : List.of(),
        sheet.sounds().takes().stream().map(t -> "takes." + t.id()).toList(),
        METHOD);
  }

  private SuspectLine line(Suspect suspect, Odds odds) {
    List<Reason> reasons = Reasons.of(likelihoods, odds, suspect, evidence);
    List<Reason> against = new ArrayList<>(reasons);
    against.sort(Comparator.comparingDouble(Reason::weight));
    return new SuspectLine(
        suspect.name().toLowerCase(Locale.ROOT).replace('_', '-'),
        suspect.words(),
        odds.of(suspect),
        strongest(reasons, r -> r.weight() > 0),
        strongest(against, r -> r.weight() < 0));
  }

  /** Each clue once, where it says most. */
  private List<Suspicion.Clause> strongest(List<Reason> reasons, Predicate<Reason> which) {
    Set<Clue> told = EnumSet.noneOf(Clue.class);
    return reasons.stream()
        .filter(which)
        .filter(r -> told.add(r.clue().subject()))
        .limit(TOLD)
        .map(this::say)
        .toList();
  }

  private Suspicion.Clause say(Reason r) {
    double times = Math.exp(Math.abs(r.weight()));
    Done take = done.get(r.take());
    String words =
        String.format(
            Locale.ROOT,
            "%s (%s; %s times %s)",
            ClueWords.of(r.family(), r.clue(), r.value()),
            take.sound().id(),
            times >= 10
                ? String.format(Locale.ROOT, "%.0f", times)
                : String.format(Locale.ROOT, "%.1f", times),
            r.weight() > 0 ? "likelier with it" : "likelier without it");
    return new Suspicion.Clause(words, found.behind(r.clue(), frequency(take, r.family())));
  }

  /** Of the tone at the place that a family of clues tells of, Hz. */
  private static Optional<Double> frequency(Done take, Family family) {
    boolean second = family == Family.BESIDE || family == Family.ELSEWHERE;
    return take.clues().places().stream()
        .skip(second ? 1 : 0)
        .findFirst()
        // of a moment beside what lasts no place is kept
        .filter(p -> family != Family.MOMENT || !p.spot().lasts())
        .map(p -> p.spot().frequency());
  }
}
