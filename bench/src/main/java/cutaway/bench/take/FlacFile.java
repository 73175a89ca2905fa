package cutaway.bench.take;

import cutaway.bench.finding.Notice;
import cutaway.bench.problem.Problem;
import cutaway.bench.problem.ProblemException;
import java.io.BufferedInputStream;
import java.io.ByteArrayInputStream;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.SequenceInputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.jflac.FLACDecoder;
import org.jflac.frame.Frame;
import org.jflac.metadata.StreamInfo;

/** FLAC of up to eight channels, decoded by jFLAC. */
final class FlacFile implements SoundFile {
  private static final int BLOCK = 65536;
  private static final int STREAM_INFO = 34;

  private final Path path;
  private final String name;
  private final String about;
  private final double rate;
  private final int bits;
  private final int channels;
  private final long frames;
  private final List<Notice> notices = new ArrayList<>();

  private FlacFile(Path path, String name, String about, StreamInfo info, long frames) {
    this.path = path;
    this.name = name;
    this.about = about;
    this.rate = info.getSampleRate();
    this.bits = info.getBitsPerSample();
    this.channels = info.getChannels();
    this.frames = frames;
  }

  static FlacFile open(Path path, String name, String about, Wanted wanted) {
    StreamInfo info;
    try (InputStream in = essential(path, false)) {
      info = new FLACDecoder(in).readStreamInfo();
    } catch (IOException | RuntimeException e) {
      throw broken(name);
    }
    if (info == null || info.getSampleRate() <= 0) {
      throw broken(name);
    }
    SoundFile.checkRate(name, info.getSampleRate());
    wanted.check(name, info.getChannels());
    long promised = info.getTotalSamples();
    FlacFile trusted = new FlacFile(path, name, about, info, promised);
    if (wanted == Wanted.ALL && promised > 0) {
      // read whole once, and counted then
      return trusted;
    }
    FlacFile counted = new FlacFile(path, name, about, info, trusted.count());
    counted.hold(counted.frames, promised);
    return counted;
  }

  /** The header may promise anything; what can be decoded counts. */
  private void hold(long decoded, long promised) {
    if (decoded == 0) {
      throw new ProblemException(Problem.of(name, "holds no samples", "record it again"));
    }
    if (decoded < promised) {
      notices.add(
          Notice.caution(
              about,
              String.format(
                  Locale.ROOT,
                  "the file is damaged or cut: %d of %d samples could be decoded",
                  decoded,
                  promised),
              "copy it again; what is there is used"));
    }
  }

  /**
   * The stream's own description and its frames, without any other metadata: tags and pictures hold
   * lengths that a broken file can blow up and that nobody here asks for.
   */
  private static InputStream essential(Path path, boolean lengthUnknown) throws IOException {
    InputStream in = new BufferedInputStream(Files.newInputStream(path), 1 << 16);
    byte[] head = in.readNBytes(8);
    if (head.length < 8 || (head[4] & 0x7F) != 0 || length(head, 5) != STREAM_INFO) {
      in.close();
      throw new IOException("no stream description");
    }
    byte[] description = in.readNBytes(STREAM_INFO);
    if (lengthUnknown && description.length == STREAM_INFO) {
      // once the promised samples are done, the decoder no longer looks for frames yet goes on
      // trying
      // to read them; with no promise it reads to the end of the file
      description[13] &= (byte) 0xF0;
      java.util.Arrays.fill(description, 14, 18, (byte) 0);
    }
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
    return new Ending(
        new SequenceInputStream(
            new SequenceInputStream(
                new ByteArrayInputStream(head), new ByteArrayInputStream(description)),
            in));
  }

  /**
   * Ends the decoder's search for a next frame, which on some broken files knows no end of its own.
   */
  private static final class Ending extends FilterInputStream {
    private int readsAtEnd;

    Ending(InputStream in) {
      super(in);
    }

    @Override
    public int read() throws IOException {
      return counted(super.read());
    }

    @Override
    public int read(byte[] bytes, int from, int length) throws IOException {
      return counted(super.read(bytes, from, length));
    }

    private int counted(int result) {
      if (result < 0 && ++readsAtEnd > 64) {
        throw new IllegalStateException("the FLAC stream has ended");
      }
      return result;
    }
  }

  private static int length(byte[] bytes, int at) {
    return (bytes[at] & 0xFF) << 16 | (bytes[at + 1] & 0xFF) << 8 | (bytes[at + 2] & 0xFF);
  }

  private static ProblemException broken(String name) {
    return new ProblemException(
        Problem.of(name, "is a broken FLAC file", "record or copy it again"));
  }

  private long count() {
    long[] sum = new long[1];
    decode((block, n) -> sum[0] += n);
    return sum[0];
  }

  private void decode(Sink sink) {
    try {
      stream(sink);
    } catch (UncheckedIOException | IllegalStateException e) {
      throw broken(name);
    }
  }

  @Override
  public double[][] samples() {
    double[][] out = new double[channels][(int) Math.min(frames, Integer.MAX_VALUE - 8)];
    int[] read = new int[1];
    decode(
        (block, count) -> {
          int fits = Math.min(count, out[0].length - read[0]);
          for (int c = 0; c < channels; c++) {
            System.arraycopy(block[c], 0, out[c], read[0], fits);
          }
          read[0] += fits;
        });
    if (read[0] == out[0].length) {
      return out;
    }
    hold(read[0], frames);
    return Arrays.stream(out).map(c -> Arrays.copyOf(c, read[0])).toArray(double[][]::new);
  }

  @Override
  public String format() {
    return "FLAC, " + bits + " bits";
  }

  @Override
  public List<Notice> notices() {
    return List.copyOf(notices);
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
  public int channels() {
    return channels;
  }

  @Override
  public void stream(Sink sink) {
    double scale = 1.0 / (1L << (bits - 1));
    double[][] block = new double[channels][BLOCK];
    try (InputStream in = essential(path, true)) {
      FLACDecoder decoder = new FLACDecoder(in);
      decoder.readMetadata();
      Frame frame = decoder.readNextFrame();
      while (frame != null) {
        int count = frame.header.blockSize;
        if (frame.header.channels != channels) {
          throw new IllegalStateException("a FLAC frame of another number of channels");
        }
        for (int c = 0; c < channels; c++) {
          int[] decoded = decoder.getChannelData()[c].getOutput();
          for (int i = 0; i < count; i++) {
            block[c][i] = decoded[i] * scale;
          }
        }
        sink.accept(block, count);
        frame = decoder.readNextFrame();
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (ArrayIndexOutOfBoundsException | NullPointerException e) {
      throw new IllegalStateException("a broken FLAC frame", e);
    }
  }
}
