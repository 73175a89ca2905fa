package cutaway.bench.problem;

import java.util.List;
import java.util.stream.Collectors;

/** One or more problems that stop the work. */
public final class ProblemException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final transient List<Problem> problems;

  /** Carries problems, at least one. */
  public ProblemException(List<Problem> problems) {
    super(problems.stream().map(Problem::sentence).collect(Collectors.joining("\n")));
    this.problems = List.copyOf(problems);
  }

  /** Carries one problem. */
  public ProblemException(Problem problem) {
    this(List.of(problem));
  }

  /** The problems. */
  public List<Problem> problems() {
    return problems;
  }
}
