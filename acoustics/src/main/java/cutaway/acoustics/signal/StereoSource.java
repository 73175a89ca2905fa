package cutaway.acoustics.signal;

/**
 * Two channels of samples, read from the start as often as needed.
 *
 * <p>Full scale is ±1. What opens files lives elsewhere; this is what it hands over.
 */
public interface StereoSource {
  /** Samples per second, Hz. */
  double rate();

  /** Number of samples in each channel. */
  long frames();

  /** Hands every sample to a sink, in order, in blocks. */
  void stream(Sink sink);

  /**
   * Two channels that are in memory, kept, not copied.
   *
   * @param rate samples per second, Hz
   * @param first channel 1
   * @param second channel 2, as long
   */
  static StereoSource of(double rate, double[] first, double[] second) {
    return new StereoSource() {
      @Override
      public double rate() {
        return rate;
      }

      @Override
      public long frames() {
        return first.length;
      }

      @Override
      public void stream(Sink sink) {
        sink.accept(first, second, first.length);
      }
    };
  }

  /** Takes samples block by block. */
  @FunctionalInterface
  interface Sink {
    /**
     * One block.
     *
     * @param first samples of channel 1; valid to {@code count}; not to be kept
     * @param second samples of channel 2
     * @param count samples in this block
     */
    void accept(double[] first, double[] second, int count);
  }
}
