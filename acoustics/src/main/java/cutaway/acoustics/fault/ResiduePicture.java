package cutaway.acoustics.fault;

import java.util.Arrays;
import java.util.stream.IntStream;

/**
 * What is left over of a driven take at the microphone that hears it loudest, for a picture: over
 * time and frequency, and round the cone's cycle where it stands out most.
 *
 * @param sensor the microphone
 * @param times middles of even steps, s
 * @param tones frequency played at each, Hz; 0 where nothing plays
 * @param bands middles of octave bands, a third of an octave apart, Hz
 * @param over dB over silence, time × band; NaN where ordinary distortion or settling may lie
 * @param spotTime where it stands out most, s
 * @param spotBand the band there, Hz
 * @param cycle power there in even parts of a cycle that begins with the cone farthest out, over
 *     its mean; empty where no microphone is at the cone
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

  static ResiduePicture of(Residue residue, Spot spot) {
    double first = residue.tones().get(0).start();
    double last = residue.tones().get(residue.tones().size() - 1).end();
    double step = (last - first) / TIMES;
    double[] times = IntStream.range(0, TIMES).mapToDouble(i -> first + (i + 0.5) * step).toArray();
    double[] tones = Arrays.stream(times).map(t -> frequency(residue, t)).toArray();
    double[] bands = IntStream.range(0, residue.bands()).mapToDouble(OctaveBands::centre).toArray();
    double[][] over = new double[TIMES][bands.length];
    for (int i = 0; i < TIMES; i++) {
      for (int b = 0; b < bands.length; b++) {
        over[i][b] =
            residue.isSettled(times[i]) && Residue.isJudged(b, tones[i])
                ? residue.over(spot.sensor(), b, times[i] - step / 2, times[i] + step / 2)
                : Double.NaN;
      }
    }
    double time = residue.tones().get(spot.tone()).start() + spot.since();
    double[] cycle =
        residue.microphones().contains(Sensor.CONE)
            ? residue.folded(
                spot.sensor(),
                residue.cell(spot.tone(), time, spot.half(), OctaveBands.at(spot.band())),
                spot.lasts(),
                PARTS)
            : new double[0];
    return new ResiduePicture(spot.sensor(), times, tones, bands, over, time, spot.band(), cycle);
  }

  private static double frequency(Residue residue, double time) {
    return residue.tones().stream()
        .filter(t -> t.start() <= time && time < t.end())
        .mapToDouble(t -> t.frequency(time))
        .findFirst()
        .orElse(0);
  }
}
