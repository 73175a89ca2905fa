package cutaway.benchmarks.suspects;

import cutaway.acoustics.suspect.Tally;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/** Counts the clues of collected cases into the table of likelihoods: {@code Count FILE TABLE}. */
public final class Count {
  private Count() {}

  /** File of cases, and the table. */
  public static void main(String... args) throws IOException {
    Files.writeString(Path.of(args[1]), of(CaseFile.read(Path.of(args[0]))).text());
  }

  static Tally of(List<CaseClues> cases) {
    Tally out = new Tally();
    for (CaseClues c : cases) {
      c.takes().forEach(take -> out.add(c.causes(), take));
    }
    return out;
  }
}
