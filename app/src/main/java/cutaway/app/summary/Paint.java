package cutaway.app.summary;

/**
 * Colour for a terminal, or none.
 *
 * @param colour whether to use any
 */
public record Paint(boolean colour) {
  private String in(String code, String text) {
    return colour ? "\u001B[" + code + "m" + text + "\u001B[0m" : text;
  }

  String strong(String text) {
    return in("1", text);
  }

  String faint(String text) {
    return in("2", text);
  }

  String fault(String text) {
    return in("1;31", text);
  }

  String caution(String text) {
    return in("33", text);
  }

  String good(String text) {
    return in("32", text);
  }
}
