package cutaway.bench.dossier;

import cutaway.acoustics.driveunit.JointFit;
import cutaway.bench.finding.Fingerprint;
import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;

/** What computes: a change of method, or of a library, makes old results void. */
final class Program {
  private static final String FINGERPRINT = compute();

  private Program() {}

  /** Hash of the methods' code and of the names and sizes of the libraries. */
  static String fingerprint() {
    return FINGERPRINT;
  }

  private static String compute() {
    List<String> parts = new ArrayList<>();
    Stream.of(Dossier.class, JointFit.class)
        .map(c -> c.getProtectionDomain().getCodeSource())
        .filter(Objects::nonNull)
        .map(source -> Path.of(URI.create(source.getLocation().toString())))
        .forEach(path -> parts.add(code(path)));
    for (String entry : System.getProperty("java.class.path", "").split(File.pathSeparator, -1)) {
      Path path = Path.of(entry);
      if (Files.isRegularFile(path)) {
        parts.add(path.getFileName() + " " + path.toFile().length());
      }
    }
    return Fingerprint.of(parts);
  }

  /** A jar by its content, a folder of classes by theirs. */
  private static String code(Path path) {
    if (Files.isRegularFile(path)) {
      return Dossier.hash(path);
    }
    try (Stream<Path> files = Files.walk(path)) {
      return Fingerprint.of(
          files.filter(Files::isRegularFile).sorted().map(Dossier::hash).toList());
    } catch (IOException | UncheckedIOException e) {
      return path.toString();
    }
  }
}
