package cutaway.bench.sheet;

/** How a box holds its air; the sheet's words in capitals. */
public enum BoxKind {
  /** Without an opening. */
  SEALED,
  /** With one port or several. */
  VENTED,
  /** With a passive radiator. */
  PASSIVE_RADIATOR
}
