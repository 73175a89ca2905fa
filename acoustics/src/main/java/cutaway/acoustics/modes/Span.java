package cutaway.acoustics.modes;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.ejml.data.DMatrixRMaj;

/** Vectors that are orthonormal under a mass, and what others have along them. */
final class Span {
  /** So much of a few vectors stays near the processor. */
  private static final int STRETCH = 1024;

  private final int n;

  /** One after the other, with room for more. */
  private double[] vectors;

  private int size;

  /**
   * None yet.
   *
   * @param n length of a vector
   * @param room for so many, to begin with
   */
  Span(int n, int room) {
    this.n = n;
    this.vectors = new double[n * room];
  }

  /** How many there are. */
  int size() {
    return size;
  }

  /** Adds vectors; they are copied. */
  void add(double[][] more) {
    int needed = n * (size + more.length);
    if (needed > vectors.length) {
      vectors = Arrays.copyOf(vectors, Math.max(needed, vectors.length / 2 * 3));
    }
    for (double[] x : more) {
      System.arraycopy(x, 0, vectors, n * size++, n);
    }
  }

  /**
   * Products with the vectors.
   *
   * @param first the first of them, up to the last
   * @param others few
   * @return those vectors × others
   */
  double[][] products(int first, double[][] others) {
    int parts = (n + STRETCH - 1) / STRETCH;
    // summed in their order, however many threads there are
    double[][][] each =
        IntStream.range(0, parts)
            .parallel()
            .mapToObj(part -> products(first, others, part * STRETCH))
            .toArray(double[][][]::new);
    double[][] out = new double[size - first][others.length];
    for (double[][] part : each) {
      for (int i = 0; i < out.length; i++) {
        for (int k = 0; k < others.length; k++) {
          out[i][k] += part[i][k];
        }
      }
    }
    return out;
  }

  private double[][] products(int first, double[][] others, int from) {
    int length = Math.min(STRETCH, n - from);
    double[][] out = new double[size - first][others.length];
    for (int i = 0; i < out.length; i++) {
      for (int k = 0; k < others.length; k++) {
        out[i][k] = Dot.of(vectors, (first + i) * n + from, others[k], from, length);
      }
    }
    return out;
  }

  /** Takes from each of others so much of every vector from the first: those × others. */
  void take(int first, double[][] shares, double[][] others) {
    IntStream.range(0, (n + STRETCH - 1) / STRETCH)
        .parallel()
        .forEach(part -> take(first, shares, others, part * STRETCH));
  }

  private void take(int first, double[][] shares, double[][] others, int from) {
    int length = Math.min(STRETCH, n - from);
    for (int i = 0; i < shares.length; i++) {
      for (int k = 0; k < others.length; k++) {
        subtract(others[k], from, shares[i][k], vectors, (first + i) * n + from, length);
      }
    }
  }

  private static void subtract(
      double[] to, int at, double factor, double[] from, int first, int length) {
    for (int i = 0; i < length; i++) {
      to[at + i] -= factor * from[first + i];
    }
  }

  /**
   * Sums of the vectors.
   *
   * @param weights sums × size
   */
  double[][] sums(DMatrixRMaj weights) {
    double[][] shares = new double[size][weights.numRows];
    for (int i = 0; i < size; i++) {
      for (int k = 0; k < weights.numRows; k++) {
        shares[i][k] = -weights.get(k, i);
      }
    }
    double[][] out = new double[weights.numRows][n];
    take(0, shares, out);
    return out;
  }
}
