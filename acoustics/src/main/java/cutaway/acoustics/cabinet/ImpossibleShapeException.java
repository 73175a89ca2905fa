package cutaway.acoustics.cabinet;

/** A shape that no box can have; the message says where and why. */
public final class ImpossibleShapeException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  public ImpossibleShapeException(String message) {
    super(message);
  }
}
