package cutaway.acoustics.signal;

/**
 * A run of bad samples.
 *
 * @param kind what is wrong with them
 * @param channel 1 or 2, 0 for both
 * @param first index of the first bad sample
 * @param last index of the last bad sample
 */
public record Stretch(Kind kind, int channel, long first, long last) {
  /** What is wrong. */
  public enum Kind {
    /** Samples at full scale: the input was overloaded. */
    CLIPPED,
    /** Peaks flattened below full scale: something before the converter was overloaded. */
    FLATTENED,
    /** Samples that are exactly zero, or frozen at one value, amid signal: the stream broke. */
    DROPPED
  }

  /** Number of samples. */
  public long length() {
    return last - first + 1;
  }
}
