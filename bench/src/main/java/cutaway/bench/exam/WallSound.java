package cutaway.bench.exam;

import cutaway.acoustics.air.Air;
import cutaway.acoustics.cabinet.BoxModes;
import cutaway.acoustics.cabinet.Cavity;
import cutaway.acoustics.cabinet.Hole;
import cutaway.acoustics.cabinet.Patch;
import cutaway.acoustics.cabinet.Point;
import cutaway.acoustics.cabinet.Wall;
import cutaway.acoustics.cabinet.WallResponse;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.hipparchus.complex.Complex;

/** What a drive unit in a box sets its walls to do, and what they radiate. */
final class WallSound {
  private static final double ONE_METRE = 1;

  private final CabinetGeometry geometry;
  private final BoxModes modes;
  private final Drive drive;
  private final Air air;

  /**
   * What drives the walls.
   *
   * @param waves standing waves, where they are known
   * @param cone where the piston is, where the sheet tells
   * @param coneWall number of its wall
   * @param flange the cut-out it sits in, where the sheet tells
   * @param waveLosses loss factor of each standing wave
   * @param massOverArea moving mass over piston area, kg/m², where both are known
   */
  @SuppressWarnings("ArrayRecordComponent") // never compared
  record Drive(
      Optional<SurfacePressures> waves,
      Optional<Patch> cone,
      int coneWall,
      Optional<Hole> flange,
      double[] waveLosses,
      Optional<Double> massOverArea) {
    /** Without a flange that the walls have no cut-out for. */
    Drive fitting(List<Wall> walls) {
      boolean there =
          flange.isPresent()
              && coneWall >= 0
              && walls.get(coneWall).panel().cutOuts().contains(flange.get());
      return there
          ? this
          : new Drive(waves, cone, coneWall, Optional.empty(), waveLosses, massOverArea);
    }

    /** The same with other losses of the standing waves. */
    Drive damped(double[] losses) {
      return new Drive(waves, cone, coneWall, flange, losses, massOverArea);
    }
  }

  WallSound(CabinetGeometry geometry, BoxModes modes, Drive drive, Air air) {
    this.geometry = geometry;
    this.modes = modes;
    this.drive = drive;
    this.air = air;
  }

  /** Level of each wall's sound at 1 m under the drive unit's own, dB: wall × frequency. */
  double[][] levels(WallResponse response, double[] grid) {
    int walls = geometry.names().size();
    double rho = air.density().value();
    double c = air.soundSpeed().value();
    List<double[]> loads = new ArrayList<>();
    List<double[]> squares = new ArrayList<>();
    loads.add(response.pressure(p -> 1, walls));
    squares.add(new double[] {0, 1});
    if (hasWaves()) {
      waves(response, loads, squares);
    }
    double[] reaction = reaction(response);
    double[][] out = new double[walls][grid.length];
    IntStream.range(0, grid.length)
        .parallel()
        .forEach(
            i -> {
              double omega = 2 * Math.PI * grid[i];
              Complex[] forces = forces(omega, loads, squares, reaction);
              Complex[] q = response.amplitudes(forces, grid[i]);
              for (int wall = 0; wall < walls; wall++) {
                Complex[] v = response.velocity(wall, q, grid[i]);
                double p = response.radiated(wall, v, listener(wall), grid[i], rho, c).norm();
                out[wall][i] = 20 * Math.log10(p / (omega * rho / (2 * Math.PI)));
              }
            });
    return out;
  }

  /** Force on each mode for a volume velocity of one, by the air and by the reaction. */
  private Complex[] forces(
      double omega, List<double[]> loads, List<double[]> squares, double[] reaction) {
    double rho = air.density().value();
    double c = air.soundSpeed().value();
    double volume = geometry.inner().volume();
    Complex[] forces = new Complex[modes.size()];
    Arrays.fill(forces, Complex.ZERO);
    for (int load = 0; load < loads.size(); load++) {
      double own = squares.get(load)[0] * c * c;
      Complex amplitude =
          new Complex(0, -omega * rho * c * c * squares.get(load)[1] / volume)
              .divide(new Complex(own - omega * omega, own * lossOf(load)));
      for (int mode = 0; mode < forces.length; mode++) {
        forces[mode] = forces[mode].add(amplitude.multiply(loads.get(load)[mode]));
      }
    }
    for (int mode = 0; mode < forces.length; mode++) {
      forces[mode] = forces[mode].add(new Complex(0, -omega * reaction[mode]));
    }
    return forces;
  }

  /** Of uniform pressure none, then of each wave. */
  private double lossOf(int load) {
    return load == 0 ? 0 : drive.waveLosses()[load - 1];
  }

  /** 1 m before the middle of a wall. */
  private Point listener(int wall) {
    Wall w = modes.walls().get(wall);
    Point sum = new Point(0, 0, 0);
    List<Point> corners = w.panel().outline().corners();
    for (Point p : corners) {
      sum = sum.plus(p);
    }
    Point centre = sum.times(1.0 / corners.size());
    return w.plane().space(new Point(centre.x(), centre.y(), ONE_METRE));
  }

  /** Loads of the standing waves on the walls, each driven by the cone. */
  private void waves(WallResponse response, List<double[]> loads, List<double[]> squares) {
    int walls = geometry.names().size();
    SurfacePressures within = drive.waves().orElseThrow();
    Cavity cavity = within.cavity();
    double[] cone = CavityExam.mean(cavity, drive.cone().orElseThrow());
    List<double[][]> pressures = new ArrayList<>();
    for (int wall = 0; wall < walls; wall++) {
      Wall w = modes.walls().get(wall);
      Point inwards = w.plane().normal().times(-geometry.thickness()[wall] / 2);
      pressures.add(within.on(modes.surface(wall), inwards));
    }
    for (int mode = 0; mode < cavity.size(); mode++) {
      int which = mode;
      double k = cavity.wavenumber(mode);
      loads.add(response.pressureAt((wall, i) -> pressures.get(wall)[i][which], walls));
      squares.add(new double[] {k * k, cone[mode]});
    }
  }

  /** Whether the standing waves drive the walls too. */
  boolean hasWaves() {
    return drive.waves().isPresent() && drive.cone().isPresent();
  }

  /** Whether the drive unit's reaction drives them. */
  boolean hasReaction() {
    return drive.flange().isPresent() && drive.massOverArea().isPresent();
  }

  /** Reaction to the cone per volume velocity, on the flange; zero where it is not known. */
  private double[] reaction(WallResponse response) {
    if (!hasReaction()) {
      return new double[modes.size()];
    }
    double[] out = response.flange(drive.coneWall(), drive.flange().orElseThrow());
    for (int i = 0; i < out.length; i++) {
      out[i] *= drive.massOverArea().orElseThrow();
    }
    return out;
  }
}
