package cutaway.bench.work;

import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.function.Supplier;

/** Work that is begun by another thread before anyone asks for what it comes to. */
public final class Ahead<T> implements Supplier<T>, AutoCloseable {
  private final CompletableFuture<T> work;

  private Ahead(CompletableFuture<T> work) {
    this.work = work;
  }

  public static <T> Ahead<T> begin(Supplier<T> work) {
    return new Ahead<>(CompletableFuture.supplyAsync(work));
  }

  /** What it came to; throws what the work threw. */
  @Override
  public T get() {
    try {
      return work.join();
    } catch (CompletionException e) {
      if (e.getCause() instanceof RuntimeException cause) {
        throw cause;
      }
      throw e;
    }
  }

  /** Waits until nothing of it goes on, whatever it came to. */
  public void await() {
    work.handle((done, failed) -> failed).join();
  }

  @Override
  public void close() {
    await();
  }
}
