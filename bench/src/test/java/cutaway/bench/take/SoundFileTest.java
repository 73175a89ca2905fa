package cutaway.bench.take;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import cutaway.bench.problem.ProblemException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SoundFileTest {
  private static final double[] FIRST = {0, 0.5, -0.5, 0.25, -1};
  private static final double[] SECOND = {0.125, -0.25, 0.75, 0, 0.5};

  @TempDir Path folder;

  private enum Shape {
    PLAIN,
    EXTENSIBLE,
    LONG
  }

  private static byte[] wav(int format, int bits, int channels, Shape shape) {
    ByteBuffer b = ByteBuffer.allocate(400).order(ByteOrder.LITTLE_ENDIAN);
    int data = FIRST.length * channels * bits / 8;
    put(b, shape == Shape.LONG ? "RF64" : "RIFF");
    b.putInt(shape == Shape.LONG ? -1 : 300);
    put(b, "WAVE");
    if (shape == Shape.LONG) {
      put(b, "ds64");
      b.putInt(28).putLong(300).putLong(data).putLong(FIRST.length).putInt(0);
    }
    put(b, "junk");
    b.putInt(3).put(new byte[4]);
    put(b, "fmt ");
    b.putInt(shape == Shape.EXTENSIBLE ? 40 : 16);
    b.putShort((short) (shape == Shape.EXTENSIBLE ? 0xFFFE : format));
    b.putShort((short) channels).putInt(48000).putInt(48000 * channels * bits / 8);
    b.putShort((short) (channels * bits / 8)).putShort((short) bits);
    if (shape == Shape.EXTENSIBLE) {
      b.putShort((short) 22).putShort((short) bits).putInt(3).putShort((short) format);
      b.put(new byte[14]);
    }
    put(b, "data");
    b.putInt(shape == Shape.LONG ? -1 : data);
    for (int i = 0; i < FIRST.length; i++) {
      sample(b, format, bits, FIRST[i]);
      if (channels == 2) {
        sample(b, format, bits, SECOND[i]);
      }
    }
    return Arrays.copyOf(b.array(), b.position());
  }

  private static void put(ByteBuffer b, String text) {
    b.put(text.getBytes(StandardCharsets.US_ASCII));
  }

  private static void sample(ByteBuffer b, int format, int bits, double x) {
    if (format == 3) {
      if (bits == 32) {
        b.putFloat((float) x);
      } else {
        b.putDouble(x);
      }
      return;
    }
    long v = Math.round(x * (1L << (bits - 1)));
    v = Math.min(v, (1L << (bits - 1)) - 1);
    for (int i = 0; i < bits / 8; i++) {
      b.put((byte) (v >> (8 * i)));
    }
  }

  private SoundFile open(byte[] bytes) throws IOException {
    Path file = folder.resolve("take.wav");
    Files.write(file, bytes);
    return SoundFile.open(file, "take.wav", "takes.x");
  }

  @ParameterizedTest
  @CsvSource({
    "1,16,PLAIN",
    "1,24,PLAIN",
    "1,32,PLAIN",
    "3,32,PLAIN",
    "3,64,PLAIN",
    "1,24,EXTENSIBLE",
    "3,32,EXTENSIBLE",
    "1,16,LONG",
    "3,64,LONG"
  })
  void readsEveryStorage(int format, int bits, Shape shape) throws IOException {
    SoundFile file = open(wav(format, bits, 2, shape));
    assertThat(file.rate()).isEqualTo(48000);
    assertThat(file.frames()).isEqualTo(5);
    assertThat(file.format()).contains(Integer.toString(bits));
    List<Double> first = new ArrayList<>();
    List<Double> second = new ArrayList<>();
    file.stream(
        (block, n) -> {
          for (int i = 0; i < n; i++) {
            first.add(block[0][i]);
            second.add(block[1][i]);
          }
        });
    for (int i = 0; i < 5; i++) {
      assertThat(first.get(i)).isCloseTo(FIRST[i], within(1e-4));
      assertThat(second.get(i)).isCloseTo(SECOND[i], within(1e-4));
    }
  }

  @Test
  void usesWhatIsLeftOfATruncatedFile() throws IOException {
    byte[] whole = wav(1, 16, 2, Shape.PLAIN);
    SoundFile file = open(Arrays.copyOf(whole, whole.length - 8));
    assertThat(file.frames()).isEqualTo(3);
    assertThat(file.notices().get(0).message()).contains("ends after 3 of 5 samples");
  }

  @Test
  void refusesWhatIsNoTwoChannelRecording() throws IOException {
    assertThatThrownBy(() -> open(wav(1, 16, 1, Shape.PLAIN))).hasMessageContaining("one channel");
    assertThatThrownBy(() -> open(wav(2, 16, 2, Shape.PLAIN))).hasMessageContaining("format 2");
    assertThatThrownBy(() -> open(new byte[0])).hasMessageContaining("is empty");
    assertThatThrownBy(() -> open("frequency, ohm".getBytes(StandardCharsets.UTF_8)))
        .hasMessageContaining("neither WAV nor FLAC");
    byte[] whole = wav(1, 16, 2, Shape.PLAIN);
    assertThatThrownBy(() -> open(Arrays.copyOf(whole, 30))).hasMessageContaining("breaks off");
    assertThatThrownBy(() -> open(Arrays.copyOf(whole, whole.length - 20)))
        .hasMessageContaining("no samples");
    assertThatThrownBy(() -> open("fLaC but not really".getBytes(StandardCharsets.UTF_8)))
        .isInstanceOf(ProblemException.class);
    assertThatThrownBy(() -> SoundFile.open(folder.resolve("none.wav"), "none.wav", "x"))
        .hasMessageContaining("cannot be read");
  }

  /** A comment block that promises two thousand million comments. */
  /** First bytes as the standards have them, from memory. */
  @Test
  void namesWhatIsCompressedWithLoss() {
    Map<String, String> heads =
        Map.of(
            "49443304000000000000", "MP3",
            "fffb9064000000000000", "MP3",
            "fff15080000000000000", "AAC",
            "4f676753000200000000", "Ogg",
            "00000020667479704d344120", "MP4",
            "1a45dfa39f4286810142", "Matroska",
            "3026b2758e66cf11a6d9", "Windows Media");
    heads.forEach(
        (head, name) ->
            assertThatThrownBy(() -> open(HexFormat.of().parseHex(head)))
                .hasMessageContaining(name)
                .hasMessageContaining("record as WAV or FLAC"));
  }

  /** A header that promises more than there is, read whole in one go. */
  @Test
  void readsACutFlacAsFarAsItGoes() throws IOException {
    byte[] real =
        Files.readAllBytes(Path.of("src/test/resources/cases/A3/A3-04/capture_calibration.flac"));
    Path cut = folder.resolve("cut.flac");
    Files.write(cut, Arrays.copyOf(real, real.length / 2));
    SoundFile file = SoundFile.openAll(cut, "cut.flac", "x");
    int decoded = file.samples()[0].length;
    assertThat(decoded).isBetween(30000, 90000);
    assertThat(file.notices()).anyMatch(n -> n.message().contains("damaged or cut: " + decoded));
    assertThat(SoundFile.open(cut, "cut.flac", "x").frames()).isEqualTo(decoded);
  }

  @Test
  void isNotFooledByLengthsInFlacTags() throws IOException {
    byte[] real =
        Files.readAllBytes(Path.of("src/test/resources/cases/A3/A3-04/capture_calibration.flac"));
    ByteBuffer b = ByteBuffer.allocate(real.length + 100);
    real[4] = 0;
    b.put(real, 0, 42).put((byte) 4).put(new byte[] {0, 0, 8});
    b.order(ByteOrder.LITTLE_ENDIAN).putInt(0).putInt(2_000_000_000);
    b.put((byte) 0x81).put(new byte[] {0, 0, 4}).putInt(0);
    int at = 42;
    boolean last = false;
    while (!last) {
      last = real[at] < 0;
      at += 4 + ((real[at + 1] & 0xFF) << 16 | (real[at + 2] & 0xFF) << 8 | (real[at + 3] & 0xFF));
    }
    b.put(real, at, real.length - at);
    assertThat(open(Arrays.copyOf(b.array(), b.position())).frames()).isEqualTo(113550);
  }

  @Test
  void readsFlac() {
    Path flac = Path.of("src/test/resources/cases/A3/A3-04/capture_calibration.flac");
    SoundFile file = SoundFile.open(flac, "c.flac", "x");
    assertThat(file.format()).isEqualTo("FLAC, 16 bits");
    assertThat(file.frames()).isEqualTo(113550);
    long[] sum = new long[1];
    double[] peak = new double[1];
    file.stream(
        (block, n) -> {
          sum[0] += n;
          for (int i = 0; i < n; i++) {
            peak[0] = Math.max(peak[0], Math.abs(block[0][i]));
          }
        });
    assertThat(sum[0]).isEqualTo(113550);
    assertThat(peak[0]).isCloseTo(0.00824, within(1e-4));
  }

  @Property(tries = 200)
  void anyBytesAreReadOrRefused(@ForAll byte[] tail, @ForAll boolean flac) throws IOException {
    byte[] head = (flac ? "fLaC" : "RIFF0000WAVE").getBytes(StandardCharsets.US_ASCII);
    byte[] bytes = Arrays.copyOf(head, head.length + tail.length);
    System.arraycopy(tail, 0, bytes, head.length, tail.length);
    Path file = Files.createTempFile("take", ".wav");
    try {
      Files.write(file, bytes);
      SoundFile.open(file, "take", "x");
    } catch (ProblemException e) {
      assertThat(e.problems()).isNotEmpty();
    } finally {
      Files.delete(file);
    }
  }
}
