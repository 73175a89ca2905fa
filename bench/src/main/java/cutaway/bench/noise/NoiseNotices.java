package cutaway.bench.noise;

import cutaway.acoustics.fault.Intervention;
import cutaway.acoustics.fault.NoiseTake;
import cutaway.acoustics.fault.NotCompared;
import cutaway.acoustics.stimulus.TestSignal;
import cutaway.bench.finding.Notice;
import cutaway.bench.noise.NoiseTests.Done;
import cutaway.bench.problem.Problem;
import cutaway.bench.problem.ProblemException;
import cutaway.bench.result.Results;
import cutaway.bench.sheet.SoundTake;
import cutaway.bench.sheet.Words;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/** What is said of sounds that cannot be read, found, compared or brought to a level. */
final class NoiseNotices {
  /** A mains keeps to its frequency within, relative. */
  private static final double SAME_MAINS = 0.02;

  private final Results results;

  NoiseNotices(Results results) {
    this.results = results;
  }

  /** One bad recording takes nothing from the rest. */
  void refused(SoundTake sound, ProblemException e) {
    e.problems()
        .forEach(p -> results.notice(Notice.fault("takes." + sound.id(), said(p), p.remedy())));
  }

  /** A file other than the take's own is named. */
  private static String said(Problem problem) {
    return problem.file().startsWith("takes.")
        ? problem.what()
        : problem.file() + " " + problem.what();
  }

  /** All that was played was heard by one microphone: its place tells nothing. */
  void fromOnePlace(List<Done> done) {
    List<Done> driven = done.stream().filter(d -> d.take().signal().isPresent()).toList();
    boolean one = driven.stream().allMatch(d -> d.take().microphones().size() < 2);
    if (one && !driven.isEmpty()) {
      results.notice(
          Notice.caution(
              "takes." + driven.get(0).sound().id(),
              "one microphone alone hears it: where it is loudest is not told, and the odds rest on"
                  + " what is left",
              "record with one each at cone, port and wall"));
    }
  }

  /** Nothing is told from it, as the signal is not found, or nothing at all is. */
  void notFound(SoundTake sound, NoiseTake take) {
    results.notice(
        Notice.fault(
            "takes." + sound.id(),
            take.signal()
                .map(
                    s ->
                        NoiseTests.words(s)
                            + " is not found in "
                            + sound.file()
                            + "; nothing is told from it")
                .orElse("nothing is told from it"),
            "check that file and 'signal' belong together, and record again"));
  }

  /** A take with an intervention tells nothing of what that did. */
  void notCompared(SoundTake sound, NotCompared not) {
    results.notice(of(sound, not));
  }

  private static Notice of(SoundTake sound, NotCompared not) {
    String about = "takes." + sound.id();
    String signal = sound.atRest() ? "a rest" : words(sound.played(), false);
    return switch (not.why()) {
      case NOTHING_BEFORE ->
          Notice.caution(
              about,
              "there is no take of "
                  + signal
                  + " before it with nothing done: it is heard by itself and compared with none",
              "record the same with nothing done, and list it before");
      case OUT_OF_REACH ->
          Notice.caution(
              about,
              "it ends before the noise would come, or has no microphone where that was heard:"
                  + " what was done tells nothing",
              "record it whole, with the microphones where they were");
      case OTHER_LEVEL ->
          Notice.fault(
              about,
              String.format(
                  Locale.ROOT,
                  "was played %.0f dB %s than the take before it: what was done tells nothing",
                  Math.abs(not.louder()),
                  not.louder() > 0 ? "louder" : "softer"),
              "repeat it at the same level, without touching the volume");
    };
  }

  /** Hum of another mains than the sheet names: one of both is of another place. */
  void mains(SoundTake sound, double heard, List<Double> told) {
    if (told.stream().noneMatch(m -> Math.abs(heard / m - 1) < SAME_MAINS)) {
      results.notice(
          Notice.caution(
              "takes." + sound.id(),
              String.format(
                  Locale.ROOT,
                  "its hum is of a mains of %.2f Hz, the sheet says %s",
                  heard,
                  told.stream().map(NoiseTests::hertz).collect(Collectors.joining(", "))),
              "correct 'mains', or leave it out: both usual ones are looked for"));
    }
  }

  /** Levels of a channel whose full scale is not told are guesses. */
  void uncalibrated(SoundTake sound) {
    List<String> untold =
        sound.channels().stream()
            .filter(c -> !c.told())
            .flatMap(c -> c.sensor().stream())
            .map(Words::of)
            .toList();
    if (!untold.isEmpty()) {
      results.notice(
          Notice.caution(
              "takes." + sound.id(),
              "full scale is not told of "
                  + String.join(", ", untold)
                  + ": usual values are taken, levels may be off by 6 dB and more",
              "add 'rig: { full-scale: { cone: 20 Pa, … } }' from a calibrator"));
    }
  }

  /** What was played and done, in words. */
  static String words(SoundTake sound) {
    String what = words(sound.played(), sound.atRest());
    return sound.done() == Intervention.NONE ? what : what + ", " + Words.of(sound.done());
  }

  private static String words(List<TestSignal> played, boolean atRest) {
    return atRest
        ? "at rest"
        : played.stream().findFirst().map(NoiseTests::words).orElse(NoiseTests.MUSIC);
  }
}
