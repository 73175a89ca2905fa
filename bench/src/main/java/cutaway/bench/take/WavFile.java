package cutaway.bench.take;

import cutaway.bench.finding.Notice;
import cutaway.bench.problem.Problem;
import cutaway.bench.problem.ProblemException;
import java.io.BufferedInputStream;
import java.io.DataInputStream;
import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * RIFF/WAVE: PCM of 8, 16, 24, 32 bits, floating point of 32 and 64, plain or extensible headers,
 * and RF64 (EBU Tech 3306) for recordings beyond 4 GiB.
 */
final class WavFile implements SoundFile {
  private static final int PCM = 1;
  private static final int FLOAT = 3;
  private static final int EXTENSIBLE = 0xFFFE;
  private static final int BLOCK = 8192;

  private final Path path;
  private final String name;
  private final boolean floating;
  private final int channels;
  private final int bytes;
  private final double rate;
  private final long dataAt;
  private final long frames;
  private final List<Notice> notices;

  private WavFile(Path path, String name, Header header, long frames, List<Notice> notices) {
    this.path = path;
    this.name = name;
    this.floating = header.format == FLOAT;
    this.channels = header.channels;
    this.bytes = header.bits / 8;
    this.rate = header.rate;
    this.dataAt = header.dataAt;
    this.frames = frames;
    this.notices = List.copyOf(notices);
  }

  static WavFile open(Path path, String name, String about, Wanted wanted) {
    try {
      Header header = Header.read(path, name);
      wanted.check(name, header.channels);
      long size = Files.size(path);
      long frame = (long) header.channels * header.bits / 8;
      long promised = header.dataLength / frame;
      long present = Math.max(0, size - header.dataAt) / frame;
      List<Notice> notices = new ArrayList<>();
      if (present < promised) {
        notices.add(
            Notice.caution(
                about,
                String.format(
                    java.util.Locale.ROOT,
                    "the file ends after %d of %d samples",
                    present,
                    promised),
                "copy it again; what is there is used"));
      }
      if (Math.min(promised, present) == 0) {
        throw new ProblemException(Problem.of(name, "holds no samples", "record it again"));
      }
      return new WavFile(path, name, header, Math.min(promised, present), notices);
    } catch (IOException e) {
      throw new ProblemException(
          Problem.of(name, "its header breaks off", "record or copy it again"));
    }
  }

  /** What stands before the samples. */
  private static final class Header {
    private int format;
    private int channels;
    private double rate;
    private int bits;
    private long dataAt;
    private long dataLength = -1;
    private long longLength = -1;

    static Header read(Path path, String name) throws IOException {
      Header h = new Header();
      try (InputStream in = new BufferedInputStream(Files.newInputStream(path))) {
        DataInputStream data = new DataInputStream(in);
        byte[] riff = new byte[12];
        data.readFully(riff);
        long at = 12;
        while (h.dataLength < 0) {
          byte[] head = new byte[8];
          data.readFully(head);
          String id = new String(head, 0, 4, StandardCharsets.ISO_8859_1);
          long length = Integer.toUnsignedLong(little(head).getInt(4));
          at += 8;
          if (id.equals("data")) {
            h.dataAt = at;
            h.dataLength = length == 0xFFFFFFFFL && h.longLength >= 0 ? h.longLength : length;
          } else {
            h.chunk(id, length, data, name);
            long skip = (length & 1) == 1 && data.read() >= 0 ? length + 1 : length;
            at += skip;
          }
        }
      }
      h.check(name);
      return h;
    }

    private void chunk(String id, long length, DataInputStream data, String name)
        throws IOException {
      if (id.equals("fmt ") && length >= 16 && length < 4096) {
        byte[] body = new byte[(int) length];
        data.readFully(body);
        ByteBuffer b = little(body);
        format = b.getShort(0) & 0xFFFF;
        channels = b.getShort(2) & 0xFFFF;
        rate = b.getInt(4);
        bits = b.getShort(14) & 0xFFFF;
        if (format == EXTENSIBLE && length >= 40) {
          format = b.getShort(24) & 0xFFFF;
        }
      } else if (id.equals("ds64") && length >= 24 && length < 1 << 20) {
        byte[] body = new byte[(int) length];
        data.readFully(body);
        longLength = little(body).getLong(8);
      } else {
        data.skipNBytes(length);
      }
      if (length > 1L << 40) {
        throw new ProblemException(Problem.of(name, "its header is broken", "copy it again"));
      }
    }

    private void check(String name) {
      boolean known =
          (format == PCM && (bits == 8 || bits == 16 || bits == 24 || bits == 32))
              || (format == FLOAT && (bits == 32 || bits == 64));
      if (!known) {
        throw new ProblemException(
            Problem.of(
                name,
                "holds samples of format " + format + " with " + bits + " bits",
                "save it as PCM of 8, 16, 24 or 32 bits, or as floating point"));
      }
      if (channels < 1 || channels > 64) {
        throw new ProblemException(Problem.of(name, "its header is broken", "copy it again"));
      }
      SoundFile.checkRate(name, rate);
    }

    private static ByteBuffer little(byte[] bytes) {
      return ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
    }
  }

  @Override
  public String format() {
    return "WAV, " + (floating ? "float " : "PCM ") + bytes * 8 + " bits";
  }

  @Override
  public List<Notice> notices() {
    return notices;
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
    double[][] block = new double[channels][BLOCK];
    byte[] raw = new byte[BLOCK * channels * bytes];
    ByteBuffer buffer = ByteBuffer.wrap(raw).order(ByteOrder.LITTLE_ENDIAN);
    try (InputStream in = Files.newInputStream(path)) {
      in.skipNBytes(dataAt);
      long left = frames;
      while (left > 0) {
        int count = (int) Math.min(BLOCK, left);
        int got = in.readNBytes(raw, 0, count * channels * bytes);
        if (got < count * channels * bytes) {
          throw new EOFException(name + " became shorter while it was read");
        }
        for (int i = 0; i < count; i++) {
          for (int c = 0; c < channels; c++) {
            block[c][i] = sample(buffer, (channels * i + c) * bytes);
          }
        }
        sink.accept(block, count);
        left -= count;
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private double sample(ByteBuffer b, int at) {
    double value =
        switch (bytes) {
          case 1 -> ((b.get(at) & 0xFF) - 128) / 128.0;
          case 2 -> b.getShort(at) / 32768.0;
          case 3 ->
              ((b.get(at) & 0xFF) | (b.get(at + 1) & 0xFF) << 8 | b.get(at + 2) << 16) / 8388608.0;
          case 4 -> floating ? b.getFloat(at) : b.getInt(at) / 2147483648.0;
          default -> b.getDouble(at);
        };
    return Double.isFinite(value) ? value : 0;
  }
}
