package cutaway.bench.sheet;

/** Where the drive unit sat in a take; the sheet's words in capitals. */
public enum Mount {
  /** In nothing. */
  FREE_AIR,
  /** Over a sealed box of known volume. */
  TEST_BOX,
  /** In the unit's own box. */
  BOX
}
