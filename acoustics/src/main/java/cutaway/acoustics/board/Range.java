package cutaway.acoustics.board;

/**
 * From a low value to a high one, all as likely.
 *
 * @param low lowest
 * @param high highest
 */
public record Range(double low, double high) {
  /** Refuses a range that is none. */
  public Range {
    if (!(low > 0) || !(high >= low) || high == Double.POSITIVE_INFINITY) {
      throw new IllegalArgumentException("from " + low + " to " + high + " is no range");
    }
  }

  /** Half-way. */
  public double middle() {
    return (low + high) / 2;
  }

  double width() {
    return high - low;
  }
}
