package cutaway.benchmarks.population;

/**
 * Sound that a defect makes somewhere, Pa at 1 m, {@link Motion#RATE} samples a second, in a scale
 * that is set afterwards.
 *
 * @param place where
 * @param sound one number a step
 * @param acts whether the defect does anything at all
 */
@SuppressWarnings("ArrayRecordComponent") // never compared
record Emission(Place place, double[] sound, boolean acts) {
  enum Place {
    CONE,
    PORT,
    WALL,
    FRONT,
    LEAK
  }
}
