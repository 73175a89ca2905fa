package cutaway.acoustics.modes;

import java.util.Arrays;
import java.util.Random;
import java.util.stream.IntStream;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.factory.DecompositionFactory_DDRM;
import org.ejml.interfaces.decomposition.EigenDecomposition_F64;

/**
 * Block Lanczos with full orthogonalisation on A = (K + sM)⁻¹M, which is symmetric under the inner
 * product xᵀMy and whose largest eigenvalues θ = 1/(λ + s) belong to the lowest modes (R. G.
 * Grimes, J. G. Lewis and H. D. Simon, SIAM J. Matrix Anal. Appl. 15 (1994) 228, from memory).
 * Every block is kept orthogonal to all before it, so nothing is begun again; as many modes of one
 * frequency are found as a block has vectors.
 */
final class Lanczos {
  /** Vectors in a block: a cube has up to six modes of one frequency. */
  private static final int BLOCK = 6;

  /** Residual over θ at which a vector counts as found; θ then errs by about its square. */
  private static final double TOLERANCE = 1e-6;

  /** The same of those that may be rough. */
  private static final double ROUGH = 1e-2;

  /** A vector of which so little is left was a sum of the others. */
  private static final double DEPENDENT = 1e-11;

  private final CholeskyFactor factor;
  private final Mass mass;
  private final int n;
  private final Sought sought;
  private final Span span;

  /** Always begun alike, so that the same matrices give the same bits. */
  private final Random random = new Random(1);

  /** QᵀMAQ as far as the vectors have been sent through A; square. */
  private double[][] inner = {};

  /** Writes y = M x. */
  interface Mass {
    void times(double[] x, double[] y);
  }

  /**
   * What is looked for.
   *
   * @param count how many modes, from the lowest
   * @param exact how many of them are found as well as ever; the others are sums of much the same
   *     shapes, orthogonal to these and to each other, some thousandths too high
   */
  record Sought(int count, int exact) {}

  /**
   * Vectors and their θ.
   *
   * @param theta 1/(λ + s), largest first
   * @param vectors one for each, xᵀMx = 1
   */
  @SuppressWarnings("ArrayRecordComponent") // never compared
  record Found(double[] theta, double[][] vectors) {}

  private Lanczos(CholeskyFactor factor, Mass mass, int n, Sought sought) {
    this.factor = factor;
    this.mass = mass;
    this.n = n;
    this.sought = sought;
    this.span = new Span(n, Math.min(n, 2 * sought.count() + 8 * BLOCK));
  }

  /**
   * Finds the vectors of the largest θ.
   *
   * @param factor of K + sM
   * @param n number of unknowns
   * @param sought how many, at most n
   */
  static Found largest(CholeskyFactor factor, Mass mass, int n, Sought sought) {
    return new Lanczos(factor, mass, n, sought).run();
  }

  private Found run() {
    double[][] block = new double[Math.min(BLOCK, n)][];
    Arrays.setAll(block, i -> any());
    orthonormal(block);
    orthonormal(block);
    int look = sought.count();
    while (true) {
      span.add(block);
      double[][] next = applied(block);
      // A leads from a block to itself, the one before and the next
      int near = Math.max(0, span.size() - 2 * BLOCK);
      extend(near, taken(next, near));
      if (span.size() == n) {
        return found(new Inner(inner));
      }
      next = Arrays.copyOf(next, Math.min(next.length, n - span.size()));
      double[][] coupling = orthonormal(next);
      if (span.size() >= look && next.length == BLOCK) {
        Inner small = new Inner(inner);
        int missing = missing(small, coupling);
        if (missing == 0) {
          return found(small);
        }
        look = span.size() + missing / 2;
      }
      // rounding has led elsewhere too, the more so the less was left
      taken(next, 0);
      orthonormal(next);
      block = next;
    }
  }

  private double[] any() {
    double[] out = new double[n];
    for (int i = 0; i < n; i++) {
      out[i] = random.nextDouble() - 0.5;
    }
    return out;
  }

  private double[][] applied(double[][] block) {
    double[][] out = weighed(block);
    factor.solve(out);
    return out;
  }

  private double[][] weighed(double[][] block) {
    return Arrays.stream(block)
        .parallel()
        .map(
            x -> {
              double[] y = new double[n];
              mass.times(x, y);
              return y;
            })
        .toArray(double[][]::new);
  }

  /** Makes vectors orthogonal to those from one on; what they had along them, those × vectors. */
  private double[][] taken(double[][] block, int from) {
    double[][] along = span.products(from, weighed(block));
    span.take(from, along, block);
    return along;
  }

  /**
   * Makes vectors orthonormal among themselves.
   *
   * @return what each had along those before it and along itself: block × block
   */
  private double[][] orthonormal(double[][] block) {
    int b = block.length;
    double[][] along = new double[b][b];
    double[][] weighed = new double[b][n];
    for (int i = 0; i < b; i++) {
      double[] x = block[i];
      double before = norm(x, weighed[i]);
      for (int k = 0; k < i; k++) {
        along[k][i] = Dot.of(weighed[k], 0, x, 0, n);
        add(-along[k][i], block[k], x);
      }
      double left = norm(x, weighed[i]);
      if (left > DEPENDENT * before) {
        along[i][i] = left;
      } else {
        // the space is exhausted this way: on with any other, which nothing leads to
        block[i] = any();
        x = block[i];
        for (int k = 0; k < i; k++) {
          add(-Dot.of(weighed[k], 0, x, 0, n), block[k], x);
        }
        left = norm(x, weighed[i]);
      }
      scale(x, 1 / left);
      scale(weighed[i], 1 / left);
    }
    return along;
  }

  /** √xᵀMx; writes Mx. */
  private double norm(double[] x, double[] weighed) {
    mass.times(x, weighed);
    return Math.sqrt(Dot.of(x, 0, weighed, 0, n));
  }

  private static void add(double factor, double[] from, double[] to) {
    for (int i = 0; i < to.length; i++) {
      to[i] += factor * from[i];
    }
  }

  private static void scale(double[] x, double factor) {
    for (int i = 0; i < x.length; i++) {
      x[i] *= factor;
    }
  }

  /** Enters what the last block had, once sent through A, along the vectors from one on. */
  private void extend(int from, double[][] along) {
    int before = inner.length;
    int now = span.size();
    double[][] larger = new double[now][now];
    for (int i = 0; i < before; i++) {
      System.arraycopy(inner[i], 0, larger[i], 0, before);
    }
    for (int i = from; i < now; i++) {
      for (int k = before; k < now; k++) {
        double there = along[i - from][k - before];
        double back = i < before ? there : along[k - from][i - before];
        larger[i][k] = (there + back) / 2;
        larger[k][i] = larger[i][k];
      }
    }
    inner = larger;
  }

  /** Modes of A within the span. */
  private static final class Inner {
    private final EigenDecomposition_F64<DMatrixRMaj> eigen;
    private final int[] order;

    Inner(double[][] matrix) {
      int m = matrix.length;
      eigen = DecompositionFactory_DDRM.eig(m, true, true);
      if (!eigen.decompose(new DMatrixRMaj(matrix))) {
        throw new IllegalStateException("no modes within the Lanczos vectors");
      }
      order =
          IntStream.range(0, m)
              .boxed()
              .sorted((a, b) -> Double.compare(value(b), value(a)))
              .mapToInt(Integer::intValue)
              .toArray();
    }

    private double value(int number) {
      return eigen.getEigenvalue(number).getReal();
    }

    double theta(int mode) {
      return value(order[mode]);
    }

    double[] weights(int mode) {
      return eigen.getEigenVector(order[mode]).data;
    }
  }

  /** How many vectors A would still add more than a little to. */
  private int missing(Inner small, double[][] coupling) {
    int last = inner.length - BLOCK;
    int missing = 0;
    for (int mode = 0; mode < sought.count(); mode++) {
      double[] weights = small.weights(mode);
      double square = 0;
      for (int i = 0; i < BLOCK; i++) {
        double sum = 0;
        for (int k = i; k < BLOCK; k++) {
          sum += coupling[i][k] * weights[last + k];
        }
        square += sum * sum;
      }
      double most = mode < sought.exact() ? TOLERANCE : ROUGH;
      missing += Math.sqrt(square) > most * small.theta(mode) ? 1 : 0;
    }
    return missing;
  }

  private Found found(Inner small) {
    DMatrixRMaj weights = new DMatrixRMaj(sought.count(), inner.length);
    double[] theta = new double[sought.count()];
    for (int mode = 0; mode < sought.count(); mode++) {
      theta[mode] = small.theta(mode);
      System.arraycopy(small.weights(mode), 0, weights.data, mode * inner.length, inner.length);
    }
    return new Found(theta, span.sums(weights));
  }
}
