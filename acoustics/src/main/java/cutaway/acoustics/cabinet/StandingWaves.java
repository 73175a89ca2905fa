package cutaway.acoustics.cabinet;

import cutaway.acoustics.modes.ChebyshevSpan;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.IntStream;
import org.hipparchus.complex.Complex;

/**
 * What standing waves add to the pressures behind the cone and at the port's inner mouth, beyond
 * one pressure everywhere. What each opening does to itself in the first order of frequency, an
 * inertance, is left out: it is in the moving mass and the port's mass as they were fitted. Derived
 * in {@code docs/methods/cavity.md}.
 */
public interface StandingWaves {
  /** Where the first order of a lined room is taken, Hz. */
  double LOW = 40;

  /** Points of the polynomial below the lowest wave. */
  int SMOOTH = 16;

  /**
   * Mean pressures at cone and port's mouth for 1 m³/s into the room through each, Pa·s/m³,
   * symmetric; one by one where there is no port.
   *
   * @param frequency Hz
   */
  Complex[][] extra(double frequency);

  /**
   * Those of a room without lining.
   *
   * @param means mean pressure of each wave over cone and port's mouth: patch × wave
   * @param volume of the room, m³
   * @param air what fills it, with its loss
   */
  static StandingWaves bare(Cavity cavity, double[][] means, double volume, Fluid air) {
    return frequency -> {
      double omega = 2 * Math.PI * frequency;
      int n = means.length;
      Complex[][] out = new Complex[n][n];
      for (int p = 0; p < n; p++) {
        for (int q = 0; q <= p; q++) {
          Complex sum = Complex.ZERO;
          for (int wave = 0; wave < cavity.size(); wave++) {
            double k = cavity.wavenumber(wave);
            Complex square = air.bulk().divide(air.density()).multiply(k * k);
            sum = sum.add(beyond(square, omega, p == q).multiply(means[p][wave] * means[q][wave]));
          }
          out[p][q] = sum.multiply(air.bulk()).multiply(new Complex(0, omega / volume));
          out[q][p] = out[p][q];
        }
      }
      return out;
    };
  }

  /**
   * The pressures of all waves but one.
   *
   * @param all those of all, as {@link #extra} gives them
   * @param frequency at which, Hz
   * @param omega that wave's, with its damping, rad/s
   * @param means its mean pressure over each patch
   * @param volume of the room, m³
   */
  static Complex[][] without(
      Complex[][] all, double frequency, Complex omega, double[] means, double volume, Fluid air) {
    double at = 2 * Math.PI * frequency;
    Complex scale = air.bulk().multiply(new Complex(0, at / volume));
    Complex square = omega.multiply(omega);
    Complex[][] out = new Complex[all.length][all.length];
    for (int p = 0; p < out.length; p++) {
      for (int q = 0; q < out.length; q++) {
        Complex its = beyond(square, at, p == q).multiply(scale).multiply(means[p] * means[q]);
        out[p][q] = all[p][q].subtract(its);
      }
    }
    return out;
  }

  /** 1/(ω_k² − ω²), of an opening on itself beyond what it is at rest. */
  private static Complex beyond(Complex square, double omega, boolean itself) {
    Complex whole = square.subtract(omega * omega).reciprocal();
    return itself ? whole.subtract(square.reciprocal()) : whole;
  }

  /** How a lining is at a frequency, Hz. */
  interface Lining {
    /** Its equivalent fluid. */
    Fluid at(double frequency);
  }

  /** Those of a lined room. */
  static StandingWaves lined(CavityResponse room, Fluid air, Lining lining) {
    Complex[][] first = beyondUniform(room, air, lining, LOW);
    return frequency -> {
      Complex[][] out = beyondUniform(room, air, lining, frequency);
      for (int p = 0; p < out.length; p++) {
        double inertia = first[p][p].getImaginary() * frequency / LOW;
        out[p][p] = out[p][p].subtract(new Complex(first[p][p].getReal(), inertia));
      }
      return out;
    };
  }

  /** The same, each frequency worked out once. */
  default StandingWaves kept() {
    Map<Double, Complex[][]> known = new ConcurrentHashMap<>();
    return frequency -> known.computeIfAbsent(frequency, this::extra);
  }

  /**
   * The same, where nothing stands out the polynomial through a few frequencies.
   *
   * @param low lowest frequency that is asked for, Hz
   * @param high well below the lowest standing wave, Hz
   */
  default StandingWaves smoothBetween(double low, double high) {
    ChebyshevSpan span = new ChebyshevSpan(low, high, SMOOTH);
    List<Complex[][]> at = IntStream.range(0, SMOOTH).mapToObj(i -> extra(span.at(i))).toList();
    return frequency -> {
      if (frequency < low || frequency > high) {
        return extra(frequency);
      }
      double[] weights = span.weights(frequency);
      int n = at.get(0).length;
      Complex[][] out = new Complex[n][n];
      for (int p = 0; p < n; p++) {
        for (int q = 0; q < n; q++) {
          out[p][q] = Complex.ZERO;
          for (int i = 0; i < SMOOTH; i++) {
            out[p][q] = out[p][q].add(at.get(i)[p][q].multiply(weights[i]));
          }
        }
      }
      return out;
    };
  }

  private static Complex[][] beyondUniform(
      CavityResponse room, Fluid air, Lining lining, double frequency) {
    Fluid fibre = lining.at(frequency);
    Complex uniform =
        room.compliance(air, fibre).multiply(new Complex(0, 2 * Math.PI * frequency)).reciprocal();
    Complex[][] out = room.impedance(frequency, air, fibre);
    for (Complex[] row : out) {
      for (int q = 0; q < row.length; q++) {
        row[q] = row[q].subtract(uniform);
      }
    }
    return out;
  }

  /**
   * Mean of each wave's pressure over a patch, 1 for the mean over the room; absent where no point
   * of it lies in the room.
   */
  static Optional<double[]> means(Cavity cavity, Patch patch) {
    double[] sum = new double[cavity.size()];
    double weight = 0;
    for (int i = 0; i < patch.points().size(); i++) {
      Optional<double[]> at = cavity.pressures(patch.points().get(i));
      double w = patch.weights().get(i);
      if (at.isPresent()) {
        weight += w;
        for (int mode = 0; mode < sum.length; mode++) {
          sum[mode] += w * at.get()[mode];
        }
      }
    }
    if (weight == 0) {
      return Optional.empty();
    }
    for (int mode = 0; mode < sum.length; mode++) {
      sum[mode] /= weight;
    }
    return Optional.of(sum);
  }
}
