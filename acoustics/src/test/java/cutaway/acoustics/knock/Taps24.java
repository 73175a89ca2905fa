package cutaway.acoustics.knock;

import java.io.InputStream;
import java.util.Objects;

/** Reads the samples of a plain mono WAV of 24 bits, for tests. */
public final class Taps24 {
  private Taps24() {}

  /** Samples, full scale 1. */
  public static double[] read(String resource) throws Exception {
    try (InputStream in =
        Objects.requireNonNull(Taps24.class.getResourceAsStream(resource), resource)) {
      byte[] b = in.readAllBytes();
      int data = 12;
      while (b[data] != 'd' || b[data + 1] != 'a' || b[data + 2] != 't') {
        data += 2;
      }
      double[] out = new double[(b.length - data - 8) / 3];
      for (int i = 0; i < out.length; i++) {
        int at = data + 8 + 3 * i;
        int value = (b[at] & 0xff) | (b[at + 1] & 0xff) << 8 | b[at + 2] << 16;
        out[i] = value / 8388608.0;
      }
      return out;
    }
  }
}
