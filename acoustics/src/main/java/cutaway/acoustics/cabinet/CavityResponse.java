package cutaway.acoustics.cabinet;

import cutaway.acoustics.modes.Modes;
import cutaway.acoustics.modes.SymmetricSum;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.ejml.data.Complex_F64;
import org.ejml.data.DMatrixRMaj;
import org.ejml.data.ZMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;
import org.ejml.dense.row.CommonOps_ZDRM;
import org.ejml.dense.row.NormOps_ZDRM;
import org.ejml.dense.row.factory.LinearSolverFactory_ZDRM;
import org.hipparchus.complex.Complex;

/**
 * How patches in a box hear each other through the air and the lining: mean pressure over one for a
 * volume velocity through another.
 *
 * <p>The finite-element matrices are projected once onto a basis that does not depend on frequency:
 * modes of the bare room, modes with heavy air in the lining, and what each patch excites at rest
 * and a little above. After that each frequency costs one small complex solve. Derived in {@code
 * docs/methods/cavity.md}.
 */
public final class CavityResponse {
  private static final int ORDER = 6;
  private static final double HALF_WAVES = 1.6;

  /** Weight of the lining's air in the second set of modes, as it is at some hundred hertz. */
  private static final double HEAVY = 4;

  /** Vectors that lie in the span of others but for this share of their length are left out. */
  private static final double DEPENDENT = 1e-5;

  /** Modes are taken to this multiple of the highest wavenumber. */
  private static final double BEYOND = 1.5;

  private static final int PASSES = 24;
  private static final int STEPS = 8;

  /** Of rooms from their bare waves: how many fade in a lining, and to which powers. */
  private static final int FADING = 12;

  private static final int POWERS = 2;

  /** Such functions that differ from the others by less than this share are left out. */
  private static final double FADES_APART = 1e-3;

  private final double volume;
  private final int patches;
  private final double[][] bareStiffness;
  private final double[][] linedStiffness;
  private final double[][] bareMass;
  private final double[][] linedMass;
  private final double[][] drives;
  private final int unknowns;

  private CavityResponse(
      double volume,
      int unknowns,
      double[][] bareStiffness,
      double[][] linedStiffness,
      double[][] bareMass,
      double[][] linedMass,
      double[][] drives) {
    this.volume = volume;
    this.unknowns = unknowns;
    this.bareStiffness = bareStiffness;
    this.linedStiffness = linedStiffness;
    this.bareMass = bareMass;
    this.linedMass = linedMass;
    this.drives = drives;
    this.patches = drives.length;
  }

  /**
   * Sets up.
   *
   * @param box the room, with flat walls
   * @param lining thickness on each lined wall, m
   * @param patches where air is driven or pressure heard
   * @param wavenumber highest 2πf/c that will be asked for, rad/m
   * @throws ImpossibleShapeException where a patch lies outside the room or lining fills it
   */
  public static CavityResponse of(
      EightCorners box, Map<Face, Double> lining, List<Patch> patches, double wavenumber) {
    LayeredCells cells =
        new LayeredCells(box, lining, patches, BEYOND * wavenumber, HALF_WAVES * BEYOND);
    CavityMesh mesh = new CavityMesh(cells.cells(), cells.lined(), ORDER, ORDER, ORDER);
    List<double[]> loads = new ArrayList<>();
    for (Patch patch : patches) {
      loads.add(load(mesh, patch));
    }
    double[] mass = mesh.mass(1, 1);
    List<double[]> basis = new ArrayList<>();
    int modes = 4 + (int) ModeCount.below(BEYOND * wavenumber, box.volume());
    span(mesh, 1, modes, loads, mass, basis);
    if (mesh.hasLining()) {
      span(mesh, HEAVY, modes, loads, mass, basis);
    }
    return new CavityResponse(
        mesh.volume(),
        mesh.size(),
        project(mesh.stiffness(1, 0), basis),
        project(mesh.stiffness(0, 1), basis),
        project(mesh.mass(1, 0), basis),
        project(mesh.mass(0, 1), basis),
        products(loads, basis));
  }

  /**
   * Sets up from the waves of the bare room and what fades in the lining: for rooms of any shape,
   * and quick. {@code docs/methods/cavity.md} tells how near it comes.
   *
   * @param cavity the bare room's waves, some dozens
   * @param room the same room's walls
   * @param lining thickness on each wall, m, 0 for none
   * @param means mean pressure of each wave over each patch where air is driven or pressure heard
   */
  public static CavityResponse ofWaves(
      Cavity cavity, Enclosure room, double[] lining, double[][] means) {
    int waves = cavity.size() + 1;
    int[] lined = IntStream.range(0, lining.length).filter(w -> lining[w] > 0).toArray();
    int n = waves + FADING * POWERS * lined.length;
    double scale = 1 / Math.sqrt(room.volume());
    double[][] linedStiffness = new double[n][n];
    double[][] linedMass = new double[n][n];
    List<Layer.Face> faces =
        IntStream.range(0, lining.length).mapToObj(w -> Layer.Face.of(room, w)).toList();
    Layer layer = Layer.of(room, lining);
    for (int i = 0; i < layer.points().size(); i++) {
      Point p = layer.points().get(i);
      Optional<double[][]> at = cavity.around(p);
      if (at.isPresent()) {
        double[][] all = withFading(at.get(), n, p, faces, lined, lining);
        double weight = layer.volumes().get(i) * scale * scale;
        addSquares(linedMass, all[0], weight);
        for (int axis = 1; axis < 4; axis++) {
          addSquares(linedStiffness, all[axis], weight);
        }
      }
    }
    double[][] bareStiffness = new double[n][n];
    double[][] bareMass = new double[n][n];
    // what fades is nowhere but in the lining
    for (int i = 0; i < waves; i++) {
      double k = i == 0 ? 0 : cavity.wavenumber(i - 1);
      for (int j = 0; j < waves; j++) {
        bareStiffness[i][j] = (i == j ? k * k : 0) - linedStiffness[i][j];
        bareMass[i][j] = (i == j ? 1 : 0) - linedMass[i][j];
      }
    }
    double[][] drives = new double[means.length][n];
    for (int p = 0; p < drives.length; p++) {
      drives[p][0] = scale;
      for (int i = 1; i < waves; i++) {
        drives[p][i] = scale * means[p][i - 1];
      }
    }
    DMatrixRMaj basis = independent(bareMass, linedMass);
    return new CavityResponse(
        room.volume(),
        cavity.unknowns(),
        within(basis, bareStiffness),
        within(basis, linedStiffness),
        within(basis, bareMass),
        within(basis, linedMass),
        driven(drives, basis));
  }

  /**
   * Orthonormal sums of the functions under the mass, those that depend on earlier ones left out.
   */
  private static DMatrixRMaj independent(double[][] bareMass, double[][] linedMass) {
    int n = bareMass.length;
    double[][] gram = new double[n][n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        gram[i][j] = bareMass[i][j] + linedMass[i][j];
      }
    }
    List<double[]> basis = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      double[] v = new double[n];
      v[i] = 1;
      double before = Math.sqrt(product(v, gram, v));
      for (int pass = 0; pass < 2; pass++) {
        for (double[] other : basis) {
          double share = product(v, gram, other);
          for (int k = 0; k < n; k++) {
            v[k] -= share * other[k];
          }
        }
      }
      double after = Math.sqrt(Math.max(0, product(v, gram, v)));
      if (after > FADES_APART * before) {
        for (int k = 0; k < n; k++) {
          v[k] /= after;
        }
        basis.add(v);
      }
    }
    DMatrixRMaj out = new DMatrixRMaj(n, basis.size());
    for (int c = 0; c < basis.size(); c++) {
      for (int r = 0; r < n; r++) {
        out.set(r, c, basis.get(c)[r]);
      }
    }
    return out;
  }

  private static double product(double[] a, double[][] matrix, double[] b) {
    double sum = 0;
    for (int i = 0; i < a.length; i++) {
      if (a[i] != 0) {
        double row = 0;
        for (int k = 0; k < b.length; k++) {
          row += matrix[i][k] * b[k];
        }
        sum += a[i] * row;
      }
    }
    return sum;
  }

  private static double[][] within(DMatrixRMaj basis, double[][] matrix) {
    DMatrixRMaj half = new DMatrixRMaj(basis.numRows, basis.numCols);
    DMatrixRMaj out = new DMatrixRMaj(basis.numCols, basis.numCols);
    CommonOps_DDRM.mult(new DMatrixRMaj(matrix), basis, half);
    CommonOps_DDRM.multTransA(basis, half, out);
    return rows(out);
  }

  private static double[][] driven(double[][] drives, DMatrixRMaj basis) {
    if (drives.length == 0) {
      return drives;
    }
    DMatrixRMaj out = new DMatrixRMaj(drives.length, basis.numCols);
    CommonOps_DDRM.mult(new DMatrixRMaj(drives), basis, out);
    return rows(out);
  }

  private static double[][] rows(DMatrixRMaj matrix) {
    double[][] out = new double[matrix.numRows][];
    for (int i = 0; i < out.length; i++) {
      out[i] = Arrays.copyOfRange(matrix.data, i * matrix.numCols, (i + 1) * matrix.numCols);
    }
    return out;
  }

  /**
   * Adds the lowest waves times powers of what rises from 0 at each lining's face to 1 at its wall.
   */
  private static double[][] withFading(
      double[][] waves, int n, Point p, List<Layer.Face> faces, int[] lined, double[] lining) {
    double[][] out = new double[4][];
    for (int row = 0; row < 4; row++) {
      out[row] = Arrays.copyOf(waves[row], n);
    }
    int next = waves[0].length;
    for (int wall : lined) {
      Plane plane = faces.get(wall).plane();
      double g = Math.max(0, 1 - faces.get(wall).depth(p) / lining[wall]);
      for (int power = 1; power <= POWERS; power++) {
        double value = Math.pow(g, power);
        double slope = g == 0 ? 0 : power * Math.pow(g, power - 1) / lining[wall];
        double[] along = {
          0, slope * plane.normal().x(), slope * plane.normal().y(), slope * plane.normal().z()
        };
        for (int wave = 0; wave < FADING; wave++) {
          for (int row = 0; row < 4; row++) {
            out[row][next] = waves[row][wave] * value + waves[0][wave] * along[row];
          }
          next++;
        }
      }
    }
    return out;
  }

  private static void addSquares(double[][] to, double[] v, double weight) {
    for (int i = 0; i < v.length; i++) {
      for (int j = 0; j < v.length; j++) {
        to[i][j] += weight * v[i] * v[j];
      }
    }
  }

  private static double[] load(CavityMesh mesh, Patch patch) {
    double[] out = new double[mesh.size()];
    for (int i = 0; i < patch.points().size(); i++) {
      Point p = patch.points().get(i);
      mesh.find(p)
          .orElseThrow(
              () ->
                  new ImpossibleShapeException(
                      String.format(
                          "the point %.3f, %.3f, %.3f m lies outside the room",
                          p.x(), p.y(), p.z())))
          .addTo(out, patch.weights().get(i));
    }
    return out;
  }

  /** Adds modes with lining so heavy, and for each load what it excites at rest and above. */
  private static void span(
      CavityMesh mesh,
      double heavy,
      int count,
      List<double[]> loads,
      double[] mass,
      List<double[]> basis) {
    double[] weighed = mesh.mass(1, heavy);
    double shift = Math.pow(mesh.volume(), -2.0 / 3);
    Modes modes =
        Modes.lowest(
            mesh.stiffness(1, 1 / heavy), weighed, shift, Math.min(count, mesh.size() - 1));
    for (int i = 0; i < modes.size(); i++) {
      add(modes.shape(i), mass, basis);
    }
    for (double[] load : loads) {
      double[] x = load;
      for (int order = 0; order < 3; order++) {
        double[] next = new double[x.length];
        modes.solveShifted(x, next);
        add(next, mass, basis);
        x = next.clone();
        for (int i = 0; i < x.length; i++) {
          x[i] *= weighed[i];
        }
      }
    }
  }

  /** Adds a vector, made orthonormal to those before it under the mass; twice, for rounding. */
  private static void add(double[] vector, double[] mass, List<double[]> basis) {
    double[] v = vector.clone();
    double before = Math.sqrt(product(v, mass, v));
    for (int pass = 0; pass < 2; pass++) {
      for (double[] b : basis) {
        double share = product(v, mass, b);
        for (int i = 0; i < v.length; i++) {
          v[i] -= share * b[i];
        }
      }
    }
    double after = Math.sqrt(product(v, mass, v));
    if (after > DEPENDENT * before) {
      for (int i = 0; i < v.length; i++) {
        v[i] /= after;
      }
      basis.add(v);
    }
  }

  private static double product(double[] a, double[] mass, double[] b) {
    double sum = 0;
    for (int i = 0; i < a.length; i++) {
      sum += a[i] * mass[i] * b[i];
    }
    return sum;
  }

  private static double[][] project(SymmetricSum matrix, List<double[]> basis) {
    double[][] out = new double[basis.size()][basis.size()];
    double[] y = new double[matrix.size()];
    for (int i = 0; i < basis.size(); i++) {
      matrix.multiply(basis.get(i), y);
      for (int k = 0; k <= i; k++) {
        double sum = 0;
        for (int n = 0; n < y.length; n++) {
          sum += y[n] * basis.get(k)[n];
        }
        out[i][k] = sum;
        out[k][i] = sum;
      }
    }
    return out;
  }

  private static double[][] project(double[] diagonal, List<double[]> basis) {
    double[][] out = new double[basis.size()][basis.size()];
    for (int i = 0; i < basis.size(); i++) {
      for (int k = 0; k <= i; k++) {
        out[i][k] = product(basis.get(i), diagonal, basis.get(k));
        out[k][i] = out[i][k];
      }
    }
    return out;
  }

  private static double[][] products(List<double[]> loads, List<double[]> basis) {
    double[][] out = new double[loads.size()][basis.size()];
    for (int l = 0; l < loads.size(); l++) {
      for (int i = 0; i < basis.size(); i++) {
        double sum = 0;
        for (int n = 0; n < loads.get(l).length; n++) {
          sum += loads.get(l)[n] * basis.get(i)[n];
        }
        out[l][i] = sum;
      }
    }
    return out;
  }

  /** Number of unknowns before the projection. */
  public int unknowns() {
    return unknowns;
  }

  /** Number of vectors in the basis. */
  public int basis() {
    return bareStiffness.length;
  }

  /**
   * Mean pressures over every patch for 1 m³/s into the room through each, Pa·s/m³, symmetric.
   *
   * @param frequency Hz
   * @param air what fills the room
   * @param lining what the lining is like at this frequency; not looked at where there is none
   */
  public Complex[][] impedance(double frequency, Fluid air, Fluid lining) {
    double omega = 2 * Math.PI * frequency;
    int n = basis();
    ZMatrixRMaj matrix =
        mixed(
            air.density().reciprocal(), bareStiffness,
            lining.density().reciprocal(), linedStiffness);
    ZMatrixRMaj mass =
        mixed(
            air.bulk().reciprocal().multiply(-omega * omega), bareMass,
            lining.bulk().reciprocal().multiply(-omega * omega), linedMass);
    CommonOps_ZDRM.add(matrix, mass, matrix);
    ZMatrixRMaj right = new ZMatrixRMaj(n, patches);
    for (int i = 0; i < n; i++) {
      for (int p = 0; p < patches; p++) {
        right.set(i, p, 0, omega * drives[p][i]);
      }
    }
    ZMatrixRMaj found = new ZMatrixRMaj(n, patches);
    var solver = LinearSolverFactory_ZDRM.lu(n);
    if (!solver.setA(matrix)) {
      throw new IllegalStateException("no answer at " + frequency + " Hz");
    }
    solver.solve(right, found);
    return heard(found);
  }

  /**
   * Compliance of air and lining under one pressure, m³/Pa.
   *
   * @param air what fills the room
   * @param lining what the lining is like
   */
  public Complex compliance(Fluid air, Fluid lining) {
    // the first vector of the basis is even pressure, of mean square one over the bare volume
    double whole = volume;
    double lined = linedMass[0][0] * whole;
    return air.bulk()
        .reciprocal()
        .multiply(whole - lined)
        .add(lining.bulk().reciprocal().multiply(lined));
  }

  /**
   * The lowest standing waves with their damping: ω of e^{jωt}, rad/s; Q = Re ω/(2 Im ω). Each is
   * followed from the bare room's wave by inverse iteration, kept apart from those before it.
   *
   * @param frequencies of the bare room's waves, lowest first, Hz
   * @param air what fills the room
   * @param lining how the lining is at a frequency
   */
  public List<Complex> resonances(double[] frequencies, Fluid air, StandingWaves.Lining lining) {
    List<Path> found = new ArrayList<>();
    for (int wave = 0; wave < frequencies.length; wave++) {
      found.add(follow(wave, frequencies[wave], air, lining, found));
    }
    return found.stream().map(p -> p.square().sqrt()).toList();
  }

  /** How a wave's shape went from bare to lined, and its ω² there. */
  private record Path(List<ZMatrixRMaj> shapes, Complex square) {
    ZMatrixRMaj at(int pass) {
      return shapes.get(Math.min(pass, shapes.size() - 1));
    }
  }

  private Path follow(
      int wave, double frequency, Fluid air, StandingWaves.Lining lining, List<Path> before) {
    int n = basis();
    ZMatrixRMaj x = new ZMatrixRMaj(n, 1);
    x.set(wave + 1, 0, 1, 0);
    Complex square = new Complex(Math.pow(2 * Math.PI * frequency, 2));
    List<ZMatrixRMaj> shapes = new ArrayList<>();
    for (int pass = 0; pass < PASSES; pass++) {
      double f = square.sqrt().getReal() / (2 * Math.PI);
      // from bare air to fibre in steps, so that the wave is followed and not lost to another
      double share = Math.min(1, (pass + 1.0) / STEPS);
      Fluid fibre = air.towards(lining.at(f), share);
      ZMatrixRMaj k =
          mixed(
              air.density().reciprocal(), bareStiffness,
              fibre.density().reciprocal(), linedStiffness);
      ZMatrixRMaj m =
          mixed(air.bulk().reciprocal(), bareMass, fibre.bulk().reciprocal(), linedMass);
      for (Path other : before) {
        keepApart(x, other.at(pass), m);
      }
      ZMatrixRMaj mx = new ZMatrixRMaj(n, 1);
      CommonOps_ZDRM.mult(m, x, mx);
      Complex found = quotient(x, k, mx);
      boolean done = share == 1 && found.subtract(square).norm() < 1e-9 * found.norm();
      square = found;
      ZMatrixRMaj shifted = new ZMatrixRMaj(n, n);
      CommonOps_ZDRM.elementMultiply(m, square.getReal(), square.getImaginary(), shifted);
      CommonOps_ZDRM.subtract(k, shifted, shifted);
      var solver = LinearSolverFactory_ZDRM.lu(n);
      if (done || !solver.setA(shifted)) {
        break;
      }
      solver.solve(mx, x);
      CommonOps_ZDRM.elementDivide(x, NormOps_ZDRM.normF(x), 0, x);
      shapes.add(x.copy());
    }
    return new Path(shapes, square);
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

  /** aA + bB. */
  private static ZMatrixRMaj mixed(Complex a, double[][] first, Complex b, double[][] second) {
    int n = first.length;
    ZMatrixRMaj out = new ZMatrixRMaj(n, n);
    for (int i = 0; i < n; i++) {
      for (int k = 0; k < n; k++) {
        out.set(
            i,
            k,
            a.getReal() * first[i][k] + b.getReal() * second[i][k],
            a.getImaginary() * first[i][k] + b.getImaginary() * second[i][k]);
      }
    }
    return out;
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

  private Complex[][] heard(ZMatrixRMaj found) {
    Complex[][] out = new Complex[patches][patches];
    Complex_F64 x = new Complex_F64();
    for (int p = 0; p < patches; p++) {
      for (int q = 0; q < patches; q++) {
        double re = 0;
        double im = 0;
        for (int i = 0; i < basis(); i++) {
          found.get(i, q, x);
          re += drives[p][i] * x.getReal();
          im += drives[p][i] * x.getImaginary();
        }
        out[p][q] = new Complex(re, im);
      }
    }
    return out;
  }
}
