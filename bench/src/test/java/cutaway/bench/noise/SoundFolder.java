package cutaway.bench.noise;

import cutaway.bench.dossier.Dossier;
import cutaway.bench.finding.Findings;
import cutaway.bench.finding.Notice;
import cutaway.bench.take.SignalFile;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Collectors;

/** A dossier of sounds made up for a test. */
record SoundFolder(Path path) {
  Findings solve(String sheet) throws IOException {
    Files.writeString(path.resolve("dossier.yaml"), sheet);
    return Dossier.open(path).solve(s -> {}).findings();
  }

  /** Faults that were told. */
  static String said(Findings findings) {
    return findings.notices().stream()
        .filter(n -> n.severity() == Notice.Severity.FAULT)
        .map(n -> n.message() + ". " + n.remedy())
        .collect(Collectors.joining("\n"));
  }

  /** One channel at 48 kHz, instead of what was there. */
  void write(String name, double[] samples) throws IOException {
    Files.deleteIfExists(path.resolve(name));
    SignalFile.write(path.resolve(name), samples, 48000);
  }
}
