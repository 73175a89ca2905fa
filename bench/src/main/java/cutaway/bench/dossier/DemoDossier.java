package cutaway.bench.dossier;

import cutaway.bench.problem.Problem;
import cutaway.bench.problem.ProblemException;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;

/** The invented dossier that ships with Cutaway. */
public final class DemoDossier {
  private static final String RESOURCES = "/cutaway/bench/demo/";
  private static final List<String> FILES =
      List.of(
          "dossier.yaml",
          "takes/free-air.csv",
          "takes/with-mass.csv",
          "takes/with-more-mass.txt",
          "takes/test-box.s1p",
          "takes/in-box.flac",
          "takes/resistor.flac",
          "takes/knock-left.flac",
          "takes/knock-top.flac",
          "takes/noise-sweep.flac",
          "takes/noise-tone.flac",
          "takes/noise-port-stopped.flac",
          "takes/noise-rest.flac");

  private DemoDossier() {}

  /**
   * Copies it to a folder. A copy that is there already is left as it is.
   *
   * @throws ProblemException where the folder holds another dossier or cannot be written to
   */
  public static void copyTo(Path folder) {
    Path sheet = folder.resolve(Dossier.SHEET);
    if (Files.exists(sheet)) {
      if (isDemo(sheet)) {
        return;
      }
      throw new ProblemException(
          Problem.of(folder.toString(), "holds another dossier", "name another folder"));
    }
    // the sheet last: a copy cut short is then no dossier yet
    for (int i = FILES.size() - 1; i >= 0; i--) {
      DurableFile.write(folder.resolve(FILES.get(i)), resource(FILES.get(i)));
    }
  }

  private static boolean isDemo(Path sheet) {
    try {
      return Files.readString(sheet).contains("everything here is invented");
    } catch (IOException e) {
      return false;
    }
  }

  private static byte[] resource(String name) {
    try (InputStream in = DemoDossier.class.getResourceAsStream(RESOURCES + name)) {
      return Objects.requireNonNull(in, name).readAllBytes();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
