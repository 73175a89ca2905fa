package cutaway.bench.exam;

import cutaway.acoustics.air.Air;
import cutaway.acoustics.cabinet.BoxModes;
import cutaway.acoustics.cabinet.WallResponse;
import cutaway.acoustics.hearing.ResonanceAudibility;
import cutaway.bench.finding.Trial.Worst;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;

/**
 * Level of each wall's sound over frequency with its resonance most likely heard.
 *
 * @param grid Hz
 * @param levels of each wall over the drive unit's own, dB
 * @param worst of each wall
 */
@SuppressWarnings("ArrayRecordComponent") // never compared
record WallLevels(double[] grid, double[][] levels, List<Worst> worst) {
  /** What the model leaves open in a level, dB; judgement, no source. */
  static final double MODEL = 3;

  /** The same where the drive unit's reaction is left out, dB; judgement, no source. */
  static final double UNDRIVEN = 10;

  private static final double APART = 1e-5;

  /** What is open in the loss of feet; judgement, no source. */
  private static final double FEET = 0.5;

  /**
   * What is open in a level besides the loss.
   *
   * @param decibels of the model
   * @param share relative, of mass and stiffness
   */
  record Open(double decibels, double share) {}

  /**
   * Computes.
   *
   * @param losses of each wall
   * @param even frequencies, Hz; the modes' own are added
   * @param open what is open besides the losses
   */
  static WallLevels of(
      CabinetGeometry geometry,
      BoxModes modes,
      List<Loss> losses,
      WallSound.Drive drive,
      Air air,
      double[] even,
      Open open) {
    double[] grid = withPeaks(even, IntStream.range(0, modes.size()).mapToDouble(modes::frequency));
    double[] each = new double[modes.size()];
    double[] spread = new double[modes.size()];
    double[][] areas = areas(modes, losses.size());
    for (int mode = 0; mode < each.length; mode++) {
      Loss mixed = mixed(geometry, losses, shares(modes, mode, areas), modes.feet(mode));
      each[mode] = mixed.value();
      spread[mode] = Math.hypot(mixed.spread(), open.share());
    }
    double[][] levels =
        new WallSound(geometry, modes, drive, air).levels(new WallResponse(modes, each), grid);
    List<Worst> worst = new ArrayList<>();
    for (double[] level : levels) {
      worst.add(worst(grid, level, modes, each, spread, open.decibels()));
    }
    return new WallLevels(grid, levels, worst);
  }

  private static Worst worst(
      double[] grid,
      double[] level,
      BoxModes modes,
      double[] losses,
      double[] spread,
      double model) {
    Worst out = new Worst(0, Double.NEGATIVE_INFINITY, model, 0);
    for (int i = 1; i + 1 < grid.length; i++) {
      if (level[i] > level[i - 1] && level[i] >= level[i + 1]) {
        int nearest = 0;
        for (int mode = 0; mode < losses.length; mode++) {
          double off = Math.abs(modes.frequency(mode) - grid[i]);
          nearest = off < Math.abs(modes.frequency(nearest) - grid[i]) ? mode : nearest;
        }
        double sd = Math.hypot(model, decibels(spread[nearest]));
        double heard = ResonanceAudibility.likelihood(level[i], sd, 1 / losses[nearest]);
        if (heard > out.heard() || out.frequency() == 0) {
          out = new Worst(grid[i], level[i], sd, heard);
        }
      }
    }
    return out;
  }

  /** What a share of an amplitude is in dB. */
  static double decibels(double share) {
    return 20 / Math.log(10) * share;
  }

  /**
   * A grid with frequencies between its ends added, so that no narrow peak falls between points.
   */
  static double[] withPeaks(double[] even, DoubleStream peaks) {
    double low = even[0];
    double high = even[even.length - 1];
    double[] all =
        DoubleStream.concat(Arrays.stream(even), peaks.filter(f -> f > low && f < high))
            .sorted()
            .toArray();
    return IntStream.range(0, all.length)
        .filter(i -> i == 0 || all[i] > all[i - 1] * (1 + APART))
        .mapToDouble(i -> all[i])
        .toArray();
  }

  /**
   * Loss of a mode by each wall's share in its energy; they err together.
   *
   * @param feet share of its strain that is in the feet
   */
  static Loss mixed(CabinetGeometry geometry, List<Loss> losses, double[] share, double feet) {
    Loss ofWalls = mixed(losses, share);
    return geometry
        .box()
        .cabinet()
        .feet()
        .map(f -> ofWalls.with(feet, new Loss(f.material().loss(), FEET)))
        .orElse(ofWalls);
  }

  private static Loss mixed(List<Loss> losses, double[] share) {
    double loss = 0;
    double open = 0;
    for (int wall = 0; wall < losses.size(); wall++) {
      loss += share[wall] * losses.get(wall).value();
      open += share[wall] * losses.get(wall).value() * losses.get(wall).spread();
    }
    return new Loss(loss, open / loss);
  }

  /** What the places of each wall's surface stand for, m². */
  static double[][] areas(BoxModes modes, int walls) {
    return IntStream.range(0, walls)
        .mapToObj(wall -> modes.surface(wall).areas())
        .toArray(double[][]::new);
  }

  /** Share of each wall in a mode's energy. */
  static double[] shares(BoxModes modes, int mode, double[][] areas) {
    double[] out = new double[areas.length];
    double sum = 0;
    for (int wall = 0; wall < areas.length; wall++) {
      double[] w = modes.normal(mode, wall);
      double surfaceMass = modes.walls().get(wall).panel().board().surfaceMass();
      for (int i = 0; i < w.length; i++) {
        out[wall] += surfaceMass * areas[wall][i] * w[i] * w[i];
      }
      sum += out[wall];
    }
    for (int wall = 0; wall < areas.length; wall++) {
      out[wall] /= sum;
    }
    return out;
  }
}
