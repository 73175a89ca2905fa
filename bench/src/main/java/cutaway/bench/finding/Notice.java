package cutaway.bench.finding;

/**
 * Something the tester should know about the input.
 *
 * @param severity how much it matters
 * @param about what it concerns: takes.free-air, drive-unit
 * @param message what was seen, with its figures
 * @param remedy what to do
 */
public record Notice(Severity severity, String about, String message, String remedy) {
  /** How much a notice matters. */
  public enum Severity {
    /** A fact worth knowing. */
    NOTE,
    /** Results may be off, or wider than they need be. */
    CAUTION,
    /** A take or reading is not believed. */
    FAULT
  }

  /** A fact worth knowing. */
  public static Notice note(String about, String message, String remedy) {
    return new Notice(Severity.NOTE, about, message, remedy);
  }

  /** A caution. */
  public static Notice caution(String about, String message, String remedy) {
    return new Notice(Severity.CAUTION, about, message, remedy);
  }

  /** A fault. */
  public static Notice fault(String about, String message, String remedy) {
    return new Notice(Severity.FAULT, about, message, remedy);
  }
}
