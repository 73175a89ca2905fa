package cutaway.bench.take;

import java.nio.charset.StandardCharsets;
import java.util.Optional;

/**
 * Sound compressed with loss, known by the first bytes of a file: ISO/IEC 11172-3 and 13818-7
 * frames, ISO/IEC 14496-12 boxes, Ogg (RFC 3533), EBML (RFC 8794), ASF; marks from memory.
 */
final class Lossy {
  private Lossy() {}

  /**
   * What it is.
   *
   * @param head the first twelve bytes, or all if there are fewer
   * @return absent where it is no such file
   */
  static Optional<String> of(byte[] head) {
    String mark = new String(head, StandardCharsets.ISO_8859_1);
    if (mark.startsWith("ID3")) {
      return Optional.of("MPEG audio (MP3)");
    }
    if (mark.startsWith("OggS")) {
      return Optional.of("an Ogg file (Vorbis or Opus)");
    }
    if (mark.startsWith("ftyp", 4)) {
      return Optional.of("an MP4 file (AAC)");
    }
    if (mark.startsWith("\u001aE\u00df\u00a3")) {
      return Optional.of("a Matroska or WebM file");
    }
    if (mark.startsWith("0&\u00b2u")) {
      return Optional.of("a Windows Media file");
    }
    return frames(head);
  }

  /** A stream of frames without a head: eleven or twelve bits set, then the layer. */
  private static Optional<String> frames(byte[] head) {
    if (head.length < 2 || head[0] != (byte) 0xff || (head[1] & 0xe0) != 0xe0) {
      return Optional.empty();
    }
    boolean aac = (head[1] & 0xf6) == 0xf0;
    boolean layer = (head[1] & 0x06) != 0;
    return aac ? Optional.of("AAC") : layer ? Optional.of("MPEG audio (MP3)") : Optional.empty();
  }
}
