package cutaway.bench.work;

import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/** Work that is done when first asked for, and once, by whichever thread asks. */
public final class Once<T> implements Supplier<T> {
  private final Supplier<T> work;
  private @Nullable T done;

  public Once(Supplier<T> work) {
    this.work = work;
  }

  /** Whether it was done. */
  public synchronized boolean isDone() {
    return done != null;
  }

  @Override
  public synchronized T get() {
    T result = done;
    if (result == null) {
      result = work.get();
      done = result;
    }
    return result;
  }
}
