package cutaway.bench.take;

import cutaway.acoustics.signal.StereoSource;
import cutaway.bench.finding.Notice;
import cutaway.bench.problem.Problem;
import cutaway.bench.problem.ProblemException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/** A two-channel recording on disk, read block by block. */
public interface SoundFile extends StereoSource {
  /** How the samples are stored, in plain words. */
  String format();

  /** What was odd about the file. */
  List<Notice> notices();

  /**
   * Opens a recording: WAV or FLAC by its content, whatever its name.
   *
   * @param path where it lies
   * @param name what to call it in messages
   * @param about id for its notices
   * @throws ProblemException where it is no two-channel recording
   */
  static SoundFile open(Path path, String name, String about) {
    return open(path, name, about, Wanted.TWO_CHANNELS);
  }

  /**
   * Opens a recording of taps: one channel, or the first of two.
   *
   * @param path where it lies
   * @param name what to call it in messages
   * @param about id for its notices
   */
  static SoundFile openTaps(Path path, String name, String about) {
    return open(path, name, about, Wanted.ANY);
  }

  private static SoundFile open(Path path, String name, String about, Wanted wanted) {
    byte[] head = head(path, name);
    String mark = new String(head, java.nio.charset.StandardCharsets.ISO_8859_1);
    if (mark.startsWith("fLaC")) {
      return FlacFile.open(path, name, about, wanted);
    }
    if (mark.startsWith("RIFF") || mark.startsWith("RF64")) {
      return WavFile.open(path, name, about, wanted);
    }
    throw new ProblemException(
        Problem.of(
            name,
            head.length == 0 ? "is empty" : "is neither WAV nor FLAC by its content",
            "record two channels as WAV or FLAC"));
  }

  private static byte[] head(Path path, String name) {
    try (InputStream in = Files.newInputStream(path)) {
      return in.readNBytes(12);
    } catch (IOException e) {
      throw new ProblemException(
          Problem.of(name, "cannot be read (" + e.getMessage() + ")", "check the file"));
    }
  }

  /** All samples of the first channel. */
  default double[] first() {
    double[] out = new double[(int) Math.min(frames(), Integer.MAX_VALUE - 8)];
    int[] at = new int[1];
    stream(
        (a, b, count) -> {
          int fits = Math.min(count, out.length - at[0]);
          System.arraycopy(a, 0, out, at[0], fits);
          at[0] += fits;
        });
    return out;
  }
}
