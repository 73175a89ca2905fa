package cutaway.acoustics.cabinet;

import cutaway.acoustics.modes.ComplexElimination;
import java.util.ArrayList;
import java.util.List;
import org.ejml.data.ZMatrixRMaj;
import org.ejml.dense.row.CommonOps_ZDRM;
import org.ejml.dense.row.NormOps_ZDRM;
import org.ejml.dense.row.factory.LinearSolverFactory_ZDRM;
import org.hipparchus.complex.Complex;

/** The standing waves of a lined room, each followed from the bare room's by inverse iteration. */
final class LinedWaves {
  private static final int PASSES = 24;
  private static final int STEPS = 8;

  /** A square of ω that changes by less is found: the next pass would cube what is left. */
  private static final double SETTLED = 1e-6;

  private final CavityResponse room;
  private final Fluid air;
  private final StandingWaves.Lining lining;

  LinedWaves(CavityResponse room, Fluid air, StandingWaves.Lining lining) {
    this.room = room;
    this.air = air;
    this.lining = lining;
  }

  /** ω of each with its damping, rad/s; of the bare room's frequencies, lowest first, Hz. */
  List<Complex> resonances(double[] frequencies) {
    List<Path> found = new ArrayList<>();
    for (int wave = 0; wave < frequencies.length; wave++) {
      found.add(follow(wave, frequencies[wave], found));
    }
    return found.stream().map(p -> p.square().sqrt()).toList();
  }

  /** How a wave's shape went from bare to lined, and its ω² there. */
  private record Path(List<ZMatrixRMaj> shapes, Complex square) {
    ZMatrixRMaj at(int pass) {
      return shapes.get(Math.min(pass, shapes.size() - 1));
    }
  }

  private Path follow(int wave, double frequency, List<Path> before) {
    int n = room.basis();
    ZMatrixRMaj x = new ZMatrixRMaj(n, 1);
    x.set(wave + 1, 0, 1, 0);
    Complex square = new Complex(Math.pow(2 * Math.PI * frequency, 2));
    List<ZMatrixRMaj> shapes = new ArrayList<>();
    for (int pass = 0; pass < PASSES; pass++) {
      double f = square.sqrt().getReal() / (2 * Math.PI);
      // from bare air to fibre in steps, so that the wave is followed and not lost to another
      double share = Math.min(1, (pass + 1.0) / STEPS);
      Fluid fibre = air.towards(lining.at(f), share);
      ZMatrixRMaj k = room.stiffness(air, fibre);
      ZMatrixRMaj m = room.mass(air, fibre);
      for (Path other : before) {
        keepApart(x, other.at(pass), m);
      }
      ZMatrixRMaj mx = new ZMatrixRMaj(n, 1);
      CommonOps_ZDRM.mult(m, x, mx);
      Complex found = quotient(x, k, mx);
      boolean done = share == 1 && found.subtract(square).norm() < SETTLED * found.norm();
      square = found;
      ZMatrixRMaj shifted = new ZMatrixRMaj(n, n);
      CommonOps_ZDRM.elementMultiply(m, square.getReal(), square.getImaginary(), shifted);
      CommonOps_ZDRM.subtract(k, shifted, shifted);
      if (done) {
        break;
      }
      shapes.add(x.copy());
      if (!solved(shifted, mx, x)) {
        break;
      }
      double norm = NormOps_ZDRM.normF(x);
      if (!(norm < Double.POSITIVE_INFINITY)) {
        // exactly a root: x was its shape already
        break;
      }
      CommonOps_ZDRM.elementDivide(x, norm, 0, x);
      shapes.set(pass, x.copy());
    }
    if (shapes.isEmpty()) {
      shapes.add(x);
    }
    return new Path(shapes, square);
  }

  /**
   * Solves A x = b, by halves where that does, else by a solver that exchanges rows.
   *
   * @return whether there was an answer
   */
  private static boolean solved(ZMatrixRMaj a, ZMatrixRMaj b, ZMatrixRMaj x) {
    int n = a.numRows;
    double[][] re = new double[n + 1][];
    double[][] im = new double[n + 1][];
    for (int i = 0; i < n; i++) {
      re[i] = new double[n + 1 - i];
      im[i] = new double[n + 1 - i];
      for (int j = i; j < n; j++) {
        re[i][j - i] = a.data[2 * (i * n + j)];
        im[i][j - i] = a.data[2 * (i * n + j) + 1];
      }
      re[i][n - i] = b.data[2 * i];
      im[i][n - i] = b.data[2 * i + 1];
    }
    re[n] = new double[1];
    im[n] = new double[1];
    double[][] found = new double[2][n];
    if (ComplexElimination.solve(re, im, found)) {
      for (int i = 0; i < n; i++) {
        x.set(i, 0, found[0][i], found[1][i]);
      }
      return true;
    }
    var solver = LinearSolverFactory_ZDRM.lu(n);
    if (!solver.setA(a)) {
      return false;
    }
    solver.solve(b, x);
    return true;
  }

  private static Complex quotient(ZMatrixRMaj x, ZMatrixRMaj k, ZMatrixRMaj mx) {
    ZMatrixRMaj kx = new ZMatrixRMaj(x.numRows, 1);
    CommonOps_ZDRM.mult(k, x, kx);
    return product(x, kx).divide(product(x, mx));
  }

  /** Takes another shape's share out of x. */
  private static void keepApart(ZMatrixRMaj x, ZMatrixRMaj other, ZMatrixRMaj m) {
    ZMatrixRMaj weighed = new ZMatrixRMaj(x.numRows, 1);
    CommonOps_ZDRM.mult(m, other, weighed);
    Complex share = product(x, weighed).divide(product(other, weighed)).negate();
    for (int i = 0; i < x.numRows; i++) {
      Complex part = new Complex(other.getReal(i, 0), other.getImag(i, 0)).multiply(share);
      x.set(i, 0, x.getReal(i, 0) + part.getReal(), x.getImag(i, 0) + part.getImaginary());
    }
  }

  /** xᵀy, without a conjugate. */
  private static Complex product(ZMatrixRMaj x, ZMatrixRMaj y) {
    Complex sum = Complex.ZERO;
    for (int i = 0; i < x.numRows; i++) {
      sum =
          sum.add(
              new Complex(x.getReal(i, 0), x.getImag(i, 0))
                  .multiply(new Complex(y.getReal(i, 0), y.getImag(i, 0))));
    }
    return sum;
  }
}
