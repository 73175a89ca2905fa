package cutaway.bench.exam;

import cutaway.bench.dossier.Dossier;
import cutaway.bench.finding.Findings;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * A dossier that a test writes piece by piece.
 *
 * @param folder where
 */
record WrittenDossier(Path folder) {
  /** Walls of a plain box, all of MDF of 18 mm. */
  static final String MDF =
      "  wall: 18 mm\n  walls:\n"
          + Stream.of("front", "back", "left", "right", "top", "bottom")
              .map(w -> "    - { name: " + w + ", material: mdf }\n")
              .collect(Collectors.joining());

  /** These, but of one of them something else is told after its name. */
  static String mdfBut(String wall, String more) {
    return MDF.replace("{ name: " + wall + ", material: mdf }", "{ name: " + wall + more);
  }

  /** A sound, sample by sample, full scale at one. */
  interface Wave {
    double at(int i);
  }

  Dossier open(String sheet) {
    try {
      Files.writeString(folder.resolve("dossier.yaml"), "cutaway: 1\nunit: { name: U }\n" + sheet);
      return Dossier.open(folder);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  Findings solve(String sheet) {
    return open(sheet).solve(s -> {}).findings();
  }

  /** What the notices are about, and what they say. */
  static List<String> messages(Findings f) {
    return f.notices().stream().map(n -> n.about() + ": " + n.message()).toList();
  }

  static double value(Findings f, String id) {
    return f.finding(id).orElseThrow().estimate().value();
  }

  /** Three modes after a tap each second. */
  static double tap(double t, Random random) {
    double since = t % 1 - 0.4;
    double out = 1e-3 * random.nextGaussian();
    for (double f : new double[] {240, 410, 655}) {
      out += since < 0 ? 0 : 0.25 * Math.exp(-0.07 * f * since) * Math.sin(2 * Math.PI * f * since);
    }
    return out;
  }

  /** PCM of so many bytes a sample, one channel. */
  void sound(String name, int rate, int bytes, double seconds, Wave wave) {
    int n = (int) (seconds * rate);
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ByteBuffer head = ByteBuffer.allocate(44).order(ByteOrder.LITTLE_ENDIAN);
    head.put("RIFF".getBytes(StandardCharsets.US_ASCII)).putInt(36 + n * bytes);
    head.put("WAVEfmt ".getBytes(StandardCharsets.US_ASCII)).putInt(16);
    head.putShort((short) 1).putShort((short) 1).putInt(rate).putInt(rate * bytes);
    head.putShort((short) bytes).putShort((short) (8 * bytes));
    head.put("data".getBytes(StandardCharsets.US_ASCII)).putInt(n * bytes);
    out.writeBytes(head.array());
    for (int i = 0; i < n; i++) {
      double x = Math.max(-0.999, Math.min(0.999, wave.at(i)));
      long value = Math.round(x * (1L << (8 * bytes - 1))) + (bytes == 1 ? 128 : 0);
      for (int b = 0; b < bytes; b++) {
        out.write((int) (value >> (8 * b)) & 0xff);
      }
    }
    try {
      Files.write(folder.resolve(name), out.toByteArray());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
