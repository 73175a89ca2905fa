package cutaway.acoustics.fault;

import cutaway.acoustics.meter.FrequencyWeighting;
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
  /** Nothing is softer, Pa². */
  static final double QUIETEST = Math.pow(FrequencyWeighting.REFERENCE, 2) * 1e-3;

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

  /** Level of what is left at a microphone between two samples, dB SPL; −∞ where not judged. */
  double level(int band, int from, int to) {
    return bands.holds(band)
        ? 10 * Math.log10(power(band, from, to) / Math.pow(FrequencyWeighting.REFERENCE, 2) + 1e-12)
        : Double.NEGATIVE_INFINITY;
  }

  /** That over what tells nothing, dB; next to nothing where it cannot be judged. */
  double margin(int band, int from, int to) {
    return margin(band, from, to, QUIETEST);
  }

  /** The same of any channel, whose power is never less than so much. */
  double margin(int band, int from, int to, double least) {
    double silent = Math.max(least, silent(band, from, to));
    return 10 * Math.log10(power(band, from, to) / silent + 1e-12);
  }

  /** The margin at a microphone; NaN where it cannot be judged. */
  double over(int band, int from, int to) {
    return bands.holds(band) ? margin(band, from, to) : Double.NaN;
  }

  /** Power of what was explained in a band between two samples; absent where none can be. */
  Optional<Double> explained(int band, int from, int to) {
    return explained.filter(e -> e.holds(band)).map(e -> e.power(band, from, to));
  }
}
