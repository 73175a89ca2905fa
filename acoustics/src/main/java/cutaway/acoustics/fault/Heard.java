package cutaway.acoustics.fault;

import cutaway.acoustics.stimulus.Harmonics;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * What a sensor has of a driven take.
 *
 * @param harmonics of each tone
 * @param left samples without them
 * @param bands of what is left, those that can be judged
 * @param background the bands' silence, mean square
 * @param explained bands of what was taken off as another channel's
 * @param unexplained share of that power under which nothing is told
 */
@SuppressWarnings("ArrayRecordComponent") // never compared
record Heard(
    List<Harmonics> harmonics,
    double[] left,
    OctaveBands bands,
    double[] background,
    Optional<OctaveBands> explained,
    double unexplained) {
  /**
   * The same without what was sent along a path.
   *
   * @param sent what the sender has left, samples
   * @param known whether bands are judged only where the path is known
   * @param unexplained share of its power under which nothing is told
   * @param rate samples a second
   */
  Heard without(LinearPath path, double[] sent, boolean known, double unexplained, double rate) {
    double[] arriving = path.through(sent);
    double[] stays = left.clone();
    for (int i = 0; i < stays.length; i++) {
      stays[i] -= arriving[i];
    }
    int[] judged =
        IntStream.range(0, background.length)
            .filter(
                b -> !known || path.isKnown(OctaveBands.lowerEdge(b), 2 * OctaveBands.lowerEdge(b)))
            .toArray();
    return new Heard(
        harmonics,
        stays,
        new OctaveBands(stays, rate, judged),
        background,
        Optional.of(new OctaveBands(arriving, rate, judged)),
        unexplained);
  }

  /** Power of what is left in a band between two samples; none where it cannot be judged. */
  double power(int band, int from, int to) {
    return bands.holds(band) ? bands.power(band, from, to) : 0;
  }

  /** Power of a band between two samples under which nothing is told. */
  double silent(int band, int from, int to) {
    return bands.holds(band)
        ? Math.max(background[band], unexplained * explained(band, from, to).orElse(0.0))
        : Double.POSITIVE_INFINITY;
  }

  /** Power of what was explained in a band between two samples; absent where none can be. */
  Optional<Double> explained(int band, int from, int to) {
    return explained.filter(e -> e.holds(band)).map(e -> e.power(band, from, to));
  }
}
