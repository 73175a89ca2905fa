package cutaway.benchmarks.suspects;

import com.fasterxml.jackson.databind.ObjectMapper;
import cutaway.benchmarks.population.Population;
import java.io.BufferedWriter;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.LongStream;

/** Draws cases and writes their clues into a file, one a line: {@code Collect FILE FROM TO}. */
public final class Collect {
  private Collect() {}

  /** File, first seed, and the one after the last. */
  public static void main(String... args) throws IOException {
    ObjectMapper json = new ObjectMapper();
    try (BufferedWriter out = Files.newBufferedWriter(Path.of(args[0]))) {
      LongStream.range(Long.parseLong(args[1]), Long.parseLong(args[2]))
          .parallel()
          .mapToObj(seed -> CaseClues.of(Population.draw(seed)))
          .forEach(c -> write(json, c, out));
    }
  }

  private static synchronized void write(ObjectMapper json, CaseClues c, BufferedWriter out) {
    try {
      out.write(json.writeValueAsString(c));
      out.newLine();
      out.flush();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
