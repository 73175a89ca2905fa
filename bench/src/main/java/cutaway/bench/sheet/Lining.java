package cutaway.bench.sheet;

/** What lies in a box; the sheet's words in capitals. */
public enum Lining {
  /** Nothing. */
  NONE,
  /** A layer on the walls. */
  LINED_WALLS,
  /** Fill that leaves room. */
  LOOSELY_FILLED,
  /** Fill throughout. */
  FILLED
}
