package cutaway.bench.exam;

import java.util.function.Supplier;

/** What earlier solves came to, asked before anything is computed again. */
public interface Memory {
  /** Remembers nothing. */
  Memory NONE =
      new Memory() {
        @Override
        public <T> T recall(String step, String key, Class<T> type, Supplier<T> work) {
          return work.get();
        }
      };

  /**
   * What a step came to, done only where it is not remembered.
   *
   * @param step its name: takes.free-air, box
   * @param key hash of everything it follows from
   * @param type a record of plain values, which can be written down
   * @param work does it
   */
  <T> T recall(String step, String key, Class<T> type, Supplier<T> work);
}
