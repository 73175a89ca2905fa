package cutaway.bench.finding;

import java.util.List;

/**
 * How a sound's spectrum changes, for a picture.
 *
 * @param id unique
 * @param name what it shows
 * @param times s
 * @param frequencies Hz, ascending
 * @param levels dB, all frequencies of the first time, then those of the next
 * @param modes frequencies of the modes found in it, Hz
 * @param restsOn ids of the evidence
 */
public record Spectrogram(
    String id,
    String name,
    List<Double> times,
    List<Double> frequencies,
    List<Double> levels,
    List<Double> modes,
    List<String> restsOn) {
  /** Copies its lists. */
  public Spectrogram {
    times = List.copyOf(times);
    frequencies = List.copyOf(frequencies);
    levels = List.copyOf(levels);
    modes = List.copyOf(modes);
    restsOn = List.copyOf(restsOn);
  }
}
