package cutaway.bench.finding;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/** Content hashes: SHA-256 (FIPS 180-4) in small hexadecimal digits. */
public final class Fingerprint {
  private Fingerprint() {}

  /** A digest to be fed piece by piece and closed by {@link #of(MessageDigest)}. */
  public static MessageDigest digest() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }

  /** What a digest has come to. */
  public static String of(MessageDigest digest) {
    return HexFormat.of().formatHex(digest.digest());
  }

  /** Of a text in UTF-8. */
  public static String of(String text) {
    MessageDigest digest = digest();
    digest.update(text.getBytes(StandardCharsets.UTF_8));
    return of(digest);
  }

  /** Of several texts, each headed by its length, so that none can borrow from the next. */
  public static String of(Iterable<String> texts) {
    MessageDigest digest = digest();
    for (String text : texts) {
      byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
      digest.update(ByteBuffer.allocate(4).putInt(bytes.length).array());
      digest.update(bytes);
    }
    return of(digest);
  }
}
