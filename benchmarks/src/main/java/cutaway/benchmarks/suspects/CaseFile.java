package cutaway.benchmarks.suspects;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

/** Clues of many cases in a file, one a line. */
final class CaseFile {
  private static final ObjectMapper JSON = new ObjectMapper();

  private CaseFile() {}

  static List<CaseClues> read(Path file) throws IOException {
    try (Stream<String> lines = Files.lines(file)) {
      return lines.map(CaseFile::parsed).toList();
    }
  }

  private static CaseClues parsed(String line) {
    try {
      return JSON.readValue(line, CaseClues.class);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
