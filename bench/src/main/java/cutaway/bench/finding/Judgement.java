package cutaway.bench.finding;

import java.util.List;

/**
 * A claim held against the findings.
 *
 * @param by who makes it
 * @param says its words
 * @param about id of the finding it speaks of
 * @param verdict what the findings say of it
 * @param reason why, with the figures
 * @param evidence ids of the findings used
 */
public record Judgement(
    String by, String says, String about, Verdict verdict, String reason, List<String> evidence) {
  /** What the findings say. */
  public enum Verdict {
    /** Within what measurement can tell. */
    SUPPORTED,
    /** Further off than chance explains. */
    CONTRADICTED,
    /** Nothing measured bears on it, or not closely enough. */
    NOT_SHOWN
  }

  /** Copies its list. */
  public Judgement {
    evidence = List.copyOf(evidence);
  }
}
