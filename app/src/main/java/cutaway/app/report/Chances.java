package cutaway.app.report;

import cutaway.bench.finding.NextTest;
import cutaway.bench.finding.Suspicion;
import cutaway.bench.finding.Suspicion.Chance;
import cutaway.bench.finding.Suspicion.SuspectLine;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/** Odds as page, report and terminal show them. */
public final class Chances {
  /** Less likely suspects are told together. */
  private static final double WORTH = 0.02;

  /** What is said to be likelier was right so often: docs/methods/accuracy.md. */
  private static final double SURE = 0.97;

  /** Bits that are none. */
  private static final double NOTHING_NEW = 0.05;

  private static final char NO_BREAK = '\u00a0';

  private Chances() {}

  /** In whole percent, never quite none, and never surer than the odds were found to be right. */
  public static String percent(double chance) {
    if (chance < 0.01) {
      return "under 1 %";
    }
    return chance > SURE ? "over 97 %" : String.format(Locale.ROOT, "%.0f %%", 100 * chance);
  }

  /** What a test is called by what it is expected to tell. */
  public static String head(NextTest test) {
    return confirms(test) ? "To confirm" : "Next test";
  }

  /** Whether a test is expected to tell nothing new. */
  public static boolean confirms(NextTest test) {
    return test.bits() < NOTHING_NEW;
  }

  /** Information in words. */
  public static String bits(double bits) {
    return bits < NOTHING_NEW
        ? "nothing new, only to confirm"
        : String.format(Locale.ROOT, "%.1f bits", bits);
  }

  /** A bar as long as the chance. */
  public static String bar(double chance) {
    return String.format(
        Locale.ROOT,
        "<svg class=\"odds\" viewBox=\"0 0 100 4\" preserveAspectRatio=\"none\" aria-hidden=\"true\">"
            + "<rect class=\"track\" width=\"100\" height=\"4\"/>"
            + "<rect class=\"length\" width=\"%.1f\" height=\"4\"/></svg>",
        100 * chance);
  }

  /** The suspects that are told one by one. */
  public static List<SuspectLine> worthTelling(Suspicion suspicion) {
    return suspicion.suspects().stream().filter(s -> s.chance() >= WORTH).toList();
  }

  /** Names of the others. */
  public static List<String> left(Suspicion suspicion) {
    return suspicion.suspects().stream()
        .filter(s -> s.chance() < WORTH)
        .map(SuspectLine::name)
        .toList();
  }

  /** Some chances in a line. */
  public static String said(List<Chance> chances) {
    return chances.stream()
        .map(c -> c.name() + " " + percent(c.chance()).replace(' ', NO_BREAK))
        .collect(Collectors.joining("; "));
  }
}
