package cutaway.benchmarks.population;

import java.util.Map;
import java.util.Random;

/**
 * An accelerometer stuck to a side wall: its two modes, what a defect sends into it, and the sound
 * before it.
 */
final class Accelerometer {
  /** Of a wall, kg/m²: it moves with the sound before it as a mass does. */
  private static final double MASS = 10;

  /** What reaches the wall of a defect elsewhere, by its place, lowest and highest, dB. */
  private static final Map<Emission.Place, double[]> REACHES =
      Map.of(
          Emission.Place.CONE, new double[] {-45, -20},
          Emission.Place.PORT, new double[] {-60, -35},
          Emission.Place.FRONT, new double[] {-45, -20},
          Emission.Place.LEAK, new double[] {-55, -30});

  private final Random random;
  private final double floor;
  private final double patch;
  private final double reaches;

  Accelerometer(Random random) {
    this.random = random;
    this.floor = Loudspeaker.over(random, 3e-4, 5e-3);
    this.patch = Loudspeaker.over(random, 0.005, 0.05);
    this.reaches = random.nextDouble();
  }

  /**
   * The loudspeaker's own shaking, with the sound before the wall, m/s² at {@link
   * Microphones#RATE}.
   */
  double[] own(Motion motion, double[] atWall, boolean boxed) {
    double[] out = new double[atWall.length];
    for (int k = 0; k < 2 && boxed; k++) {
      double[] bend = Microphones.decimated(Motion.bend(motion.panel[k]));
      for (int i = 0; i < out.length; i++) {
        out[i] += bend[i];
      }
    }
    for (int i = 0; i < out.length; i++) {
      out[i] += atWall[i] / MASS + floor * random.nextGaussian();
    }
    return out;
  }

  /** Adds what shakes it of a defect: a patch that radiates as much from the wall, or less. */
  void add(Emission emission, double scale, double[] to) {
    double[] range = REACHES.getOrDefault(emission.place(), new double[] {0, 0});
    double gain = Math.pow(10, (range[0] + reaches * (range[1] - range[0])) / 20);
    double by = scale * gain * 2 * Math.PI / (Loudspeaker.DENSITY * patch);
    double[] sound = Microphones.decimated(emission.sound());
    for (int i = 0; i < to.length; i++) {
      to[i] += by * sound[i];
    }
  }
}
