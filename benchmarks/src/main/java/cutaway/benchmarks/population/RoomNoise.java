package cutaway.benchmarks.population;

import cutaway.acoustics.meter.FrequencyWeighting;
import cutaway.acoustics.meter.PowerSpectrum;
import java.util.Arrays;
import java.util.Random;

/** All that microphones hear beside the unit, and what can go wrong with a recording. */
final class RoomNoise {
  private final Random random;
  private final double room;
  private final double mains;

  /**
   * Makes it.
   *
   * @param room level of the quiet room, dB(A)
   * @param mains Hz
   */
  RoomNoise(Random random, double room, double mains) {
    this.random = random;
    this.room = room;
    this.mains = mains;
  }

  /** Room, microphones and converters. */
  double[][] noise(int n) {
    double[] common = Nuisance.VENTILATION.sound(n, room, random);
    double[][] out = new double[Microphones.COUNT][n];
    for (double[] x : out) {
      int late = random.nextInt(60);
      double own = 20e-6 * Math.pow(10, Loudspeaker.in(random, 17, 21) / 20);
      for (int i = 0; i < n; i++) {
        x[i] = common[Math.max(0, i - late)] + own * random.nextGaussian();
      }
    }
    return out;
  }

  /** A sound of the room comes to all microphones nearly alike. */
  void hear(Nuisance what, double[][] total) {
    int n = total[0].length;
    double[] sound = what.sound(n, Loudspeaker.in(random, 38, 62), random);
    for (double[] x : total) {
      double gain = Math.pow(10, Loudspeaker.in(random, -1, 1) / 20);
      int late = random.nextInt(90);
      for (int i = late; i < n; i++) {
        x[i] += gain * sound[i - late];
      }
    }
  }

  /** What becomes of a recording. */
  void disturb(Nuisance what, double[][] total, Motion motion) {
    int n = total[0].length;
    switch (what) {
      case ROOM_RATTLE -> Microphones.add(total, rattle(motion));
      case MICROPHONE_HUM -> hum(total);
      case OVERLOAD -> {
        // in the converter, or before it where its noise still comes on top
        double after = random.nextBoolean() ? 0 : 1e-4;
        for (double[] x : total) {
          double limit = Recorder.most(x) * Loudspeaker.in(random, 0.4, 0.9);
          for (int i = 0; i < n; i++) {
            x[i] = Math.max(-limit, Math.min(limit, x[i])) + after * limit * random.nextGaussian();
          }
        }
      }
      default -> {
        int from = (int) (n * Loudspeaker.in(random, 0.2, 0.8));
        int length = (int) (Loudspeaker.in(random, 0.005, 0.1) * Microphones.RATE);
        for (double[] x : total) {
          Arrays.fill(x, from, Math.min(n, from + length), 0);
        }
      }
    }
  }

  /** Something two metres off rattles along. */
  private double[][] rattle(Motion motion) {
    double[] base = new double[motion.size()];
    double[] state = new double[2];
    double own = Loudspeaker.in(random, 80, 300);
    for (int i = 0; i < base.length; i++) {
      base[i] = Turbulence.band(motion.acceleration[i], own, 15, state);
    }
    double lifts = Recorder.most(base) * Loudspeaker.in(random, 0.3, 0.8);
    double[] force = Defect.LoosePart.strikes(base, lifts, Loudspeaker.in(random, 1500, 4000));
    double[][] out = Microphones.hearFromAfar(Structure.panel(random).sound(force), random);
    double level = FrequencyWeighting.A.level(PowerSpectrum.of(out[0], Microphones.RATE));
    double gain = Math.pow(10, (Loudspeaker.in(random, 40, 62) - level) / 20);
    double scale = Recorder.most(force) > 0 ? gain : 0;
    for (double[] x : out) {
      for (int i = 0; i < x.length; i++) {
        x[i] *= scale;
      }
    }
    return out;
  }

  private void hum(double[][] total) {
    for (double[] x : total) {
      double[] hum =
          Microphones.decimated(
              Voltages.comb(4 * x.length, mains, random, 12, k -> Math.pow(k, -0.8)));
      double gain = 20e-6 * Math.pow(10, Loudspeaker.in(random, 35, 60) / 20);
      for (int i = 0; i < x.length; i++) {
        x[i] += gain * hum[i];
      }
    }
  }
}
