package cutaway.bench.take;

import cutaway.bench.problem.Problem;
import cutaway.bench.problem.ProblemException;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import javax.sound.sampled.AudioFileFormat;
import javax.sound.sampled.AudioFormat;
import javax.sound.sampled.AudioInputStream;
import javax.sound.sampled.AudioSystem;

/** Sounds to be played: WAV of one channel, 24 bits. */
public final class SignalFile {
  private static final int BYTES = 3;
  private static final double FULL_SCALE = (1 << 23) - 1;

  private SignalFile() {}

  /**
   * Writes a sound; what is there already stays.
   *
   * @param samples full scale at 1
   * @param rate samples per second
   * @throws ProblemException where the file exists or cannot be written
   */
  public static void write(Path path, double[] samples, int rate) {
    if (Files.exists(path)) {
      throw new ProblemException(
          Problem.of(path.toString(), "is already there", "choose another name, or move it away"));
    }
    byte[] pcm = new byte[BYTES * samples.length];
    for (int i = 0; i < samples.length; i++) {
      long value = Math.round(Math.max(-1, Math.min(1, samples[i])) * FULL_SCALE);
      for (int b = 0; b < BYTES; b++) {
        pcm[BYTES * i + b] = (byte) (value >> (8 * b));
      }
    }
    AudioFormat format = new AudioFormat(rate, 8 * BYTES, 1, true, false);
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (AudioInputStream in =
        new AudioInputStream(new ByteArrayInputStream(pcm), format, samples.length)) {
      AudioSystem.write(in, AudioFileFormat.Type.WAVE, out);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    try {
      Files.write(path, out.toByteArray());
    } catch (IOException e) {
      throw new ProblemException(
          Problem.of(
              path.toString(),
              "cannot be written",
              "check that its folder exists and has room, and its permissions"));
    }
  }
}
