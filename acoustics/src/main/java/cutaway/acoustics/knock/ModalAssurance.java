package cutaway.acoustics.knock;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import org.hipparchus.distribution.continuous.BetaDistribution;

/**
 * Pairs rings with computed modes by their shapes, where taps fell on several places.
 *
 * <p>The modal assurance criterion of a ring heard at one place and excited at several is |Σ
 * aφ|²/(Σ|a|² Σφ²): a its amplitude after each tap, φ how far the mode moves where the tap fell (R.
 * J. Allemang and D. L. Brown, 1982, from memory). Knuckles do not strike alike, so each tap's
 * strength is found with the shapes by least squares, drawn towards one: docs/methods/knock.md.
 */
public final class ModalAssurance {
  /** With fewer places any two shapes look alike. */
  public static final int LEAST_PLACES = 4;

  /** From here on a ring may be taken for a mode (common practice, no source). */
  private static final double ALIKE = 0.6;

  private static final int PASSES = 12;

  /** How firmly strengths are drawn towards one, as a share of what the taps say. */
  private static final double DRAW = 0.1;

  /** No tap that was used is softer than this share of the others. */
  private static final double WEAKEST = 0.1;

  /** An onset is seen this much too early or late at most, s, and looked for in so many steps. */
  private static final double LATEST = 1e-3;

  private static final int SHIFTS = 50;

  private ModalAssurance() {}

  /**
   * A ring and the mode it is taken for.
   *
   * @param ring number of the ring
   * @param mode number of the mode
   * @param likeness of their shapes, 0 to 1
   * @param uncertainty of that: by leaving out each tap in turn
   */
  public record Pair(int ring, int mode, double likeness, double uncertainty) {}

  /** Says which ring and mode may be the same by their frequencies. */
  public interface Near {
    /** Whether they may be. */
    boolean test(int ring, int mode);
  }

  /**
   * Pairs, the most alike first, each ring and each mode once.
   *
   * @param rings heard
   * @param shapes of each mode, deflection where each tap fell
   * @param near which may be the same
   */
  public static List<Pair> pairs(List<Ring> rings, double[][] shapes, Near near) {
    int taps = shapes[0].length;
    Tapped[] each = new Tapped[taps];
    Arrays.fill(each, new Tapped(1, 0));
    List<Pair> pairs = matched(heard(rings, each), shapes, near);
    for (int pass = 0; pass < PASSES && pairs.size() > 1; pass++) {
      for (int tap = 0; tap < taps; tap++) {
        each[tap] = tapped(rings, heard(rings, each), shapes, pairs, tap);
      }
      pairs = matched(heard(rings, each), shapes, near);
    }
    return pairs;
  }

  /**
   * How a knuckle fell.
   *
   * @param strength over that of the others
   * @param late how much too early its onset was seen, s
   */
  private record Tapped(double strength, double late) {}

  /** Likeness that shapes which have nothing to do with each other reach in one of fifty cases. */
  static double chance(int taps) {
    return new BetaDistribution(0.5, (taps - 1) / 2.0).inverseCumulativeProbability(0.98);
  }

  /** What each ring would be had all taps fallen alike. */
  private static double[][] heard(List<Ring> rings, Tapped[] taps) {
    double[][] out = new double[rings.size()][2 * taps.length];
    for (int ring = 0; ring < out.length; ring++) {
      double[] a = rings.get(ring).amplitudes();
      for (int t = 0; t < taps.length; t++) {
        double turn = -2 * Math.PI * rings.get(ring).frequency() * taps[t].late();
        double re = a[2 * t] / taps[t].strength();
        double im = a[2 * t + 1] / taps[t].strength();
        out[ring][2 * t] = re * Math.cos(turn) - im * Math.sin(turn);
        out[ring][2 * t + 1] = re * Math.sin(turn) + im * Math.cos(turn);
      }
    }
    return out;
  }

  private static List<Pair> matched(double[][] heard, double[][] shapes, Near near) {
    double least = Math.max(ALIKE, chance(shapes[0].length));
    List<Pair> all = new ArrayList<>();
    for (int ring = 0; ring < heard.length; ring++) {
      for (int mode = 0; mode < shapes.length; mode++) {
        if (near.test(ring, mode)) {
          double mac = likeness(heard[ring], shapes[mode], -1);
          double spread = spread(heard[ring], shapes[mode]);
          if (mac >= least && mac - spread >= ALIKE) {
            all.add(new Pair(ring, mode, mac, spread));
          }
        }
      }
    }
    all.sort(Comparator.comparingDouble(Pair::likeness).reversed());
    boolean[] rings = new boolean[heard.length];
    boolean[] modes = new boolean[shapes.length];
    List<Pair> out = new ArrayList<>();
    for (Pair pair : all) {
      if (!rings[pair.ring()] && !modes[pair.mode()]) {
        rings[pair.ring()] = true;
        modes[pair.mode()] = true;
        out.add(pair);
      }
    }
    return out;
  }

  /**
   * The modal assurance criterion.
   *
   * @param heard real and imaginary part after each tap
   * @param shape deflection where each fell
   * @param without a tap that is left out, −1 for none
   */
  static double likeness(double[] heard, double[] shape, int without) {
    double re = 0;
    double im = 0;
    double own = 0;
    double computed = 0;
    for (int t = 0; t < shape.length; t++) {
      if (t != without) {
        double a = heard[2 * t];
        double b = heard[2 * t + 1];
        re += a * shape[t];
        im += b * shape[t];
        own += a * a + b * b;
        computed += shape[t] * shape[t];
      }
    }
    double both = own * computed;
    return both > 0 ? (re * re + im * im) / both : 0;
  }

  /** By the jackknife over taps. */
  private static double spread(double[] heard, double[] shape) {
    int n = shape.length;
    double[] left = new double[n];
    for (int t = 0; t < n; t++) {
      left[t] = likeness(heard, shape, t);
    }
    double mean = Arrays.stream(left).average().orElse(0);
    double squares = Arrays.stream(left).map(l -> (l - mean) * (l - mean)).sum();
    return Math.sqrt(squares * (n - 1) / n);
  }

  /**
   * Strength and onset of a tap, by least squares from what the pairs make of the others, each ring
   * weighed by its own size.
   */
  private static Tapped tapped(
      List<Ring> rings, double[][] heard, double[][] shapes, List<Pair> pairs, int tap) {
    int n = pairs.size();
    double[] omega = new double[n];
    double[][] product = new double[n][];
    double square = 0;
    for (int p = 0; p < n; p++) {
      Pair pair = pairs.get(p);
      double[] a = heard[pair.ring()];
      double[] shape = shapes[pair.mode()];
      double[] gain = gain(a, shape);
      double all = Arrays.stream(a).map(x -> x * x).sum() / shape.length;
      double re = gain[0] * shape[tap];
      double im = gain[1] * shape[tap];
      double c = rings.get(pair.ring()).amplitudes()[2 * tap];
      double s = rings.get(pair.ring()).amplitudes()[2 * tap + 1];
      omega[p] = 2 * Math.PI * rings.get(pair.ring()).frequency();
      product[p] = new double[] {(c * re + s * im) / all, (s * re - c * im) / all};
      square += (re * re + im * im) / all;
    }
    double late = 0;
    double most = Double.NEGATIVE_INFINITY;
    for (int i = -SHIFTS; i <= SHIFTS; i++) {
      double t = LATEST * i / SHIFTS;
      double along = 0;
      for (int p = 0; p < n; p++) {
        along += product[p][0] * Math.cos(omega[p] * t) + product[p][1] * Math.sin(omega[p] * t);
      }
      if (along > most) {
        most = along;
        late = t;
      }
    }
    // one that contradicts the others stays as it was heard
    return most > 0
        ? new Tapped(Math.max(WEAKEST, (most + DRAW * n) / (square + DRAW * n)), late)
        : new Tapped(1, 0);
  }

  /** The complex factor from a shape to what was heard. */
  private static double[] gain(double[] heard, double[] shape) {
    double re = 0;
    double im = 0;
    double square = 0;
    for (int t = 0; t < shape.length; t++) {
      re += shape[t] * heard[2 * t];
      im += shape[t] * heard[2 * t + 1];
      square += shape[t] * shape[t];
    }
    return new double[] {re / square, im / square};
  }
}
