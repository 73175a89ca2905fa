package cutaway.bench.take;

import cutaway.bench.finding.Notice;
import cutaway.bench.sheet.Problem;
import cutaway.bench.sheet.ProblemException;
import java.io.BufferedInputStream;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.SequenceInputStream;
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
  private static final int STREAM_INFO = 34;

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
    try (InputStream in = essential(path)) {
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

  /**
   * The stream's own description and its frames, without any other metadata: tags and pictures hold
   * lengths that a broken file can blow up and that nobody here asks for.
   */
  private static InputStream essential(Path path) throws IOException {
    InputStream in = new BufferedInputStream(Files.newInputStream(path), 1 << 16);
    byte[] head = in.readNBytes(8);
    if (head.length < 8 || (head[4] & 0x7F) != 0 || length(head, 5) != STREAM_INFO) {
      in.close();
      throw new IOException("no stream description");
    }
    byte[] description = in.readNBytes(STREAM_INFO);
    boolean last = head[4] < 0;
    while (!last) {
      byte[] block = in.readNBytes(4);
      if (block.length < 4) {
        break;
      }
      last = block[0] < 0;
      in.skipNBytes(length(block, 1));
    }
    head[4] = (byte) 0x80;
    return new SequenceInputStream(
        new SequenceInputStream(
            new ByteArrayInputStream(head), new ByteArrayInputStream(description)),
        in);
  }

  private static int length(byte[] bytes, int at) {
    return (bytes[at] & 0xFF) << 16 | (bytes[at + 1] & 0xFF) << 8 | (bytes[at + 2] & 0xFF);
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
    try (InputStream in = essential(path)) {
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
