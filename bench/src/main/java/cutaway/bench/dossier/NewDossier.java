package cutaway.bench.dossier;

import cutaway.bench.problem.Problem;
import cutaway.bench.problem.ProblemException;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Objects;

/** Begins a dossier. */
public final class NewDossier {
  private NewDossier() {}

  /**
   * Writes a commented sheet, its schema for editors, and a folder for takes.
   *
   * @throws ProblemException where the folder already holds a sheet or cannot be written to
   */
  public static void create(Path folder) {
    Path sheet = folder.resolve(Dossier.SHEET);
    if (Files.exists(sheet)) {
      throw new ProblemException(
          Problem.of(
              folder.toString(), "already holds a " + Dossier.SHEET, "choose another folder"));
    }
    DurableFile.write(sheet, resource("/cutaway/bench/sheet/new.yaml"));
    DurableFile.write(
        folder.resolve(Dossier.MADE).resolve("dossier.schema.json"),
        resource("/cutaway/bench/sheet/dossier.schema.json"));
    try {
      Files.createDirectories(folder.resolve("takes"));
    } catch (IOException e) {
      throw new ProblemException(
          Problem.of(folder.toString(), "cannot be written to", "check its permissions"));
    }
  }

  private static byte[] resource(String name) {
    try (InputStream in = NewDossier.class.getResourceAsStream(name)) {
      return Objects.requireNonNull(in, name).readAllBytes();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
