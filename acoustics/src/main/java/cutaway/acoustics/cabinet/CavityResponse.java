package cutaway.acoustics.cabinet;

import cutaway.acoustics.modes.ComplexElimination;
import cutaway.acoustics.modes.Modes;
import cutaway.acoustics.modes.SymmetricSum;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.ejml.data.ZMatrixRMaj;
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

  /** Where a pivot is too small, answers are looked for this share of the frequency beside it. */
  private static final double LEAST_OFF = 1e-9;

  private static final double MOST_OFF = 1e-4;

  private final double volume;
  private final int patches;
  private final double[][] bareStiffness;
  private final double[][] linedStiffness;
  private final double[][] bareMass;
  private final double[][] linedMass;
  private final double[][] drives;
  private final int unknowns;

  CavityResponse(
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
    return new WaveProjection(cavity, room, lining, means).response();
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
   * @param air what fills the room, with some loss
   * @param lining what the lining is like at this frequency; anything where there is none
   */
  public Complex[][] impedance(double frequency, Fluid air, Fluid lining) {
    // a small pivot is a chance of one frequency: a hair beside it there is none
    for (double off = 0; off < MOST_OFF; off = 10 * off + LEAST_OFF) {
      Optional<Complex[][]> found = eliminated(frequency * (1 + off), air, lining);
      if (found.isPresent()) {
        return found.get();
      }
    }
    throw new IllegalStateException("no answer at " + frequency + " Hz");
  }

  private Optional<Complex[][]> eliminated(double frequency, Fluid air, Fluid lining) {
    double omega = 2 * Math.PI * frequency;
    Complex inertia = new Complex(-omega * omega);
    Complex[] weights = {
      air.density().reciprocal(),
      lining.density().reciprocal(),
      inertia.divide(air.bulk()),
      inertia.divide(lining.bulk())
    };
    int n = basis();
    double[][] re = new double[n + patches][];
    double[][] im = new double[n + patches][];
    for (int i = 0; i < n + patches; i++) {
      re[i] = new double[n + patches - i];
      im[i] = new double[n + patches - i];
    }
    for (int i = 0; i < n; i++) {
      addRow(bareStiffness[i], weights[0], i, re[i], im[i]);
      addRow(linedStiffness[i], weights[1], i, re[i], im[i]);
      addRow(bareMass[i], weights[2], i, re[i], im[i]);
      addRow(linedMass[i], weights[3], i, re[i], im[i]);
      for (int p = 0; p < patches; p++) {
        re[i][n + p - i] = drives[p][i];
      }
    }
    return ComplexElimination.eliminate(re, im, n)
        ? Optional.of(heard(re, im, omega))
        : Optional.empty();
  }

  private static void addRow(double[] row, Complex weight, int i, double[] re, double[] im) {
    double a = weight.getReal();
    double b = weight.getImaginary();
    for (int j = i; j < row.length; j++) {
      re[j - i] += a * row[j];
      im[j - i] += b * row[j];
    }
  }

  /** What elimination left at the border is −DᵀA⁻¹D; a flow drives with jω times as much. */
  private Complex[][] heard(double[][] re, double[][] im, double omega) {
    int n = basis();
    Complex[][] out = new Complex[patches][patches];
    for (int p = 0; p < patches; p++) {
      for (int q = p; q < patches; q++) {
        out[p][q] = new Complex(omega * im[n + p][q - p], -omega * re[n + p][q - p]);
        out[q][p] = out[p][q];
      }
    }
    return out;
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
   * followed from the bare room's wave by inverse iteration, kept apart from those before it. One
   * that a thick lining has died away in may end anywhere: below a Q of ½, or on no wave at all.
   *
   * @param frequencies of the bare room's waves, lowest first, Hz
   * @param air what fills the room
   * @param lining how the lining is at a frequency
   */
  public List<Complex> resonances(double[] frequencies, Fluid air, StandingWaves.Lining lining) {
    return new LinedWaves(this, air, lining).resonances(frequencies);
  }

  /** Stiffness without a frequency: ∫∇p·∇q/ρ. */
  ZMatrixRMaj stiffness(Fluid air, Fluid lining) {
    return mixed(
        air.density().reciprocal(), bareStiffness,
        lining.density().reciprocal(), linedStiffness);
  }

  /** ∫pq/K. */
  ZMatrixRMaj mass(Fluid air, Fluid lining) {
    return mixed(air.bulk().reciprocal(), bareMass, lining.bulk().reciprocal(), linedMass);
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
}
