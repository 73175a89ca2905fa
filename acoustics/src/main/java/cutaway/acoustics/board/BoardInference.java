package cutaway.acoustics.board;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import org.hipparchus.special.Erf;

/**
 * Joint inference of a board's thickness, density, modulus and material by quadrature; the modulus
 * by itself in closed form, for the frequencies go as √(E/ρ).
 */
public final class BoardInference {
  /** Step of the logarithm of a thickness, and the fewest steps. */
  private static final double THICKNESS_STEP = 0.0135;

  private static final int FEWEST = 24;
  private static final int EDGES = 12;
  private static final int DENSITIES = 8;

  /** Most modes that may have been missed below or between those heard. */
  private static final int MOST_MISSED = 6;

  /** Chance that a mode is not heard, and that one heard is none, the latter per unit of ln f. */
  private static final double MISSED = 0.3;

  private static final double STRAY = 0.02;

  /** Logarithms of likelihood ratios that are nothing: of a place to the best, of a way there. */
  private static final double NEGLIGIBLE = 18;

  private static final double NEGLIGIBLE_WAY = 6;

  /** Most ways that are followed at one place. */
  private static final int MOST_WAYS = 12;

  /** Beyond so many standard deviations there is nothing: 1e-9. */
  private static final double CERTAIN = 6;

  /** A weight so many uncertainties off is excluded. */
  private static final double EXCLUDED = 5;

  private final BoardEvidence evidence;

  /** Logarithms of each wall's frequencies. */
  private final List<double[]> heard = new ArrayList<>();

  private final List<List<Way>> ways = new ArrayList<>();

  private BoardInference(BoardEvidence evidence) {
    this.evidence = evidence;
    for (KnockedWall wall : evidence.knocked()) {
      heard.add(Arrays.stream(wall.frequencies()).map(Math::log).toArray());
      ways.add(ways(wall.frequencies().length, wall.tones().modes()));
    }
  }

  /** Weighs all that is possible against the readings. */
  public static BoardPosterior of(BoardEvidence evidence) {
    BoardInference inference = new BoardInference(evidence);
    BoardSums coarse = inference.sums(1);
    BoardSums fine = inference.sums(2);
    double change = 0;
    for (int i = 0; i < evidence.candidates().size(); i++) {
      change = Math.max(change, Math.abs(coarse.odds(i) - fine.odds(i)));
    }
    return fine.posterior(evidence.candidates(), change);
  }

  /** An assignment of what was heard to modes, as far as the modulus does not matter. */
  private record Heard(double logWeight, double logStiffness, double spread) {}

  private BoardSums sums(int finer) {
    BoardSums out = new BoardSums(evidence, finer * thicknesses(), finer * EDGES);
    Range h = evidence.thickness();
    Range e = evidence.fixity();
    List<List<Heard>> all = new ArrayList<>();
    double best = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < out.thicknesses; i++) {
      double thickness = along(h, (i + 0.5) / out.thicknesses);
      for (int k = 0; k < out.edges; k++) {
        List<Heard> its = heard(thickness, along(e, (k + 0.5) / out.edges));
        all.add(its);
        best = Math.max(best, its.get(0).logWeight());
      }
    }
    for (int i = 0; i < out.thicknesses; i++) {
      double thickness = along(h, (i + 0.5) / out.thicknesses);
      // all thicknesses as likely, the steps logarithmic
      double seen =
          Math.log(thickness)
              + evidence.seenThickness().map(r -> r.logLikelihood(thickness)).orElse(0.0);
      double volume = evidence.weighing().map(w -> w.volume().applyAsDouble(thickness)).orElse(0.0);
      for (int c = 0; c < evidence.candidates().size(); c++) {
        double[] densities = densities(c, volume, finer * DENSITIES);
        for (int k = 0; k < out.edges && densities.length > 0; k++) {
          List<Heard> its = all.get(i * out.edges + k);
          if (its.get(0).logWeight() > best - NEGLIGIBLE) {
            add(out, new int[] {c, i, k}, densities, volume, seen - best, its);
          }
        }
      }
    }
    return out;
  }

  private int thicknesses() {
    Range h = evidence.thickness();
    return (int) Math.max(FEWEST, Math.ceil(Math.log(h.high() / h.low()) / THICKNESS_STEP));
  }

  static double along(Range range, double share) {
    return range.low() * Math.pow(range.high() / range.low(), share);
  }

  /** Middles of even steps over what of a material's densities the weighing does not exclude. */
  private double[] densities(int material, double volume, int count) {
    Range range = evidence.candidates().get(material).density();
    double low = range.low();
    double high = range.high();
    if (evidence.weighing().isPresent()) {
      Weighing w = evidence.weighing().get();
      low = Math.max(low, (w.mass() - EXCLUDED * w.uncertainty()) / volume);
      high = Math.min(high, (w.mass() + EXCLUDED * w.uncertainty()) / volume);
    }
    if (!(high > low)) {
      return new double[0];
    }
    double[] out = new double[count];
    for (int r = 0; r < count; r++) {
      out[r] = low + (high - low) * (r + 0.5) / count;
    }
    return out;
  }

  private void add(
      BoardSums out, int[] at, double[] densities, double volume, double log, List<Heard> heard) {
    Material material = evidence.candidates().get(at[0]);
    double step = densities[1] - densities[0];
    for (double density : densities) {
      double all = log + Math.log(step / material.density().width());
      if (evidence.seenDensity().isPresent()) {
        all += evidence.seenDensity().get().logLikelihood(density);
      }
      if (evidence.weighing().isPresent()) {
        Weighing w = evidence.weighing().get();
        double off = (density * volume - w.mass()) / w.uncertainty();
        all -= off * off / 2;
      }
      for (Heard h : heard) {
        stiffness(out, at, material, density, h, all + h.logWeight());
      }
    }
  }

  /**
   * ∫ N(ln E; μ, σ) dE over the material's range, μ = ln ρ + ln s: with x = ln E the integrand is
   * eˣ N(x), a normal distribution about μ + σ².
   */
  private static void stiffness(
      BoardSums out, int[] at, Material material, double density, Heard heard, double log) {
    Range range = material.modulus();
    if (heard.spread() == Double.POSITIVE_INFINITY) {
      out.add(at, Math.exp(log), range.middle(), density);
      return;
    }
    double s = heard.spread();
    double mean = Math.log(density) + heard.logStiffness() + s * s;
    double low = (Math.log(range.low()) - mean) / s;
    double high = (Math.log(range.high()) - mean) / s;
    double share = below(high) - below(low);
    if (share > 0) {
      double weight =
          share * Math.exp(log + mean - s * s / 2) * s * Math.sqrt(2 * Math.PI) / range.width();
      double likeliest =
          Math.exp(Math.max(Math.log(range.low()), Math.min(mean, Math.log(range.high()))));
      out.add(at, weight, likeliest, density);
    }
  }

  /** Share of a normal distribution below so many of its standard deviations. */
  private static double below(double x) {
    return Math.abs(x) > CERTAIN ? (x > 0 ? 1 : 0) : (1 + Erf.erf(x / Math.sqrt(2))) / 2;
  }

  /** All the ways in which what was heard can be the walls' modes, the likeliest first. */
  private List<Heard> heard(double thickness, double fixity) {
    List<Heard> out = List.of(new Heard(0, 0, Double.POSITIVE_INFINITY));
    for (int w = 0; w < heard.size(); w++) {
      out =
          joined(
              out, heard.get(w), evidence.knocked().get(w).tones(), thickness, fixity, ways.get(w));
    }
    return out;
  }

  /**
   * One way to take what was heard for modes.
   *
   * @param modes which mode each is, −1 for none
   * @param log of its chance
   */
  @SuppressWarnings("ArrayRecordComponent")
  private record Way(int[] modes, double log) {}

  /** In order: the next heard is the next mode, or that mode was missed; one may be no mode. */
  private static List<Way> ways(int heard, int modes) {
    List<Way> out = new ArrayList<>();
    extend(new int[heard], 0, 0, 0, modes, out);
    return out;
  }

  private static void extend(
      int[] taken, int next, int mode, double log, int modes, List<Way> out) {
    if (next == taken.length) {
      out.add(new Way(taken, log));
      return;
    }
    for (int m = mode; m < Math.min(modes, next + MOST_MISSED + 1); m++) {
      int[] with = taken.clone();
      with[next] = m;
      extend(with, next + 1, m + 1, log + (m - mode) * Math.log(MISSED), modes, out);
    }
    boolean another = Arrays.stream(taken, 0, next).anyMatch(m -> m < 0);
    if (!another && taken.length > 1) {
      int[] stray = taken.clone();
      stray[next] = -1;
      extend(stray, next + 1, mode, log + Math.log(STRAY), modes, out);
    }
  }

  /**
   * Adds another wall: with d = ln f − tone = b ln s + noise the best ln s is Σbd/Σb², its spread
   * σ/√Σb², and what is left Σd² − (Σbd)²/Σb².
   */
  private List<Heard> joined(
      List<Heard> before,
      double[] logs,
      Tones tones,
      double thickness,
      double fixity,
      List<Way> ways) {
    double sigma = evidence.modelError();
    double peak = Math.log(sigma * Math.sqrt(2 * Math.PI));
    double[] model = tones.at(thickness, fixity);
    double best = Double.NEGATIVE_INFINITY;
    List<Heard> out = new ArrayList<>();
    for (Way way : ways) {
      int n = 0;
      double slopes = 0;
      double both = 0;
      double squares = 0;
      for (int i = 0; i < logs.length; i++) {
        if (way.modes()[i] >= 0) {
          double d = logs[i] - model[way.modes()[i]];
          double b = tones.slope(way.modes()[i]);
          n++;
          slopes += b * b;
          both += b * d;
          squares += d * d;
        }
      }
      double left = Math.max(0, squares - both * both / slopes);
      double its = way.log() - left / (2 * sigma * sigma) - n * peak;
      for (Heard h : before) {
        double log = h.logWeight() + its;
        if (log > best - NEGLIGIBLE_WAY) {
          Heard joint = both(h, log, both / slopes, sigma / Math.sqrt(slopes));
          best = Math.max(best, joint.logWeight());
          out.add(joint);
        }
      }
    }
    double least = best - NEGLIGIBLE_WAY;
    return out.stream()
        .filter(h -> h.logWeight() >= least)
        .sorted(Comparator.comparingDouble(h -> -h.logWeight()))
        .limit(MOST_WAYS)
        .toList();
  }

  private static Heard both(Heard h, double log, double stiffness, double spread) {
    if (h.spread() == Double.POSITIVE_INFINITY) {
      return new Heard(log, stiffness, spread);
    }
    double variance = h.spread() * h.spread() + spread * spread;
    double off = stiffness - h.logStiffness();
    double weight = spread * spread / variance;
    return new Heard(
        log - off * off / (2 * variance) - Math.log(2 * Math.PI * variance) / 2,
        weight * h.logStiffness() + (1 - weight) * stiffness,
        h.spread() * spread / Math.sqrt(variance));
  }
}
