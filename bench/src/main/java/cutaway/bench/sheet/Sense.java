package cutaway.bench.sheet;

/** How a claimed figure is meant; the sheet's words in capitals. */
public enum Sense {
  /** As it stands. */
  ABOUT,
  /** As a lower bound. */
  AT_LEAST,
  /** As an upper bound. */
  AT_MOST
}
