package cutaway.acoustics.signal;

import java.lang.ref.SoftReference;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.jtransforms.fft.DoubleFFT_1D;

/**
 * Transforms made ready once for each length. The table of sines of a long one takes a third as
 * long to make as the whole rest of a capture, and lengths come again: they are kept while memory
 * allows. A transform holds no state, so that threads may share it.
 */
public final class Fft {
  private static final Map<Integer, SoftReference<DoubleFFT_1D>> READY = new ConcurrentHashMap<>();

  private Fft() {}

  /** Of so many samples. */
  public static DoubleFFT_1D of(int length) {
    SoftReference<DoubleFFT_1D> kept = READY.get(length);
    DoubleFFT_1D ready = kept == null ? null : kept.get();
    if (ready == null) {
      ready = new DoubleFFT_1D(length);
      READY.put(length, new SoftReference<>(ready));
    }
    return ready;
  }
}
