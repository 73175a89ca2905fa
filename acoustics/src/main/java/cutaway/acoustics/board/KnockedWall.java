package cutaway.acoustics.board;

/**
 * A wall that was knocked on.
 *
 * @param tones at which it may ring
 * @param frequencies the lowest that were heard, Hz, lowest first
 */
@SuppressWarnings("ArrayRecordComponent")
public record KnockedWall(Tones tones, double[] frequencies) {}
