package cutaway.acoustics.knock;

/**
 * One tap in a recording.
 *
 * @param onset first sample of the force
 * @param end where the next tap begins or the recording ends, sample
 * @param clipped one past the last sample at full scale; the onset where there is none
 * @param doubled whether another tap fell into its ringing, or it into another's
 */
public record Tap(int onset, int end, int clipped, boolean doubled) {
  /** Whether it was too loud for the recorder. */
  public boolean isClipped() {
    return clipped > onset;
  }
}
