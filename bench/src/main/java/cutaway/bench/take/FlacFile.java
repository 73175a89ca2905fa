package cutaway.bench.take;

import cutaway.bench.finding.Notice;
import cutaway.bench.sheet.Problem;
import cutaway.bench.sheet.ProblemException;
import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.jflac.FLACDecoder;
import org.jflac.frame.Frame;
import org.jflac.metadata.StreamInfo;

/** FLAC of two channels, decoded by jFLAC. */
final class FlacFile implements SoundFile {
  private static final int BLOCK = 65536;

  private final Path path;
  private final double rate;
  private final int bits;
  private final long frames;

  private FlacFile(Path path, double rate, int bits, long frames) {
    this.path = path;
    this.rate = rate;
    this.bits = bits;
    this.frames = frames;
  }

  static FlacFile open(Path path, String name) {
    StreamInfo info;
    try (InputStream in = new BufferedInputStream(Files.newInputStream(path))) {
      info = new FLACDecoder(in).readStreamInfo();
    } catch (IOException | RuntimeException e) {
      throw broken(name);
    }
    if (info == null || info.getSampleRate() <= 0) {
      throw broken(name);
    }
    if (info.getChannels() != 2) {
      throw SoundFile.wrongChannels(name, info.getChannels());
    }
    FlacFile unmeasured =
        new FlacFile(path, info.getSampleRate(), info.getBitsPerSample(), info.getTotalSamples());
    long counted = unmeasured.count(name);
    if (counted == 0) {
      throw new ProblemException(Problem.of(name, "holds no samples", "record it again"));
    }
    return new FlacFile(path, info.getSampleRate(), info.getBitsPerSample(), counted);
  }

  private static ProblemException broken(String name) {
    return new ProblemException(
        Problem.of(name, "is a broken FLAC file", "record or copy it again"));
  }

  /** The header may promise anything; what can be decoded counts. */
  private long count(String name) {
    long[] sum = new long[1];
    try {
      stream((a, b, n) -> sum[0] += n);
    } catch (UncheckedIOException | IllegalStateException e) {
      throw broken(name);
    }
    return sum[0];
  }

  @Override
  public String format() {
    return "FLAC, " + bits + " bits";
  }

  @Override
  public List<Notice> notices() {
    return List.of();
  }

  @Override
  public double rate() {
    return rate;
  }

  @Override
  public long frames() {
    return frames;
  }

  @Override
  public void stream(Sink sink) {
    double scale = 1.0 / (1L << (bits - 1));
    double[] first = new double[BLOCK];
    double[] second = new double[BLOCK];
    try (InputStream in = new BufferedInputStream(Files.newInputStream(path), 1 << 16)) {
      FLACDecoder decoder = new FLACDecoder(in);
      decoder.readMetadata();
      Frame frame = decoder.readNextFrame();
      while (frame != null) {
        int count = frame.header.blockSize;
        int[] a = decoder.getChannelData()[0].getOutput();
        int[] b = decoder.getChannelData()[1].getOutput();
        for (int i = 0; i < count; i++) {
          first[i] = a[i] * scale;
          second[i] = b[i] * scale;
        }
        sink.accept(first, second, count);
        frame = decoder.readNextFrame();
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (ArrayIndexOutOfBoundsException | NullPointerException e) {
      throw new IllegalStateException("a broken FLAC frame", e);
    }
  }
}
