package cutaway.bench.take;

import cutaway.bench.problem.Problem;
import cutaway.bench.problem.ProblemException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;

/** Turns bytes into text: UTF-8, UTF-16 with or without a mark, else Windows-1252. */
final class TextDecoder {
  private TextDecoder() {}

  /**
   * Text and how it was encoded.
   *
   * @param text the text without its mark
   * @param encoding in plain words
   */
  record Decoded(String text, String encoding) {}

  static Decoded decode(byte[] bytes, String file) {
    if (starts(bytes, 0xEF, 0xBB, 0xBF)) {
      return new Decoded(
          new String(bytes, 3, bytes.length - 3, StandardCharsets.UTF_8), "UTF-8 with a mark");
    }
    if (starts(bytes, 0xFF, 0xFE)) {
      return utf16(bytes, 2, StandardCharsets.UTF_16LE);
    }
    if (starts(bytes, 0xFE, 0xFF)) {
      return utf16(bytes, 2, StandardCharsets.UTF_16BE);
    }
    int zerosEven = 0;
    int zerosOdd = 0;
    int looked = Math.min(bytes.length, 4096);
    for (int i = 0; i < looked; i++) {
      if (bytes[i] == 0) {
        if (i % 2 == 0) {
          zerosEven++;
        } else {
          zerosOdd++;
        }
      }
    }
    if (zerosOdd > looked / 4 && zerosEven == 0) {
      return utf16(bytes, 0, StandardCharsets.UTF_16LE);
    }
    if (zerosEven > looked / 4 && zerosOdd == 0) {
      return utf16(bytes, 0, StandardCharsets.UTF_16BE);
    }
    refuseBinary(bytes, looked, file);
    try {
      String text =
          StandardCharsets.UTF_8
              .newDecoder()
              .onMalformedInput(CodingErrorAction.REPORT)
              .decode(ByteBuffer.wrap(bytes))
              .toString();
      return new Decoded(text, "UTF-8");
    } catch (CharacterCodingException e) {
      return new Decoded(new String(bytes, Charset.forName("windows-1252")), "Windows-1252");
    }
  }

  private static void refuseBinary(byte[] bytes, int looked, String file) {
    int control = 0;
    for (int i = 0; i < looked; i++) {
      int b = bytes[i] & 0xFF;
      control += b < 9 || (b > 13 && b < 32) ? 1 : 0;
    }
    if (control > looked / 50) {
      throw new ProblemException(
          Problem.of(
              file,
              "holds binary data, not text",
              "export the curve as text, or name a sound file with its own ending"));
    }
  }

  private static Decoded utf16(byte[] bytes, int from, Charset charset) {
    return new Decoded(new String(bytes, from, bytes.length - from, charset), "UTF-16");
  }

  private static boolean starts(byte[] bytes, int... mark) {
    if (bytes.length < mark.length) {
      return false;
    }
    for (int i = 0; i < mark.length; i++) {
      if ((bytes[i] & 0xFF) != mark[i]) {
        return false;
      }
    }
    return true;
  }
}
