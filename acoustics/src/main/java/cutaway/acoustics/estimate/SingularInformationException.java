package cutaway.acoustics.estimate;

/** The data say nothing about some direction in parameter space. */
public final class SingularInformationException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  /** Says what is left open. */
  public SingularInformationException(String message) {
    super(message);
  }
}
