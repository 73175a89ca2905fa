package cutaway.bench.take;

import cutaway.acoustics.signal.SoundSource;
import cutaway.bench.finding.Notice;
import cutaway.bench.problem.Problem;
import cutaway.bench.problem.ProblemException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/** A recording on disk, read block by block. */
public interface SoundFile extends SoundSource {
  /** How the samples are stored, in plain words. */
  String format();

  /** What was odd about the file; what only its samples show, once they were read. */
  List<Notice> notices();

  /**
   * Opens a recording of two channels: WAV or FLAC by its content, whatever its name.
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
   * Opens a recording of any number of channels.
   *
   * @param path where it lies
   * @param name what to call it in messages
   * @param about id for its notices
   */
  static SoundFile openAll(Path path, String name, String about) {
    return open(path, name, about, Wanted.ALL);
  }

  /**
   * Opens a recording of taps: one channel, or the first of two.
   *
   * @param path where it lies
   * @param name what to call it in messages
   * @param about id for its notices
   */
  static SoundFile openTaps(Path path, String name, String about) {
    return open(path, name, about, Wanted.ONE_OR_TWO);
  }

  /** No recording of sound is slower or faster, samples a second. */
  static void checkRate(String name, double rate) {
    if (!(rate >= 8000 && rate <= 768000)) {
      throw new ProblemException(
          Problem.of(
              name, "gives a sample rate of " + Math.round(rate) + " Hz", "use 44.1 to 192 kHz"));
    }
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
    Optional<String> lossy = Lossy.of(head);
    if (lossy.isPresent()) {
      throw new ProblemException(
          Problem.of(
              name,
              "is "
                  + lossy.get()
                  + ", which leaves out what the ear should not hear: just what is"
                  + " looked for",
              "record as WAV or FLAC; turning this file into one does not bring it back"));
    }
    throw new ProblemException(
        Problem.of(
            name,
            head.length == 0 ? "is empty" : "is neither WAV nor FLAC by its content",
            "record as WAV or FLAC"));
  }

  private static byte[] head(Path path, String name) {
    try (InputStream in = Files.newInputStream(path)) {
      return in.readNBytes(12);
    } catch (IOException e) {
      throw new ProblemException(
          Problem.of(name, "cannot be read (" + e.getMessage() + ")", "check the file"));
    }
  }
}
