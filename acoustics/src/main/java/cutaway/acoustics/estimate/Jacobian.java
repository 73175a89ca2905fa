package cutaway.acoustics.estimate;

import java.util.Arrays;

/**
 * Derivatives of residuals by parameters, ∂r/∂θ, in stretches of rows.
 *
 * <p>A stretch is a run of rows that belong together, as one take's. A parameter that bears on no
 * row of a stretch has no column there, and no work is spent on it.
 */
public final class Jacobian {
  private static final double[] ABSENT = new double[0];

  private final int[] lengths;
  private final double[][][] columns;

  /**
   * Makes one without any column.
   *
   * @param parameters number of parameters, p
   * @param lengths rows of each stretch, in the order of the residuals
   */
  public Jacobian(int parameters, int... lengths) {
    this.lengths = lengths.clone();
    this.columns = new double[lengths.length][parameters][];
    for (double[][] stretch : columns) {
      Arrays.fill(stretch, ABSENT);
    }
  }

  /** Column of a parameter in a stretch, to be read and written; made of zeros where absent. */
  public double[] column(int stretch, int parameter) {
    double[] column = columns[stretch][parameter];
    if (column.length == 0) {
      column = new double[lengths[stretch]];
      columns[stretch][parameter] = column;
    }
    return column;
  }

  /** Whether a parameter has a column in a stretch. */
  public boolean has(int stretch, int parameter) {
    return columns[stretch][parameter].length > 0;
  }

  /** One derivative, zero where there is no column. */
  public double at(int stretch, int row, int parameter) {
    return has(stretch, parameter) ? columns[stretch][parameter][row] : 0;
  }

  int stretches() {
    return lengths.length;
  }
}
