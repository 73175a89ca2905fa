package cutaway.acoustics.signal;

import java.util.stream.IntStream;

/**
 * Channels of samples, read from the start as often as needed.
 *
 * <p>Full scale is ±1. What opens files lives elsewhere; this is what it hands over.
 */
public interface SoundSource {
  /** Samples per second, Hz. */
  double rate();

  /** Number of samples in each channel. */
  long frames();

  /** How many channels, at least 1. */
  int channels();

  /** Hands every sample to a sink, in order, in blocks. */
  void stream(Sink sink);

  /** All samples of a channel, counted from 0; no more than an array holds. */
  default double[] samples(int channel) {
    return samples(new int[] {channel})[0];
  }

  /** All samples of all channels, read in one go: channel × sample. */
  default double[][] samples() {
    return samples(IntStream.range(0, channels()).toArray());
  }

  private double[][] samples(int... wanted) {
    double[][] out = new double[wanted.length][(int) Math.min(frames(), Integer.MAX_VALUE - 8)];
    int[] at = new int[1];
    stream(
        (block, count) -> {
          int fits = Math.min(count, out[0].length - at[0]);
          for (int c = 0; c < wanted.length; c++) {
            System.arraycopy(block[wanted[c]], 0, out[c], at[0], fits);
          }
          at[0] += fits;
        });
    return out;
  }

  /**
   * Channels that are in memory, kept, not copied.
   *
   * @param rate samples per second, Hz
   * @param channels one after another, all as long
   */
  static SoundSource of(double rate, double[]... channels) {
    return new SoundSource() {
      @Override
      public double rate() {
        return rate;
      }

      @Override
      public long frames() {
        return channels[0].length;
      }

      @Override
      public int channels() {
        return channels.length;
      }

      @Override
      public void stream(Sink sink) {
        sink.accept(channels, channels[0].length);
      }
    };
  }

  /** Takes samples block by block. */
  @FunctionalInterface
  interface Sink {
    /**
     * One block.
     *
     * @param block channel × sample; valid to {@code count}; not to be kept
     * @param count samples in this block
     */
    void accept(double[][] block, int count);
  }
}
