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
    byte[] head = head(path, name);
    String mark = new String(head, java.nio.charset.StandardCharsets.ISO_8859_1);
    if (mark.startsWith("fLaC")) {
      return FlacFile.open(path, name, about);
    }
    if (mark.startsWith("RIFF") || mark.startsWith("RF64")) {
      return WavFile.open(path, name, about);
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

  /** The refusal of anything but two channels. */
  static ProblemException wrongChannels(String name, int channels) {
    return new ProblemException(
        Problem.of(
            name,
            channels == 1 ? "has one channel" : "has " + channels + " channels",
            "an impedance take needs two: the voltage over resistor and drive unit together, and"
                + " the voltage over one of them"));
  }
}
