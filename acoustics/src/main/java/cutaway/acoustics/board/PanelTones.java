package cutaway.acoustics.board;

import cutaway.acoustics.cabinet.Board;
import cutaway.acoustics.cabinet.Outline;
import cutaway.acoustics.cabinet.Panel;
import cutaway.acoustics.cabinet.PanelModes;
import cutaway.acoustics.cabinet.Point;
import cutaway.acoustics.cabinet.Support;
import cutaway.acoustics.modes.ChebyshevSpan;
import java.util.Collections;
import java.util.List;
import java.util.function.DoubleFunction;

/**
 * Tones of a wall by itself, its edges held by springs of so many D over its shorter span; found at
 * a few thicknesses and edges and interpolated.
 */
public final class PanelTones implements Tones {
  private static final int THICKNESSES = 8;
  private static final int EDGES = 6;
  private static final double POISSON = 0.3;

  private final ChebyshevSpan range;
  private final ChebyshevSpan edge;

  /** ln(f/√(E/ρ)), thickness × edge × mode. */
  private final double[][][] tones = new double[THICKNESSES][EDGES][];

  /**
   * Computes.
   *
   * @param outline clear span for a thickness (m)
   * @param thickness m
   * @param fixity of the edges
   * @param modes how many
   */
  public PanelTones(DoubleFunction<Outline> outline, Range thickness, Range fixity, int modes) {
    this.range = new ChebyshevSpan(thickness.low(), thickness.high(), THICKNESSES);
    this.edge = new ChebyshevSpan(fixity.low(), fixity.high(), EDGES);
    for (int i = 0; i < THICKNESSES; i++) {
      for (int k = 0; k < EDGES; k++) {
        tones[i][k] = tones(outline, range.at(i), edge.at(k), modes);
      }
    }
  }

  private static double[] tones(
      DoubleFunction<Outline> span, double thickness, double fixity, int modes) {
    double young = 3e9;
    double density = 700;
    Outline outline = span.apply(thickness);
    double shear = young / (2 * (1 + POISSON));
    double d = young * thickness * thickness * thickness / (12 * (1 - POISSON * POISSON));
    Support held = new Support.Supported(fixity * d / shorter(outline));
    PanelModes found =
        PanelModes.of(
            new Panel(
                outline,
                // with Reissner's shear factor, as panels held by springs are tabled
                new Board(thickness, density, young, young, POISSON, shear, shear, shear, 0),
                Collections.nCopies(outline.corners().size(), held),
                List.of(),
                List.of(),
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

  @Override
  public int modes() {
    return tones[0][0].length;
  }

  @Override
  public double[] at(double thickness, double fixity) {
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

  @Override
  public double slope(int mode) {
    return 0.5;
  }
}
