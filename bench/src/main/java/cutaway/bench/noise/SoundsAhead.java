package cutaway.bench.noise;

import cutaway.bench.noise.SoundFiles.Read;
import cutaway.bench.result.Evidence;
import cutaway.bench.result.Results;
import cutaway.bench.sheet.Sheet;
import cutaway.bench.sheet.SoundTake;
import cutaway.bench.work.Ahead;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;

/** Reads sounds in order, the next one while the last is looked at where memory bears both. */
final class SoundsAhead implements AutoCloseable {
  /** Takes that need more than this share of all memory are read one at a time. */
  private static final double SMALL = 0.25;

  private final Sheet sheet;
  private final Function<String, Path> resolve;
  private Optional<Reading> begun = Optional.empty();

  /**
   * A sound that is being read.
   *
   * @param told what is odd about it, complete once it was read or refused
   */
  private record Reading(Results told, Ahead<Read> read) {}

  SoundsAhead(Sheet sheet, Function<String, Path> resolve) {
    this.sheet = sheet;
    this.resolve = resolve;
  }

  /**
   * Reads one; to be asked for all in turn.
   *
   * @param results told what is odd about it
   * @throws cutaway.bench.problem.ProblemException where it cannot be used at all
   */
  Read read(int take, Results results) {
    List<SoundTake> takes = sheet.sounds().takes();
    Reading now = begun.orElseGet(() -> begin(takes.get(take)));
    begun = Optional.empty();
    try {
      Read out = now.read.get();
      if (take + 1 < takes.size() && isSmall(out)) {
        begun = Optional.of(begin(takes.get(take + 1)));
      }
      return out;
    } finally {
      now.told.done().notices().forEach(results::notice);
    }
  }

  private Reading begin(SoundTake sound) {
    Results told = new Results(Evidence.of(sheet, Map.of()));
    return new Reading(told, Ahead.begin(() -> new SoundFiles(resolve, told).read(sound)));
  }

  private static boolean isSmall(Read read) {
    double samples = (double) read.take().length() * read.take().channels().size();
    return SoundFiles.BYTES_EACH * samples < SMALL * Runtime.getRuntime().maxMemory();
  }

  @Override
  public void close() {
    begun.ifPresent(r -> r.read.close());
  }
}
