package cutaway.acoustics.knock;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Random;

/**
 * An invented recording of five knuckle taps on a simply supported plate or on a wall of a box,
 * with all that is true of it: modes in closed form, each driven by a half-sine of force.
 *
 * <p>The words "visible" and "clear" are those of knock/README.md.
 *
 * @param samples at {@link #RATE}, full scale 1
 * @param onsets of the taps, s
 * @param modes lowest first
 */
@SuppressWarnings("ArrayRecordComponent")
record InventedKnock(double[] samples, List<Double> onsets, List<Mode> modes) {
  static final double RATE = 48000;
  private static final double LENGTH = 6;
  private static final int TAPS = 5;

  /** After a tap over which energies are compared, s. */
  private static final double SHARE = 0.15;

  /**
   * A mode of the wall.
   *
   * @param frequency undamped, Hz
   * @param loss factor
   * @param clear whether it has to be found
   */
  record Mode(double frequency, double loss, boolean clear) {}

  private record Force(double at, double newton, double width) {}

  static InventedKnock of(long seed) {
    Random random = new Random(seed);
    boolean box = random.nextBoolean();
    boolean microphone = random.nextInt(5) < 2;
    double over = 20 + 30 * random.nextDouble();
    List<double[]> bare = box ? box(random) : plate(random);
    List<Force> forces = forces(random);
    double[] clean = new double[(int) (LENGTH * RATE)];
    for (double[] mode : bare) {
      add(clean, mode, forces);
    }
    double clear = Math.sqrt(meanSquareAfter(clean, forces));
    Noise noise = new Noise(microphone, clear / Math.pow(10, over / 20));
    double[] background = noise.drawn(random, clean.length);
    List<Mode> modes = judged(bare, forces, clean, noise);
    double peak = 0;
    double[] out = new double[clean.length];
    for (int i = 0; i < out.length; i++) {
      out[i] = clean[i] + background[i];
      peak = Math.max(peak, Math.abs(out[i]));
    }
    for (int i = 0; i < out.length; i++) {
      out[i] = Math.rint(out[i] / peak * 0.7 * 8388608) / 8388608;
    }
    return new InventedKnock(out, forces.stream().map(Force::at).toList(), modes);
  }

  /** Thin plate, simply supported: closed form; one place is tapped, one is listened to. */
  private static List<double[]> plate(Random random) {
    double a = between(random, 0.2, 0.5);
    double b = a * between(random, 0.55, 0.95);
    double first = between(random, 150, 600);
    double loss = between(random, 0.01, 0.06);
    double[] tap = {between(random, 0.15, 0.85), between(random, 0.15, 0.85)};
    double[] sensor = {between(random, 0.15, 0.85), between(random, 0.15, 0.85)};
    double unit = first / (1 / a / a + 1 / b / b);
    List<double[]> out = new ArrayList<>();
    for (int m = 1; m < 12; m++) {
      for (int n = 1; n < 12; n++) {
        double f = unit * (m * m / a / a + n * n / b / b);
        if (f < 6000) {
          double shape =
              Math.sin(m * Math.PI * tap[0])
                  * Math.sin(n * Math.PI * tap[1])
                  * Math.sin(m * Math.PI * sensor[0])
                  * Math.sin(n * Math.PI * sensor[1]);
          out.add(new double[] {f, loss * between(random, 0.75, 1.3), shape});
        }
      }
    }
    return lowest(out);
  }

  /** Up to 42 modes as dense as those of six walls, each moving this wall more or less. */
  private static List<double[]> box(Random random) {
    double first = between(random, 140, 350);
    double spacing = first * between(random, 0.12, 0.25);
    double loss = between(random, 0.01, 0.06);
    List<double[]> out = new ArrayList<>();
    double f = first;
    for (int k = 0; k < 42; k++) {
      double share = random.nextInt(3) == 0 ? 1 : 0.2 * random.nextDouble();
      double shape = share * random.nextGaussian() * random.nextGaussian();
      out.add(new double[] {f, loss * between(random, 0.7, 1.5), shape});
      f += Math.max(0.15, -Math.log(1 - random.nextDouble())) * spacing;
    }
    return lowest(out);
  }

  private static List<double[]> lowest(List<double[]> modes) {
    modes.sort(Comparator.comparingDouble(mode -> mode[0]));
    return modes.subList(0, Math.min(42, modes.size()));
  }

  private static double between(Random random, double low, double high) {
    return low + (high - low) * random.nextDouble();
  }

  private static List<Force> forces(Random random) {
    double width = between(random, 1e-3, 3e-3);
    List<Force> out = new ArrayList<>();
    for (int k = 0; k < TAPS; k++) {
      out.add(
          new Force(
              0.45 + 1.1 * k + between(random, -0.06, 0.06),
              between(random, 4, 14),
              Math.min(4e-3, width * between(random, 0.75, 1.4))));
    }
    return out;
  }

  /** Acceleration of one mode: x″ + ηωx′ + ω²x = F, in closed form in and after each pulse. */
  private static void add(double[] sum, double[] mode, List<Force> forces) {
    double omega = 2 * Math.PI * mode[0];
    double decay = mode[1] * omega / 2;
    double turning = Math.sqrt(omega * omega - decay * decay);
    for (Force force : forces) {
      int from = (int) Math.ceil(force.at() * RATE);
      int dead = (int) Math.min(sum.length, from + (force.width() + 16 / decay) * RATE);
      double a = Math.PI / force.width();
      // ∫ sin(aτ) e^(−sτ) dτ from 0 to u is (a − e^(−su)(s sin au + a cos au)) / (s² + a²)
      double re = decay * decay - turning * turning + a * a;
      double im = -2 * decay * turning;
      for (int i = from; i < dead; i++) {
        double t = i / RATE - force.at();
        double u = Math.min(t, force.width());
        double sine = Math.sin(a * u);
        double cosine = Math.cos(a * u);
        // e^(st) a − e^(s(t−u)) (s sin au + a cos au), s = −decay + j turning
        double whole = Math.exp(-decay * t);
        double rest = Math.exp(-decay * (t - u));
        double c = Math.cos(turning * (t - u));
        double d = Math.sin(turning * (t - u));
        double p = -decay * sine + a * cosine;
        double q = turning * sine;
        double x = whole * a * Math.cos(turning * t) - rest * (p * c - q * d);
        double y = whole * a * Math.sin(turning * t) - rest * (p * d + q * c);
        double size = re * re + im * im;
        double zx = (x * re + y * im) / size;
        double zy = (y * re - x * im) / size;
        // deflection Im z/ω_d, velocity Im sz/ω_d, acceleration from the equation of motion
        double deflection = zy / turning;
        double velocity = (-decay * zy + turning * zx) / turning;
        double push = t < force.width() ? sine : 0;
        sum[i] +=
            force.newton() * mode[2] * (push - 2 * decay * velocity - omega * omega * deflection);
      }
    }
  }

  private static double meanSquareAfter(double[] x, List<Force> forces) {
    double sum = 0;
    for (Force force : forces) {
      sum += energy(x, force) / SHARE / forces.size();
    }
    return sum;
  }

  private static double energy(double[] x, Force force) {
    int from = (int) (force.at() * RATE);
    double sum = 0;
    for (int i = from; i < from + SHARE * RATE; i++) {
      sum += x[i] * x[i] / RATE;
    }
    return sum;
  }

  /**
   * White for an accelerometer; pink for a microphone, as a sum of first-order low-passes with
   * corners a factor of four apart, with rumble and at times hum.
   *
   * @param rms of the noise alone
   */
  private record Noise(boolean microphone, double rms) {
    private static final int SLOPES = 6;

    /** Of white noise in the pink. */
    private static final double WHITE = 0.1;

    private static double share(int slope) {
      return Math.min(1, 2 * Math.PI * 12 * Math.pow(4, slope) / RATE);
    }

    /** Mean square of the sum before it is brought to the rms. */
    private double square() {
      double sum = microphone ? WHITE * WHITE : 1;
      for (int k = 0; microphone && k < SLOPES; k++) {
        sum += share(k) / (2 - share(k));
      }
      return sum;
    }

    /** Unit²/Hz. */
    double density(double frequency) {
      double sum = microphone ? WHITE * WHITE : 1;
      double turn = 2 * Math.PI * frequency / RATE;
      for (int k = 0; microphone && k < SLOPES; k++) {
        double kept = 1 - share(k);
        sum += Math.pow(share(k), 2) / (1 - 2 * kept * Math.cos(turn) + kept * kept);
      }
      return sum * 2 / RATE * rms * rms / square();
    }

    double[] drawn(Random random, int length) {
      double[] out = new double[length];
      double hum = microphone && random.nextInt(3) == 0 ? rms : 0;
      double[] pink = new double[SLOPES];
      double rumble = 0;
      double unit = rms / Math.sqrt(square());
      for (int i = 0; i < length; i++) {
        out[i] = (microphone ? WHITE : 1) * unit * random.nextGaussian();
        for (int k = 0; microphone && k < SLOPES; k++) {
          pink[k] += share(k) * (random.nextGaussian() - pink[k]);
          out[i] += unit * pink[k];
        }
        if (microphone) {
          rumble += 2 * Math.PI * 8 / RATE * (random.nextGaussian() - rumble);
          out[i] += 60 * rms * rumble;
        }
        for (int k = 1; hum > 0 && k < 8; k++) {
          out[i] += hum / k * Math.sin(2 * Math.PI * 50 * k * i / RATE + k);
        }
      }
      return out;
    }
  }

  private static List<Mode> judged(
      List<double[]> bare, List<Force> forces, double[] clean, Noise noise) {
    Force strongest =
        forces.stream().max(Comparator.comparingDouble(f -> energy(clean, f))).orElseThrow();
    double all = energy(clean, strongest);
    double[] energies = new double[bare.size()];
    double[] over = new double[bare.size()];
    for (int k = 0; k < energies.length; k++) {
      double[] alone = new double[(int) ((strongest.at() + 0.5) * RATE)];
      double[] mode = bare.get(k);
      add(alone, mode, List.of(strongest));
      energies[k] = energy(alone, strongest);
      double width = Math.max(mode[1] * mode[0], 1);
      double its = noise.density(mode[0]) * width * SHARE;
      over[k] = 10 * Math.log10(energies[k] / its);
    }
    List<Mode> out = new ArrayList<>();
    for (int k = 0; k < energies.length; k++) {
      double[] mode = bare.get(k);
      double level = 10 * Math.log10(energies[k] / all);
      boolean clear = level > -24 && over[k] > 14;
      for (int i = 0; i < energies.length; i++) {
        double[] other = bare.get(i);
        double widths = (mode[0] * mode[1] + other[0] * other[1]) / 2;
        boolean near = Math.abs(mode[0] - other[0]) < 1.5 * widths;
        clear &= i == k || !near || energies[i] < energies[k] / 4;
      }
      out.add(new Mode(mode[0], mode[1], clear));
    }
    return out;
  }
}
