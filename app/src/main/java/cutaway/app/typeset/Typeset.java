package cutaway.app.typeset;

import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Sets the trade's symbols, written f_s or Q_ts, with lowered subscripts; escapes the rest. */
public final class Typeset {
  private static final Pattern SYMBOL =
      Pattern.compile("(?<![\\p{L}\\p{N}_-])(Δ?\\p{L}|Bl²/R)_([\\p{L}\\p{N}.]+)");

  private Typeset() {}

  /** Text for HTML. */
  public static String html(String text) {
    Matcher m = SYMBOL.matcher(escaped(text));
    return m.replaceAll("<i>$1</i><sub>$2</sub>");
  }

  /** Text for the inside of an SVG {@code text} element. */
  public static String svg(String text) {
    Matcher m = SYMBOL.matcher(escaped(text));
    return m.replaceAll(
        "<tspan font-style=\"italic\">$1</tspan><tspan dy=\"4\" font-size=\"0.72em\">$2</tspan>"
            + "<tspan dy=\"-4\"> </tspan>");
  }

  /** Text for an attribute or anywhere else. */
  public static String escaped(String s) {
    return s.replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace("\"", "&quot;");
  }
}
