package cutaway.bench.noise;

import cutaway.acoustics.suspect.Likelihoods;
import cutaway.acoustics.suspect.Tally;
import cutaway.bench.work.Once;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;

/** Likelihoods of clues as counted on the invented population: docs/methods/population.md. */
public final class CountedClues {
  private static final Once<Likelihoods> READ = new Once<>(CountedClues::read);

  private CountedClues() {}

  /** All of them. */
  public static Likelihoods likelihoods() {
    return READ.get();
  }

  private static Likelihoods read() {
    try (InputStream in = CountedClues.class.getResourceAsStream("likelihoods.txt")) {
      if (in == null) {
        throw new IllegalStateException("likelihoods.txt is missing");
      }
      return new Likelihoods(Tally.read(new String(in.readAllBytes(), StandardCharsets.US_ASCII)));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
