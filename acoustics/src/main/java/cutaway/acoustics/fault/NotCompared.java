package cutaway.acoustics.fault;

/**
 * Why a take tells nothing of what an intervention did.
 *
 * @param louder how much louder it was played than the one before, dB; 0 where that is not why
 */
public record NotCompared(Why why, double louder) {
  static final NotCompared NOTHING_BEFORE = new NotCompared(Why.NOTHING_BEFORE, 0);
  static final NotCompared OUT_OF_REACH = new NotCompared(Why.OUT_OF_REACH, 0);

  /** Why. */
  public enum Why {
    /** There is no take of the same signal before it with nothing done. */
    NOTHING_BEFORE,
    /** It ends before the noise would come, or has no microphone where that was heard. */
    OUT_OF_REACH,
    /** It was played at another level. */
    OTHER_LEVEL
  }
}
