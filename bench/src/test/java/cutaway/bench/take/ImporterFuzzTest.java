package cutaway.bench.take;

import com.code_intelligence.jazzer.junit.FuzzTest;
import cutaway.bench.problem.ProblemException;
import cutaway.bench.sheet.SheetReader;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * Any bytes are read or refused with a sentence: no other exception, no hang. A usual test run
 * feeds the seed inputs; {@code .ci/run} lets the fuzzer search for a few seconds with each
 * importer.
 */
class ImporterFuzzTest {

  @FuzzTest(maxDuration = "8s")
  void curve(byte[] bytes) {
    try {
      CurveFile.of(bytes, "a.csv", "x", ReadAs.FOUND);
    } catch (ProblemException refused) {
      return;
    }
  }

  @FuzzTest(maxDuration = "8s")
  void touchstone(byte[] bytes) {
    try {
      CurveFile.of(bytes, "a.s1p", "x", ReadAs.FOUND);
    } catch (ProblemException refused) {
      return;
    }
  }

  @FuzzTest(maxDuration = "8s")
  void sheet(byte[] bytes) {
    try {
      SheetReader.read(new String(bytes, StandardCharsets.UTF_8), "dossier.yaml");
    } catch (ProblemException refused) {
      return;
    }
  }

  @FuzzTest(maxDuration = "8s")
  void sound(byte[] bytes) throws IOException {
    Path file = Files.createTempFile("take", ".wav");
    try {
      Files.write(file, bytes);
      SoundFile.open(file, "take", "x").stream((block, n) -> {});
    } catch (ProblemException refused) {
      return;
    } finally {
      Files.delete(file);
    }
  }
}
