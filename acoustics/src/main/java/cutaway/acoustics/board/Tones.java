package cutaway.acoustics.board;

/**
 * Frequencies at which a wall may ring, for any thickness of its board and any way in which its
 * edges hold it.
 */
public interface Tones {
  /** Number of modes. */
  int modes();

  /**
   * ln f − b ln(E/ρ) of each mode, lowest first.
   *
   * @param thickness m
   * @param edge how the edges hold it, as the evidence's range of it is meant
   */
  double[] at(double thickness, double edge);

  /** b, ½ where all that moves is of the unknown board, less where something else moves with it. */
  double slope(int mode);
}
