package cutaway.app.command;

import cutaway.app.summary.Paint;
import java.io.PrintWriter;
import java.util.function.Consumer;
import picocli.CommandLine;

/** What the terminal can do. */
final class Terminal {
  private Terminal() {}

  /** The launcher, which can ask the system, says whether stdout is a terminal. */
  private static boolean colour() {
    String no = System.getenv("NO_COLOR");
    String term = System.getenv("TERM");
    boolean refused = (no != null && !no.isEmpty()) || "dumb".equals(term);
    return !refused && Boolean.getBoolean("cutaway.terminal");
  }

  static CommandLine.Help.Ansi ansi() {
    return colour() ? CommandLine.Help.Ansi.ON : CommandLine.Help.Ansi.OFF;
  }

  static Paint paint() {
    return new Paint(colour());
  }

  /** Tells of a step once the work has taken more than a second. */
  static Consumer<String> progress(PrintWriter err) {
    long start = System.nanoTime();
    return step -> {
      double seconds = (System.nanoTime() - start) / 1e9;
      if (seconds > 1) {
        err.printf(java.util.Locale.ROOT, "… %s (%.1f s)%n", step, seconds);
      }
    };
  }
}
