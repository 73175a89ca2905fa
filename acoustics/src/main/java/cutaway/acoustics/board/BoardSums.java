package cutaway.acoustics.board;

import cutaway.acoustics.board.BoardPosterior.Gain;
import cutaway.acoustics.board.BoardPosterior.Interval;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.DoubleUnaryOperator;

/** Weights by material, thickness, edge, density and modulus, and what they come to. */
final class BoardSums {
  private static final double DRILLED = 2e-4;
  private static final double WEIGHED = 0.03;

  /** As a share of the logarithmic range of the edges. */
  private static final double KNOCKED_AGAIN = 0.07;

  final int thicknesses;
  final int edges;
  private final BoardEvidence evidence;
  private final double[] byMaterial;
  private final double[][] byThickness;
  private final double[][] byEdge;
  private final double[][] byDensity;
  private final double[][] byModulus;
  private final double[] densityEnds;
  private final double[] modulusEnds;
  private static final int BINS = 400;

  BoardSums(BoardEvidence evidence, int thicknesses, int edges) {
    this.evidence = evidence;
    this.thicknesses = thicknesses;
    this.edges = edges;
    int n = evidence.candidates().size();
    byMaterial = new double[n];
    byThickness = new double[n][thicknesses];
    byEdge = new double[n][edges];
    byDensity = new double[n][BINS];
    byModulus = new double[n][BINS];
    densityEnds = ends(evidence.candidates().stream().map(Material::density).toList());
    modulusEnds = ends(evidence.candidates().stream().map(Material::modulus).toList());
  }

  private static double[] ends(List<Range> ranges) {
    return new double[] {
      Math.log(ranges.stream().mapToDouble(Range::low).min().orElseThrow()) - 1e-3,
      Math.log(ranges.stream().mapToDouble(Range::high).max().orElseThrow()) + 1e-3
    };
  }

  void add(int[] at, double weight, double modulus, double density) {
    byMaterial[at[0]] += weight;
    byThickness[at[0]][at[1]] += weight;
    byEdge[at[0]][at[2]] += weight;
    byDensity[at[0]][bin(densityEnds, density)] += weight;
    byModulus[at[0]][bin(modulusEnds, modulus)] += weight;
  }

  private static int bin(double[] ends, double value) {
    double share = (Math.log(value) - ends[0]) / (ends[1] - ends[0]);
    return (int) Math.max(0, Math.min(BINS - 1, Math.floor(BINS * share)));
  }

  double odds(int material) {
    double all = Arrays.stream(byMaterial).sum();
    return all == 0 ? 0 : byMaterial[material] / all;
  }

  BoardPosterior posterior(List<Material> candidates, double change) {
    Map<String, Double> odds = new LinkedHashMap<>();
    for (int i = 0; i < candidates.size(); i++) {
      odds.put(candidates.get(i).name(), odds(i));
    }
    Range h = evidence.thickness();
    Range e = evidence.fixity();
    Map<Gain, Double> gains = new EnumMap<>(Gain.class);
    double step = Math.log(h.high() / h.low()) / thicknesses;
    double median = interval(byThickness, x -> BoardInference.along(h, x)).median();
    gains.put(Gain.THICKNESS, information(byThickness, DRILLED / median / step));
    double densityStep = (densityEnds[1] - densityEnds[0]) / BINS;
    gains.put(Gain.DENSITY, information(byDensity, WEIGHED / densityStep));
    gains.put(Gain.SECOND_KNOCK, information(byEdge, KNOCKED_AGAIN * edges));
    return new BoardPosterior(
        odds,
        interval(byThickness, x -> BoardInference.along(h, x)),
        interval(byDensity, x -> Math.exp(densityEnds[0] + (densityEnds[1] - densityEnds[0]) * x)),
        interval(byModulus, x -> Math.exp(modulusEnds[0] + (modulusEnds[1] - modulusEnds[0]) * x)),
        interval(byEdge, x -> BoardInference.along(e, x)),
        gains,
        change);
  }

  private static double[] all(double[][] by) {
    double[] out = new double[by[0].length];
    for (double[] row : by) {
      for (int i = 0; i < out.length; i++) {
        out[i] += row[i];
      }
    }
    return out;
  }

  private static Interval interval(double[][] by, DoubleUnaryOperator value) {
    double[] sum = all(by);
    return new Interval(
        value.applyAsDouble(quantile(sum, 0.05)),
        value.applyAsDouble(quantile(sum, 0.5)),
        value.applyAsDouble(quantile(sum, 0.95)));
  }

  /** Share of the way from the first bin's beginning to the last one's end. */
  private static double quantile(double[] weights, double p) {
    double left = p * Arrays.stream(weights).sum();
    for (int i = 0; i < weights.length; i++) {
      if (left <= weights[i] && weights[i] > 0) {
        return (i + left / weights[i]) / weights.length;
      }
      left -= weights[i];
    }
    return 1;
  }

  /**
   * Information about the material in a reading with some normal noise, I = H(reading) − H(reading
   * | material), bits.
   *
   * @param noise standard deviation in bins
   */
  private double information(double[][] by, double noise) {
    double total = Arrays.stream(byMaterial).sum();
    if (total == 0) {
      return 0;
    }
    double[] mixed = new double[by[0].length];
    double within = 0;
    for (int m = 0; m < by.length; m++) {
      if (byMaterial[m] > 1e-9 * total) {
        double[] seen = blurred(by[m], noise);
        double its = Arrays.stream(seen).sum();
        for (int i = 0; i < seen.length; i++) {
          mixed[i] += seen[i] / its * byMaterial[m] / total;
        }
        within += byMaterial[m] / total * entropy(seen, its);
      }
    }
    return Math.max(0, entropy(mixed, 1) - within);
  }

  private static double entropy(double[] p, double sum) {
    double out = 0;
    for (double v : p) {
      double share = v / sum;
      out -= share > 0 ? share * Math.log(share) / Math.log(2) : 0;
    }
    return out;
  }

  private static double[] blurred(double[] p, double noise) {
    double[] out = new double[p.length];
    int reach = (int) Math.ceil(4 * noise);
    for (int i = 0; i < p.length; i++) {
      for (int k = -reach; k <= reach && p[i] > 0; k++) {
        int to = Math.max(0, Math.min(p.length - 1, i + k));
        out[to] += p[i] * Math.exp(-k * k / (2 * noise * noise));
      }
    }
    return out;
  }
}
