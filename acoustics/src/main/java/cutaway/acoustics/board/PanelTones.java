package cutaway.acoustics.board;

import cutaway.acoustics.cabinet.Board;
import cutaway.acoustics.cabinet.Outline;
import cutaway.acoustics.cabinet.Panel;
import cutaway.acoustics.cabinet.PanelModes;
import cutaway.acoustics.cabinet.Point;
import cutaway.acoustics.cabinet.Support;
import java.util.Collections;
import java.util.List;

/**
 * The frequencies of a wall for any thickness and edge, found at a few and interpolated: they go as
 * √(E/ρ), so that only thickness and edge need a panel of their own.
 */
final class PanelTones {
  private static final int THICKNESSES = 8;
  private static final int EDGES = 6;
  private static final double POISSON = 0.3;

  private final Span range;
  private final Span edge;

  /** ln(f/√(E/ρ)), thickness × edge × mode. */
  private final double[][][] tones = new double[THICKNESSES][EDGES][];

  /** A logarithmic range with Chebyshev points. */
  private record Span(double low, double high, int points) {
    double at(int i) {
      double x = -Math.cos(Math.PI * (i + 0.5) / points);
      return Math.exp(Math.log(low) + (Math.log(high) - Math.log(low)) * (1 + x) / 2);
    }

    /** Weights of the points for a value between. */
    double[] weights(double value) {
      double x = high == low ? 0 : 2 * Math.log(value / low) / Math.log(high / low) - 1;
      double[] out = new double[points];
      double sum = 0;
      for (int i = 0; i < points; i++) {
        double angle = Math.PI * (i + 0.5) / points;
        double away = x + Math.cos(angle);
        if (Math.abs(away) < 1e-14) {
          java.util.Arrays.fill(out, 0);
          out[i] = 1;
          return out;
        }
        out[i] = (i % 2 == 0 ? 1 : -1) * Math.sin(angle) / away;
        sum += out[i];
      }
      for (int i = 0; i < points; i++) {
        out[i] /= sum;
      }
      return out;
    }
  }

  PanelTones(KnockedWall wall, Range thickness, Range fixity, int modes) {
    this.range = new Span(thickness.low(), thickness.high(), THICKNESSES);
    this.edge = new Span(fixity.low(), fixity.high(), EDGES);
    for (int i = 0; i < THICKNESSES; i++) {
      for (int k = 0; k < EDGES; k++) {
        tones[i][k] = tones(wall, range.at(i), edge.at(k), modes);
      }
    }
  }

  private static double[] tones(KnockedWall wall, double thickness, double fixity, int modes) {
    double young = 3e9;
    double density = 700;
    Outline outline = wall.outline().apply(thickness);
    double d = young * thickness * thickness * thickness / (12 * (1 - POISSON * POISSON));
    Support held = new Support.Supported(fixity * d / shorter(outline));
    PanelModes found =
        PanelModes.of(
            new Panel(
                outline,
                Board.isotropic(thickness, density, young, POISSON),
                Collections.nCopies(outline.corners().size(), held),
                wall.masses(),
                wall.cutOuts(),
                List.of()),
            modes);
    double[] out = new double[modes];
    for (int m = 0; m < modes; m++) {
      out[m] = Math.log(found.frequency(m) / Math.sqrt(young / density));
    }
    return out;
  }

  private static double shorter(Outline outline) {
    double[] low = {Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY};
    double[] high = {Double.NEGATIVE_INFINITY, Double.NEGATIVE_INFINITY};
    for (Point p : outline.corners()) {
      low[0] = Math.min(low[0], p.x());
      low[1] = Math.min(low[1], p.y());
      high[0] = Math.max(high[0], p.x());
      high[1] = Math.max(high[1], p.y());
    }
    return Math.min(high[0] - low[0], high[1] - low[1]);
  }

  /** ln(f/√(E/ρ)) of each mode. */
  double[] at(double thickness, double fixity) {
    double[] a = range.weights(thickness);
    double[] b = edge.weights(fixity);
    double[] out = new double[tones[0][0].length];
    for (int i = 0; i < THICKNESSES; i++) {
      for (int k = 0; k < EDGES; k++) {
        for (int m = 0; m < out.length; m++) {
          out[m] += a[i] * b[k] * tones[i][k][m];
        }
      }
    }
    return out;
  }
}
