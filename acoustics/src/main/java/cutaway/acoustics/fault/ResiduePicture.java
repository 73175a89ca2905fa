package cutaway.acoustics.fault;

import java.util.Arrays;
import java.util.stream.IntStream;

/**
 * What is left over of a driven take at the microphone that hears it loudest, for a picture: over
 * time and frequency, and round the cone's cycle where it stands out most.
 *
 * @param sensor the microphone
 * @param times middles of even steps, s
 * @param tones frequency played at each, Hz; 0 where no tone does
 * @param bands middles of octave bands, a third of an octave apart, Hz
 * @param over dB over silence, time × band; NaN where ordinary distortion or settling may lie
 * @param spotTime where it stands out most, s
 * @param spotBand the band there, Hz
 * @param cycle power there in even parts of a cycle that begins with the cone farthest out, over
 *     its mean; empty where no microphone is at the cone, and of music
 */
@SuppressWarnings("ArrayRecordComponent") // never compared
public record ResiduePicture(
    Sensor sensor,
    double[] times,
    double[] tones,
    double[] bands,
    double[][] over,
    double spotTime,
    double spotBand,
    double[] cycle) {
  private static final int TIMES = 96;
  private static final int PARTS = 24;

  static ResiduePicture of(Remainder residue, Spot spot) {
    double first = residue.begins();
    double step = (residue.ends() - first) / TIMES;
    double[] times = IntStream.range(0, TIMES).mapToDouble(i -> first + (i + 0.5) * step).toArray();
    double[] tones = Arrays.stream(times).map(residue::frequency).toArray();
    double[] bands = IntStream.range(0, residue.bands()).mapToDouble(OctaveBands::centre).toArray();
    double[][] over = new double[TIMES][bands.length];
    for (int i = 0; i < TIMES; i++) {
      for (int b = 0; b < bands.length; b++) {
        over[i][b] =
            residue.isJudged(b, times[i])
                ? residue.over(spot.sensor(), b, times[i] - step / 2, times[i] + step / 2)
                : Double.NaN;
      }
    }
    return new ResiduePicture(
        spot.sensor(),
        times,
        tones,
        bands,
        over,
        residue.time(spot),
        spot.band(),
        residue.cycle(spot, PARTS));
  }
}
