package cutaway.acoustics.cabinet;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.hipparchus.complex.Complex;

/**
 * Walls driven by the pressure inside and by the drive unit's reaction, and what they radiate.
 *
 * <p>Each mode by itself, q = F / (ω₀²(1 + jη) − ω²); sound by the Rayleigh integral, each wall as
 * if in an endless baffle (docs/methods/panel.md).
 */
public final class WallResponse {
  private final BoxModes modes;
  private final double[] frequencies;
  private final double[] losses;
  private final List<Surface> surfaces = new ArrayList<>();
  private final List<double[][]> shapes = new ArrayList<>();

  /**
   * Of modes as computed.
   *
   * @param losses η of each mode
   */
  public WallResponse(BoxModes modes, double[] losses) {
    this(modes, computed(modes), losses);
  }

  /**
   * Of modes whose frequencies are known better, as from knocking.
   *
   * @param frequencies of each mode, Hz
   * @param losses η of each mode
   */
  public WallResponse(BoxModes modes, double[] frequencies, double[] losses) {
    if (frequencies.length != modes.size() || losses.length != modes.size()) {
      throw new IllegalArgumentException(
          frequencies.length
              + " frequencies and "
              + losses.length
              + " losses for "
              + modes.size()
              + " modes");
    }
    this.modes = modes;
    this.frequencies = frequencies.clone();
    this.losses = losses.clone();
    for (int wall = 0; wall < modes.walls().size(); wall++) {
      surfaces.add(modes.surface(wall));
      double[][] its = new double[modes.size()][];
      for (int mode = 0; mode < its.length; mode++) {
        its[mode] = modes.normal(mode, wall);
      }
      shapes.add(its);
    }
  }

  private static double[] computed(BoxModes modes) {
    double[] out = new double[modes.size()];
    for (int mode = 0; mode < out.length; mode++) {
      out[mode] = modes.frequency(mode);
    }
    return out;
  }

  /**
   * What a pressure inside does to each mode, outwards of each wall's normal; N/√kg per Pa.
   *
   * @param pattern the pressure at each place, relative; 0 where none acts
   * @param walls on how many walls, the first ones
   */
  public double[] pressure(ToDoubleFunction<Point> pattern, int walls) {
    return pressureAt(
        (wall, i) -> pattern.applyAsDouble(surfaces.get(wall).places().get(i)), walls);
  }

  /** A pressure at a place of a wall's surface. */
  public interface Pattern {
    /** Relative pressure. */
    double at(int wall, int place);
  }

  /** The same of a pressure given by the number of the place on the wall's surface. */
  public double[] pressureAt(Pattern pattern, int walls) {
    double[] out = new double[modes.size()];
    for (int wall = 0; wall < walls; wall++) {
      Surface surface = surfaces.get(wall);
      for (int i = 0; i < surface.areas().length; i++) {
        double load = pattern.at(wall, i) * surface.areas()[i];
        for (int mode = 0; mode < out.length; mode++) {
          out[mode] += load * shapes.get(wall)[mode][i];
        }
      }
    }
    return out;
  }

  /**
   * What a force on the flange of a cut-out does to each mode, along the wall's normal; N/√kg per
   * N.
   */
  public double[] flange(int wall, Hole hole) {
    Plane plane = modes.walls().get(wall).plane();
    double grain = 1e-9;
    double[] out = new double[modes.size()];
    double area = 0;
    Surface surface = surfaces.get(wall);
    for (int i = 0; i < surface.areas().length; i++) {
      Point p = plane.local(surface.places().get(i));
      double away = new Point(p.x(), p.y(), 0).minus(hole.centre()).length();
      if (away < hole.ring() + grain) {
        area += surface.areas()[i];
        for (int mode = 0; mode < out.length; mode++) {
          out[mode] += surface.areas()[i] * shapes.get(wall)[mode][i];
        }
      }
    }
    for (int mode = 0; mode < out.length; mode++) {
      out[mode] /= area;
    }
    return out;
  }

  /**
   * How much of each mode is set going.
   *
   * @param forces on each mode, N/√kg
   * @param frequency Hz
   * @return amplitudes q, m·√kg
   */
  public Complex[] amplitudes(Complex[] forces, double frequency) {
    double omega = 2 * Math.PI * frequency;
    Complex[] out = new Complex[forces.length];
    for (int mode = 0; mode < out.length; mode++) {
      double own = Math.pow(2 * Math.PI * frequencies[mode], 2);
      out[mode] = forces[mode].divide(new Complex(own - omega * omega, own * losses[mode]));
    }
    return out;
  }

  /**
   * Velocity along a wall's normal at the places of its surface, m/s.
   *
   * @param amplitudes q
   */
  public Complex[] velocity(int wall, Complex[] amplitudes, double frequency) {
    double omega = 2 * Math.PI * frequency;
    int places = surfaces.get(wall).areas().length;
    Complex[] out = new Complex[places];
    for (int i = 0; i < places; i++) {
      double re = 0;
      double im = 0;
      for (int mode = 0; mode < amplitudes.length; mode++) {
        double shape = shapes.get(wall)[mode][i];
        re += shape * amplitudes[mode].getReal();
        im += shape * amplitudes[mode].getImaginary();
      }
      out[i] = new Complex(-omega * im, omega * re);
    }
    return out;
  }

  /** Root mean square over a wall of a velocity's magnitude. */
  public double rms(int wall, Complex[] velocity) {
    double[] areas = surfaces.get(wall).areas();
    double sum = 0;
    double area = 0;
    for (int i = 0; i < areas.length; i++) {
      double v = velocity[i].norm();
      sum += areas[i] * v * v;
      area += areas[i];
    }
    return Math.sqrt(sum / area);
  }

  /**
   * Sound of a moving wall, by the Rayleigh integral jωρ/2π ∫ v e^{−jkr}/r dS (Lord Rayleigh,
   * Theory of Sound, section 278, from memory); Pa.
   *
   * @param density of air, kg/m³
   * @param speed of sound, m/s
   */
  public Complex radiated(
      int wall, Complex[] velocity, Point at, double frequency, double density, double speed) {
    Surface surface = surfaces.get(wall);
    double omega = 2 * Math.PI * frequency;
    double k = omega / speed;
    double re = 0;
    double im = 0;
    for (int i = 0; i < velocity.length; i++) {
      double r = surface.places().get(i).minus(at).length();
      double size = surface.areas()[i] / r;
      double c = size * Math.cos(k * r);
      double s = size * Math.sin(k * r);
      re += velocity[i].getReal() * c + velocity[i].getImaginary() * s;
      im += velocity[i].getImaginary() * c - velocity[i].getReal() * s;
    }
    double scale = omega * density / (2 * Math.PI);
    return new Complex(-scale * im, scale * re);
  }
}
