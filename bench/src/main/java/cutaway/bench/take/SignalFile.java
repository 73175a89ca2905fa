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

/** Sounds to be played: WAV of one channel. */
public final class SignalFile {
  /** Of a sample in a file. */
  private static final int BYTES = 3;

  private SignalFile() {}

  /**
   * Writes a sound of 24 bits; what is there already stays.
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
    try {
      Files.write(path, wav(samples, rate, BYTES));
    } catch (IOException e) {
      throw new ProblemException(
          Problem.of(
              path.toString(),
              "cannot be written",
              "check that its folder exists and has room, and its permissions"));
    }
  }

  /**
   * A sound as it stands in a file.
   *
   * @param samples full scale at 1
   * @param rate samples per second
   * @param bytes of each sample
   */
  public static byte[] wav(double[] samples, int rate, int bytes) {
    double fullScale = (1L << (8 * bytes - 1)) - 1;
    byte[] pcm = new byte[bytes * samples.length];
    for (int i = 0; i < samples.length; i++) {
      long value = Math.round(Math.max(-1, Math.min(1, samples[i])) * fullScale);
      for (int b = 0; b < bytes; b++) {
        pcm[bytes * i + b] = (byte) (value >> (8 * b));
      }
    }
    AudioFormat format = new AudioFormat(rate, 8 * bytes, 1, true, false);
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (AudioInputStream in =
        new AudioInputStream(new ByteArrayInputStream(pcm), format, samples.length)) {
      AudioSystem.write(in, AudioFileFormat.Type.WAVE, out);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return out.toByteArray();
  }
}
