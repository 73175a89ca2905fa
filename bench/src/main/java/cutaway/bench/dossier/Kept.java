package cutaway.bench.dossier;

import cutaway.bench.exam.Memory;
import cutaway.bench.finding.Fingerprint;
import cutaway.bench.problem.Problem;
import cutaway.bench.problem.ProblemException;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Supplier;
import java.util.stream.Stream;

/**
 * Remembers what each step of a solve came to, one file a step.
 *
 * <p>A file's first line is the hash of everything the step follows from, the program among it, and
 * of the value that comes after; a file that does not bear its own hash is not believed.
 */
final class Kept implements Memory {
  private static final String ENDING = ".json";
  private static final String SEAL = ".seal";

  /** Nothing that is kept comes near this many bytes. */
  static final long LARGEST = 64 << 20;

  private final Path folder;
  private final String program;
  private final Map<String, String> fresh = Collections.synchronizedMap(new LinkedHashMap<>());

  /**
   * A memory.
   *
   * @param folder where its files lie
   * @param program hash of what computes
   */
  Kept(Path folder, String program) {
    this.folder = folder;
    this.program = program;
  }

  @Override
  public <T> T recall(String step, String key, Class<T> type, Supplier<T> work) {
    Optional<T> before = value(step, key).flatMap(json -> SolvedJson.read(json, type));
    if (before.isPresent()) {
      return before.get();
    }
    T now = work.get();
    String json = SolvedJson.compact(now);
    fresh.put(step + ENDING, seal(step, key, json) + "\n" + json);
    return now;
  }

  /** The seal under which a value is believed to be what a step came to. */
  private String seal(String step, String key, String value) {
    return Fingerprint.of(List.of(program, step, key, value));
  }

  /** Whether a value that lies elsewhere was sealed for this step and key. */
  boolean sealed(String step, String key, String value) {
    return text(step + SEAL).filter(seal(step, key, value)::equals).isPresent();
  }

  /** Seals a value that lies elsewhere. */
  void seals(String step, String key, String value) {
    fresh.put(step + SEAL, seal(step, key, value));
  }

  private Optional<String> value(String step, String key) {
    return text(step + ENDING)
        .flatMap(
            text -> {
              int end = text.indexOf('\n');
              String json = text.substring(end + 1);
              return end >= 0 && text.substring(0, end).equals(seal(step, key, json))
                  ? Optional.of(json)
                  : Optional.empty();
            });
  }

  private Optional<String> text(String name) {
    Path file = folder.resolve(name);
    try {
      return Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS) && Files.size(file) < LARGEST
          ? Optional.of(Files.readString(file))
          : Optional.empty();
    } catch (IOException e) {
      return Optional.empty();
    }
  }

  /**
   * Writes down what was worked out anew, and takes away what belongs to no step any more.
   *
   * @param steps every step there is, whether it was asked for or not
   * @throws ProblemException where the folder cannot be written to
   */
  void write(Set<String> steps) {
    if (Files.isSymbolicLink(folder)) {
      throw new ProblemException(
          Problem.of(
              folder.toString(),
              "is a link, and what it points to is not written to",
              "take it away"));
    }
    fresh.forEach((name, text) -> DurableFile.write(folder.resolve(name), text));
    if (!Files.isDirectory(folder)) {
      return;
    }
    try (Stream<Path> files = Files.list(folder)) {
      for (Path file : files.toList()) {
        String name = String.valueOf(file.getFileName());
        boolean ours = name.endsWith(ENDING);
        if (ours && !steps.contains(name.substring(0, name.length() - ENDING.length()))) {
          Files.deleteIfExists(file);
        }
      }
    } catch (IOException | UncheckedIOException e) {
      throw new ProblemException(
          Problem.of(folder.toString(), "cannot be tidied", "check permissions"));
    }
  }
}
