package cutaway.acoustics.fault;

import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * What stays in the air while nothing is played, at the cone.
 *
 * @param hum absent where no multiple of the mains is heard there
 * @param tone the strongest that is none of them, absent where none is heard
 * @param spectrum of all that is heard
 */
public record AtRest(Optional<MainsComb> hum, Optional<StrayTone> tone, RestSpectrum spectrum) {
  /** Orders of the hum that are heard, the loudest first. */
  public List<Integer> orders() {
    return hum.stream()
        .flatMap(
            h ->
                IntStream.rangeClosed(1, MainsComb.ORDERS)
                    .filter(k -> h.clear(k, k) > 0)
                    .boxed()
                    .sorted((a, b) -> Double.compare(h.amplitude()[b - 1], h.amplitude()[a - 1])))
        .toList();
  }
}
