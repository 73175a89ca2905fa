package cutaway.benchmarks.population;

import cutaway.benchmarks.population.Emission.Place;
import java.util.EnumMap;
import java.util.Map;
import java.util.Objects;
import java.util.Random;

/**
 * Three microphones, before the cone, at the port or behind a sealed box, and at a wall: sources on
 * a baffle at their distances, and seven early reflections each.
 */
final class Microphones {
  static final double RATE = 48000;
  static final int COUNT = 3;

  private static final int DECIMATION = (int) (Motion.RATE / RATE);
  private static final int REFLECTIONS = 7;
  private static final double[] TAPS = taps();

  /** Samples that stay at hand while all taps go over them. */
  private static final int BLOCK = 4096;

  /** Of each microphone, m. */
  private final Map<Place, double[]> distance = new EnumMap<>(Place.class);

  private final double[][] reflectionPath;
  private final double[][] reflectionGain;

  Microphones(Loudspeaker unit, Random r) {
    double cone = Loudspeaker.in(r, 0.02, 0.05) + 0.35 * unit.cone().radius();
    double port = Loudspeaker.in(r, 0.01, 0.04) + 0.35 * Math.sqrt(unit.box().portArea() / Math.PI);
    double wall = Loudspeaker.in(r, 0.04, 0.12) + 0.05;
    double far = unit.size() == Loudspeaker.Size.SMALL ? 0.15 : 0.25;
    distance.put(Place.CONE, row(cone, r, far));
    distance.put(Place.PORT, row(r, far, port));
    distance.put(Place.WALL, row(r, far, far, wall));
    distance.put(
        Place.FRONT,
        new double[] {
          Loudspeaker.in(r, 0.06, 0.15), Loudspeaker.in(r, 0.12, 0.3), far * (1 + r.nextDouble())
        });
    double leak = Loudspeaker.in(r, 0.05, 0.2);
    distance.put(
        Place.LEAK,
        switch (r.nextInt(3)) {
          case 0 -> row(leak, r, far);
          case 1 -> row(r, far, leak);
          default -> row(r, far, far, leak);
        });
    reflectionPath = new double[COUNT][REFLECTIONS];
    reflectionGain = new double[COUNT][REFLECTIONS];
    for (int m = 0; m < COUNT; m++) {
      for (int k = 0; k < REFLECTIONS; k++) {
        reflectionPath[m][k] = Loudspeaker.in(r, 0.9, 7);
        reflectionGain[m][k] = (r.nextBoolean() ? 1 : -1) * Loudspeaker.in(r, 0.3, 0.8);
      }
    }
  }

  private static double[] row(double own, Random r, double far) {
    return new double[] {own, far * (1 + r.nextDouble()), far * (1 + r.nextDouble())};
  }

  private static double[] row(Random r, double far, double own) {
    return new double[] {far * (1 + r.nextDouble()), own, far * (1 + r.nextDouble())};
  }

  private static double[] row(Random r, double far, double farther, double own) {
    return new double[] {far * (1 + r.nextDouble()), farther * (1 + r.nextDouble()), own};
  }

  /** What a loudspeaker itself sounds like, microphone × sample, Pa. */
  double[][] hear(Motion motion, Loudspeaker unit, boolean boxed) {
    double scale = Loudspeaker.DENSITY / (2 * Math.PI);
    double[] cone = scaled(motion.acceleration, scale * unit.cone().area());
    double[][] out = hear(cone, Place.CONE);
    if (boxed) {
      add(out, hear(scaled(Motion.slope(motion.portFlow), scale), Place.PORT));
      double[] wall = new double[motion.size()];
      for (int k = 0; k < 2; k++) {
        double by = scale * unit.panels().get(k).radiating();
        double[] bend = Motion.bend(motion.panel[k]);
        for (int n = 0; n < wall.length; n++) {
          wall[n] += by * bend[n];
        }
      }
      add(out, hear(wall, Place.WALL));
    }
    return out;
  }

  private static double[] scaled(double[] x, double by) {
    double[] out = new double[x.length];
    for (int n = 0; n < x.length; n++) {
      out[n] = by * x[n];
    }
    return out;
  }

  static void add(double[][] to, double[][] more) {
    for (int m = 0; m < to.length; m++) {
      for (int n = 0; n < to[m].length; n++) {
        to[m][n] += more[m][n];
      }
    }
  }

  /** What a source somewhere sounds like, Pa at 1 m, one number a step. */
  double[][] hear(double[] source, Place place) {
    double[] distances = Objects.requireNonNull(distance.get(place));
    double[][] out = new double[COUNT][];
    for (int m = 0; m < COUNT; m++) {
      double[] x = new double[source.length];
      add(x, source, distances[m], 1);
      for (int k = 0; k < REFLECTIONS; k++) {
        add(x, source, reflectionPath[m][k], reflectionGain[m][k]);
      }
      out[m] = cutLow(decimated(x));
    }
    return out;
  }

  /** Something two metres off, at all microphones nearly alike. */
  static double[][] hearFromAfar(double[] source, Random r) {
    double[][] out = new double[COUNT][];
    for (int m = 0; m < COUNT; m++) {
      double[] x = new double[source.length];
      add(x, source, 2 + 0.4 * r.nextDouble(), 1);
      for (int k = 0; k < REFLECTIONS; k++) {
        add(x, source, 2 + 6 * r.nextDouble(), r.nextGaussian() * 0.6);
      }
      out[m] = decimated(x);
    }
    return out;
  }

  private static void add(double[] to, double[] source, double metres, double gain) {
    int late = (int) Math.rint(metres / Loudspeaker.SOUND_SPEED * Motion.RATE);
    double g = gain / metres;
    for (int n = late; n < to.length; n++) {
      to[n] += g * source[n - late];
    }
  }

  private static double[] taps() {
    int half = 12 * DECIMATION;
    double[] out = new double[2 * half + 1];
    double sum = 0;
    for (int i = 0; i < out.length; i++) {
      double t = (i - half) * 0.92 / DECIMATION;
      double window = Math.cos(Math.PI * (i - half) / (2 * half + 2));
      out[i] = (t == 0 ? 1 : Math.sin(Math.PI * t) / (Math.PI * t)) * window * window;
      sum += out[i];
    }
    for (int i = 0; i < out.length; i++) {
      out[i] /= sum;
    }
    return out;
  }

  /** At {@link #RATE}; every fourth sample apart, so that each tap goes straight along arrays. */
  static double[] decimated(double[] x) {
    double[] out = new double[x.length / DECIMATION];
    int half = TAPS.length / 2;
    double[][] every = new double[DECIMATION][out.length + 1];
    for (int i = 0; i < x.length; i++) {
      every[i % DECIMATION][i / DECIMATION] = x[i];
    }
    for (int from = 0; from < out.length; from += BLOCK) {
      int to = Math.min(out.length, from + BLOCK);
      for (int i = 0; i < TAPS.length; i++) {
        int late = i - half;
        add(
            out,
            every[Math.floorMod(late, DECIMATION)],
            Math.floorDiv(late, DECIMATION),
            TAPS[i],
            new int[] {from, to});
      }
    }
    return out;
  }

  private static void add(double[] out, double[] x, int early, double by, int[] range) {
    int first = Math.max(range[0], -early);
    int last = Math.min(range[1], x.length - early);
    for (int n = first; n < last; n++) {
      out[n] += by * x[n + early];
    }
  }

  /** The microphone's own high-pass at 4 Hz. */
  private static double[] cutLow(double[] x) {
    double pole = 1 - 2 * Math.PI * 4 / RATE;
    double last = 0;
    double out = 0;
    for (int n = 0; n < x.length; n++) {
      out = pole * (out + x[n] - last);
      last = x[n];
      x[n] = out;
    }
    return x;
  }
}
