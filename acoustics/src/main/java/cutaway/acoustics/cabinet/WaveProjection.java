package cutaway.acoustics.cabinet;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;

/**
 * A lined room projected on the waves of the bare one and on what fades in the lining. Derived in
 * {@code docs/methods/cavity.md}.
 */
final class WaveProjection {
  /** How many waves fade in a lining, and to which powers. */
  private static final int FADING = 12;

  private static final int POWERS = 2;

  /** Such functions that differ from the others by less than this share are left out. */
  private static final double FADES_APART = 3e-3;

  private final Cavity cavity;
  private final Enclosure room;
  private final double[] lining;
  private final double[][] means;

  /**
   * Takes note.
   *
   * @param lining thickness on each wall, m, 0 for none
   * @param means mean pressure of each wave over each patch
   */
  WaveProjection(Cavity cavity, Enclosure room, double[] lining, double[][] means) {
    this.cavity = cavity;
    this.room = room;
    this.lining = lining;
    this.means = means;
  }

  CavityResponse response() {
    int waves = cavity.size() + 1;
    int[] lined = IntStream.range(0, lining.length).filter(w -> lining[w] > 0).toArray();
    int n = waves + FADING * POWERS * lined.length;
    double scale = 1 / Math.sqrt(room.volume());
    Integrals inLining = integrals(n, lined, scale);
    double[][] linedStiffness = inLining.stiffness();
    double[][] linedMass = inLining.mass();
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

  /** ∫∇p·∇q and ∫pq of all functions over the lining, n × n. */
  @SuppressWarnings("ArrayRecordComponent") // never compared
  private record Integrals(double[][] stiffness, double[][] mass) {
    static Integrals none(int n) {
      return new Integrals(new double[n][n], new double[n][n]);
    }

    void add(Integrals other) {
      add(stiffness, other.stiffness);
      add(mass, other.mass);
    }

    private static void add(double[][] to, double[][] more) {
      for (int i = 0; i < to.length; i++) {
        for (int j = 0; j <= i; j++) {
          to[i][j] += more[i][j];
        }
      }
    }
  }

  private Integrals integrals(int n, int[] lined, double scale) {
    List<Layer.Face> faces =
        IntStream.range(0, lining.length).mapToObj(w -> Layer.Face.of(room, w)).toList();
    Layer layer = Layer.of(room, lining, cavity.wavenumber(cavity.size() - 1));
    // two sums whatever the machine, so that the same room gives the same bits
    List<Integrals> halves =
        IntStream.range(0, 2)
            .parallel()
            .mapToObj(
                half -> {
                  Integrals out = Integrals.none(n);
                  for (int i = half; i < layer.points().size(); i += 2) {
                    add(layer, i, faces, lined, scale, out);
                  }
                  return out;
                })
            .toList();
    halves.get(0).add(halves.get(1));
    mirror(halves.get(0).stiffness());
    mirror(halves.get(0).mass());
    return halves.get(0);
  }

  /** Adds what one point of the lining stands for. */
  private void add(
      Layer layer, int i, List<Layer.Face> faces, int[] lined, double scale, Integrals to) {
    Point p = layer.points().get(i);
    cavity
        .around(p)
        .ifPresent(
            at -> {
              double[][] all = withFading(at, to.mass().length, p, faces, lined, lining);
              double weight = layer.volumes().get(i) * scale * scale;
              addSquares(to.mass(), all[0], weight);
              for (int axis = 1; axis < 4; axis++) {
                addSquares(to.stiffness(), all[axis], weight);
              }
            });
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
    List<double[]> weighed = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      double[] v = new double[n];
      v[i] = 1;
      double before = Math.sqrt(gram[i][i]);
      for (int pass = 0; pass < 2; pass++) {
        for (int b = 0; b < basis.size(); b++) {
          double share = dot(v, weighed.get(b));
          double[] other = basis.get(b);
          for (int k = 0; k < n; k++) {
            v[k] -= share * other[k];
          }
        }
      }
      double[] its = Arrays.stream(gram).mapToDouble(row -> dot(row, v)).toArray();
      double after = Math.sqrt(Math.max(0, dot(v, its)));
      if (after > FADES_APART * before) {
        for (int k = 0; k < n; k++) {
          v[k] /= after;
          its[k] /= after;
        }
        basis.add(v);
        weighed.add(its);
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

  private static double dot(double[] a, double[] b) {
    double sum = 0;
    for (int i = 0; i < a.length; i++) {
      sum += a[i] * b[i];
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

  /** Adds to the lower half of a sum of squares. */
  private static void addSquares(double[][] to, double[] v, double weight) {
    for (int i = 0; i < v.length; i++) {
      double[] row = to[i];
      double factor = weight * v[i];
      for (int j = 0; j <= i; j++) {
        row[j] += factor * v[j];
      }
    }
  }

  private static void mirror(double[][] lower) {
    for (int i = 0; i < lower.length; i++) {
      for (int j = 0; j < i; j++) {
        lower[j][i] = lower[i][j];
      }
    }
  }
}
