package cutaway.bench.finding;

import java.util.List;

/**
 * What is left over of a take, for a picture: over time and frequency, and round the cone's cycle.
 *
 * @param take its id
 * @param heardAt microphone, in words
 * @param glides whether a sweep was played
 * @param times s
 * @param tones frequency played at each, Hz; 0 where nothing is
 * @param played level of each tone in turn against the loudest, dB; empty where all are as loud
 * @param bands middles of the bands, Hz, ascending
 * @param levels over silence, dB, all bands of the first time, then those of the next; -1 where
 *     ordinary distortion may lie and nothing is judged
 * @param spotTime where it stands out most, s
 * @param spotBand the band there, Hz
 * @param cycle power there in even parts of a cycle that begins with the cone farthest out, over
 *     its mean; empty where that is not known
 */
public record LeftOver(
    String take,
    String heardAt,
    boolean glides,
    List<Double> times,
    List<Double> tones,
    List<Double> played,
    List<Double> bands,
    List<Double> levels,
    double spotTime,
    double spotBand,
    List<Double> cycle) {
  /** Copies its lists. */
  public LeftOver {
    times = List.copyOf(times);
    tones = List.copyOf(tones);
    played = List.copyOf(played);
    bands = List.copyOf(bands);
    levels = List.copyOf(levels);
    cycle = List.copyOf(cycle);
  }

  /** Over silence at a time in a band, dB; negative where nothing is judged. */
  public double level(int time, int band) {
    return levels.get(time * bands.size() + band);
  }
}
