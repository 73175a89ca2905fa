package cutaway.bench.dossier;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A guard: ten minutes of two channels at 96 kHz are solved within 256 MiB of heap. */
class LongRecordingTest {
  private static final int RATE = 96000;
  private static final int FRAMES = 600 * RATE;

  @TempDir Path folder;

  /** Solves the dossier named and prints its resonance; run by itself with little memory. */
  public static void main(String[] args) {
    var fs = Dossier.open(Path.of(args[0])).solve(s -> {}).findings().finding("drive-unit.fs");
    System.out.print(fs.orElseThrow().estimate().value());
    System.out.flush();
    // the transform's idle threads would keep the process for a minute
    Runtime.getRuntime().halt(0);
  }

  @Test
  void solvesTenMinutesInLittleMemory() throws IOException, InterruptedException {
    noise(folder.resolve("long.wav"));
    Files.writeString(
        folder.resolve("dossier.yaml"),
        "cutaway: 1\nunit: { name: U }\nrig: { resistor: 4.7 Ω ± 0.01 Ω }\ntakes:\n"
            + "  - { id: a, file: long.wav, what: two-channel noise,"
            + " channels: branch and drive unit, setup: { mount: free air } }\n");
    String java = ProcessHandle.current().info().command().orElseThrow();
    Process process =
        new ProcessBuilder(
                java,
                "-Xmx256m",
                "-XX:+UseSerialGC",
                "-cp",
                System.getProperty("java.class.path"),
                LongRecordingTest.class.getName(),
                folder.toString())
            .redirectError(ProcessBuilder.Redirect.INHERIT)
            .start();
    String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(process.waitFor()).isZero();
    assertThat(Double.parseDouble(said)).isBetween(39.98, 40.02);
  }

  /**
   * White noise, and what stands over R_e = 6 Ω with a resonance of 40 Hz, Q_ms 5, Q_es 0.5, fed
   * through 4.7 Ω: the circuit by the bilinear rule.
   */
  private static void noise(Path file) throws IOException {
    double w = 2 * Math.PI * 40;
    double k = 2.0 * RATE;
    double[] unit = {k * k + w * w, 0, 0};
    unit[1] = 2 * (w * w - k * k);
    double damping = k * w / 5;
    double lifted = (6 * damping + 60 * damping) / 6;
    double b0 = 6 * (unit[0] + lifted);
    double b1 = 6 * unit[1];
    double b2 = 6 * (unit[0] - lifted);
    double a0 = b0 + 4.7 * (unit[0] + damping);
    double a1 = b1 + 4.7 * unit[1];
    double a2 = b2 + 4.7 * (unit[0] - damping);
    Random random = new Random(3);
    ByteBuffer head = ByteBuffer.allocate(44).order(ByteOrder.LITTLE_ENDIAN);
    head.put("RIFF".getBytes(StandardCharsets.US_ASCII)).putInt(36 + 4 * FRAMES);
    head.put("WAVEfmt ".getBytes(StandardCharsets.US_ASCII)).putInt(16);
    head.putShort((short) 1).putShort((short) 2).putInt(RATE).putInt(4 * RATE);
    head.putShort((short) 4).putShort((short) 16);
    head.put("data".getBytes(StandardCharsets.US_ASCII)).putInt(4 * FRAMES);
    ByteBuffer block = ByteBuffer.allocate(4 * 4096).order(ByteOrder.LITTLE_ENDIAN);
    try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(file), 1 << 16)) {
      out.write(head.array());
      double x1 = 0;
      double x2 = 0;
      double y1 = 0;
      double y2 = 0;
      for (int n = 0; n < FRAMES; n++) {
        double x = 0.25 * (2 * random.nextDouble() - 1);
        double y = (b0 * x + b1 * x1 + b2 * x2 - a1 * y1 - a2 * y2) / a0;
        x2 = x1;
        x1 = x;
        y2 = y1;
        y1 = y;
        block.putShort((short) Math.rint(32767 * x)).putShort((short) Math.rint(32767 * y));
        if (!block.hasRemaining() || n == FRAMES - 1) {
          out.write(block.array(), 0, block.position());
          block.clear();
        }
      }
    }
  }
}
