package cutaway.acoustics.board;

/**
 * A wall that was knocked on.
 *
 * @param tones at which it may ring
 * @param frequencies the lowest that were heard, Hz, lowest first
 */
@SuppressWarnings("ArrayRecordComponent")
public record KnockedWall(Tones tones, double[] frequencies) {
  /** Refuses a wall of which nothing was heard. */
  public KnockedWall {
    if (frequencies.length == 0) {
      throw new IllegalArgumentException("nothing was heard of a wall that was knocked on");
    }
  }
}
