package cutaway.acoustics.knock;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;
import org.ejml.dense.row.factory.DecompositionFactory_DDRM;
import org.ejml.interfaces.decomposition.QRDecomposition;
import org.jspecify.annotations.Nullable;

/**
 * Decaying sines in several decays: the same poles, an amplitude and phase for each decay, and how
 * well the decays tell the poles.
 *
 * <p>Least squares with the amplitudes eliminated (G. H. Golub and V. Pereyra, SIAM J. Numer. Anal.
 * 10 (1973) 413; L. Kaufman, BIT 15 (1975) 49; both from memory).
 */
final class RingDown {
  /** Steps of the refinement at most, its damping, and the gain that ends it. */
  private static final int STEPS = 8;

  private static final double LEAST_DAMPING = 1e-3;
  private static final double MOST_DAMPING = 10;
  private static final double SETTLED = 1e-4;

  /** Share of itself that a decay may lose; it may double. */
  private static final double MOST_LOST = 0.7;

  private final List<double[]> decays;
  private final double rate;

  /** Decay and angular frequency of each pole, 1/s and rad/s. */
  private final double[] poles;

  private final Fit fit;

  /** For each decay; found when first asked for. */
  private @Nullable List<Slopes> slopes;

  /** What one set of poles leaves over. */
  @SuppressWarnings("ArrayRecordComponent")
  private record Fit(
      double squares,
      List<double[]> residuals,
      List<double[]> amplitudes,
      List<Basis> bases,
      double[] extraSquares) {}

  /** How one decay's fit changes with the poles, J: JᵀJ, and Jᵀ times what it leaves over. */
  @SuppressWarnings("ArrayRecordComponent")
  private record Slopes(DMatrixRMaj normal, double[] gradient) {}

  private RingDown(List<double[]> decays, double rate, double[] poles) {
    this.decays = decays;
    this.rate = rate;
    this.poles = poles;
    this.fit = evaluate(poles);
  }

  /**
   * Fits the amplitudes.
   *
   * @param decays samples of each, from some time after the force
   * @param rate Hz
   * @param poles decay (1/s) and angular frequency (rad/s) of each in turn
   */
  static RingDown of(List<double[]> decays, double rate, double[] poles) {
    return new RingDown(decays, rate, poles.clone());
  }

  /**
   * Moves the poles to where they leave less, by damped Gauss–Newton steps (K. Levenberg, Quart.
   * Appl. Math. 2 (1944) 164, from memory), no frequency by more than half its half-power width.
   */
  RingDown refined() {
    RingDown best = this;
    double damping = LEAST_DAMPING;
    for (int step = 0; step < STEPS && damping < MOST_DAMPING; step++) {
      RingDown tried = new RingDown(decays, rate, moved(best, damping));
      if (tried.fit.squares() < best.fit.squares()) {
        boolean settled = tried.fit.squares() > best.fit.squares() * (1 - SETTLED);
        best = tried;
        damping /= 5;
        if (settled) {
          return best;
        }
      } else {
        damping = Math.max(LEAST_DAMPING, 10 * damping);
      }
    }
    return best;
  }

  private double[] moved(RingDown from, double damping) {
    double[] gradient = new double[poles.length];
    for (Slopes its : from.slopes()) {
      for (int i = 0; i < gradient.length; i++) {
        gradient[i] += its.gradient()[i];
      }
    }
    double[] move = solved(from.normal(), gradient, damping);
    double[] out = new double[poles.length];
    for (int i = 0; i < out.length; i++) {
      double decay = poles[i / 2 * 2];
      double down = i % 2 == 0 ? MOST_LOST * decay : decay;
      double to = from.poles[i] + move[i];
      out[i] = Math.max(poles[i] - down, Math.min(poles[i] + decay, to));
    }
    return out;
  }

  /** Σ JᵀJ. */
  private DMatrixRMaj normal() {
    DMatrixRMaj out = new DMatrixRMaj(poles.length, poles.length);
    for (Slopes its : slopes()) {
      CommonOps_DDRM.addEquals(out, its.normal());
    }
    return out;
  }

  private List<Slopes> slopes() {
    if (slopes == null) {
      IdentityHashMap<Basis, Bent> bents = new IdentityHashMap<>();
      slopes =
          IntStream.range(0, decays.size())
              .mapToObj(d -> slopes(d, bents.computeIfAbsent(fit.bases().get(d), this::bent)))
              .toList();
    }
    return slopes;
  }

  private Slopes slopes(int decay, Bent bent) {
    double[] amplitude = fit.amplitudes().get(decay);
    double[] residual = fit.residuals().get(decay);
    int n = poles.length;
    DMatrixRMaj onto = new DMatrixRMaj(n, 1);
    CommonOps_DDRM.multTransA(bent.columns(), DMatrixRMaj.wrap(residual.length, 1, residual), onto);
    DMatrixRMaj mixed = mixed(bent.gram(), amplitude);
    CommonOps_DDRM.transpose(mixed);
    return new Slopes(mixed(mixed, amplitude), mixed(onto, amplitude).data);
  }

  /**
   * Rows of pairs (u, v) as those of (au + bv, bu − av): what a pair of amplitudes a, b makes of
   * the slopes of its shapes.
   */
  private static DMatrixRMaj mixed(DMatrixRMaj pairs, double[] amplitude) {
    DMatrixRMaj out = new DMatrixRMaj(pairs.numRows, pairs.numCols);
    for (int k = 0; k < pairs.numRows; k += 2) {
      double a = amplitude[k];
      double b = amplitude[k + 1];
      for (int c = 0; c < pairs.numCols; c++) {
        double u = pairs.get(k, c);
        double v = pairs.get(k + 1, c);
        out.set(k, c, a * u + b * v);
        out.set(k + 1, c, b * u - a * v);
      }
    }
    return out;
  }

  /** Solves (N + λ diag N) x = g. */
  private static double[] solved(DMatrixRMaj normal, double[] g, double damping) {
    DMatrixRMaj damped = normal.copy();
    for (int i = 0; i < g.length; i++) {
      damped.set(i, i, damped.get(i, i) * (1 + damping) + 1e-300);
    }
    DMatrixRMaj x = new DMatrixRMaj(g.length, 1);
    if (!CommonOps_DDRM.solve(damped, DMatrixRMaj.wrap(g.length, 1, g.clone()), x)) {
      return new double[g.length];
    }
    return x.data;
  }

  /** Shapes of one length and their orthogonal factors: decays as long share them. */
  private record Basis(DMatrixRMaj shapes, DMatrixRMaj q, DMatrixRMaj r, DMatrixRMaj inverse) {
    static Basis of(DMatrixRMaj all, int length) {
      DMatrixRMaj shapes = CommonOps_DDRM.extract(all, 0, length, 0, all.numCols);
      QRDecomposition<DMatrixRMaj> qr = DecompositionFactory_DDRM.qr(length, all.numCols);
      qr.decompose(shapes.copy());
      DMatrixRMaj r = qr.getR(null, true);
      return new Basis(shapes, qr.getQ(null, true), r, inverted(r));
    }
  }

  /** Slopes of the shapes, and their products: decays as long share them too. */
  private record Bent(DMatrixRMaj columns, DMatrixRMaj gram) {}

  private static DMatrixRMaj inverted(DMatrixRMaj r) {
    int n = r.numCols;
    DMatrixRMaj out = new DMatrixRMaj(n, n);
    for (int c = 0; c < n; c++) {
      double[] unit = new double[n];
      unit[c] = 1;
      double[] column = backwards(r, unit);
      for (int i = 0; i < n; i++) {
        out.set(i, c, column[i]);
      }
    }
    return out;
  }

  private Fit evaluate(double[] at) {
    double squares = 0;
    List<double[]> residuals = new ArrayList<>();
    List<double[]> amplitudes = new ArrayList<>();
    List<Basis> used = new ArrayList<>();
    int longest = decays.stream().mapToInt(y -> y.length).max().orElseThrow();
    DMatrixRMaj all = shapes(at, longest);
    int n = at.length;
    double[] extraSquares = new double[n / 2];
    Map<Integer, Basis> bases = new HashMap<>();
    for (double[] y : decays) {
      Basis basis = bases.computeIfAbsent(y.length, length -> Basis.of(all, length));
      DMatrixRMaj q = basis.q();
      DMatrixRMaj r = basis.r();
      DMatrixRMaj data = DMatrixRMaj.wrap(y.length, 1, y.clone());
      DMatrixRMaj onto = new DMatrixRMaj(n, 1);
      CommonOps_DDRM.multTransA(q, data, onto);
      double[] amplitude = backwards(r, onto.data);
      CommonOps_DDRM.multAdd(-1, q, onto, data);
      for (double value : data.data) {
        squares += value * value;
      }
      residuals.add(data.data);
      amplitudes.add(amplitude);
      used.add(basis);
      addExtraSquares(extraSquares, basis.inverse(), amplitude);
    }
    return new Fit(squares, residuals, amplitudes, used, extraSquares);
  }

  private static double[] backwards(DMatrixRMaj r, double[] b) {
    double[] x = b.clone();
    for (int i = x.length - 1; i >= 0; i--) {
      for (int k = i + 1; k < x.length; k++) {
        x[i] -= r.get(i, k) * x[k];
      }
      x[i] /= r.get(i, i) == 0 ? 1e-300 : r.get(i, i);
    }
    return x;
  }

  /**
   * Adds what the sum of squares would rise by without each pole: aᵀC⁻¹a, with C the block of
   * (RᵀR)⁻¹ that belongs to its pair of amplitudes a.
   */
  private static void addExtraSquares(double[] sums, DMatrixRMaj inverse, double[] amplitude) {
    for (int i = 0; i < amplitude.length; i += 2) {
      double xx = 0;
      double xy = 0;
      double yy = 0;
      for (int k = i; k < amplitude.length; k++) {
        xx += inverse.get(i, k) * inverse.get(i, k);
        xy += inverse.get(i, k) * inverse.get(i + 1, k);
        yy += inverse.get(i + 1, k) * inverse.get(i + 1, k);
      }
      double x = amplitude[i];
      double y = amplitude[i + 1];
      sums[i / 2] += (yy * x * x - 2 * xy * x * y + xx * y * y) / (xx * yy - xy * xy);
    }
  }

  /** Columns e^{−αt} cos ωt and −e^{−αt} sin ωt: the real part of a complex amplitude's decay. */
  private DMatrixRMaj shapes(double[] at, int length) {
    DMatrixRMaj out = new DMatrixRMaj(length, at.length);
    for (int k = 0; k < at.length; k += 2) {
      for (int i = 0; i < length; i++) {
        double t = i / rate;
        double e = Math.exp(-at[k] * t);
        out.set(i, k, e * Math.cos(at[k + 1] * t));
        out.set(i, k + 1, -e * Math.sin(at[k + 1] * t));
      }
    }
    return out;
  }

  /**
   * Times t, less what of it lies within the shapes: with amplitudes a and b, of columns C and S, a
   * decay's sum changes by −t(aC + bS) with α and by −t(bC − aS) with ω.
   */
  private Bent bent(Basis basis) {
    DMatrixRMaj q = basis.q();
    DMatrixRMaj columns = basis.shapes().copy();
    int n = columns.numCols;
    for (int i = 0; i < columns.numRows; i++) {
      for (int k = 0; k < n; k++) {
        columns.set(i, k, -i / rate * columns.get(i, k));
      }
    }
    DMatrixRMaj within = new DMatrixRMaj(n, n);
    CommonOps_DDRM.multTransA(q, columns, within);
    CommonOps_DDRM.multAdd(-1, q, within, columns);
    DMatrixRMaj gram = new DMatrixRMaj(n, n);
    CommonOps_DDRM.multInner(columns, gram);
    return new Bent(columns, gram);
  }

  /** Number of poles. */
  int size() {
    return poles.length / 2;
  }

  /** Decay of a pole, 1/s. */
  double decay(int pole) {
    return poles[2 * pole];
  }

  /** Angular frequency of a pole, rad/s. */
  double omega(int pole) {
    return poles[2 * pole + 1];
  }

  /** Amplitude of a pole in a decay at its first sample: real and imaginary part. */
  double[] amplitude(int decay, int pole) {
    double[] all = fit.amplitudes().get(decay);
    return new double[] {all[2 * pole], all[2 * pole + 1]};
  }

  /** Extra sum of squares: by how much what is left would rise without a pole. */
  double extraSquares(int pole) {
    return fit.extraSquares()[pole];
  }

  /** What is left of each decay. */
  List<double[]> residuals() {
    return fit.residuals();
  }

  /** Covariance of decays and frequencies for a residual of variance one. */
  DMatrixRMaj covariance() {
    DMatrixRMaj normal = normal();
    int n = normal.numRows;
    // scaled, so that decays and frequencies weigh alike
    double[] scale = new double[n];
    for (int i = 0; i < n; i++) {
      scale[i] = 1 / Math.sqrt(Math.max(normal.get(i, i), 1e-300));
    }
    for (int i = 0; i < n; i++) {
      for (int k = 0; k < n; k++) {
        double lift = i == k ? 1 + 1e-12 : 1;
        normal.set(i, k, normal.get(i, k) * scale[i] * scale[k] * lift);
      }
    }
    DMatrixRMaj out = new DMatrixRMaj(n, n);
    if (!CommonOps_DDRM.invert(normal, out)) {
      out.fill(Double.POSITIVE_INFINITY);
      return out;
    }
    for (int i = 0; i < n; i++) {
      for (int k = 0; k < n; k++) {
        out.set(i, k, out.get(i, k) * scale[i] * scale[k]);
      }
    }
    return out;
  }

  /**
   * How each pole would move if one of the decays were left out, to first order; decays × poles ×
   * 2. Empty for one decay.
   */
  List<double[]> leftOut() {
    List<double[]> out = new ArrayList<>();
    DMatrixRMaj all = normal();
    for (int d = 0; d < decays.size() && decays.size() > 1; d++) {
      Slopes its = slopes().get(d);
      DMatrixRMaj rest = all.copy();
      CommonOps_DDRM.subtractEquals(rest, its.normal());
      double[] move = solved(rest, its.gradient(), 1e-12);
      for (int i = 0; i < move.length; i++) {
        move[i] = -move[i];
      }
      out.add(move);
    }
    return out;
  }
}
