package cutaway.acoustics.driveunit;

import java.util.List;

/**
 * Air shut behind the diaphragm, as an acoustic admittance divided by that of its compliance alone:
 * y = Y_a / (jω C_ab).
 *
 * <p>A plain lossless volume has y = 1. How much the compliance weighs against the suspension, α =
 * C_ms S_d²/C_ab, is a parameter of the fit, not of the load.
 */
public interface RearLoad {
  /** What this is, in plain words. */
  String words();

  /** Symbols of the parameters; the fit works in their logarithms. */
  List<String> symbols();

  /**
   * Whether the first parameter is a frequency of its own (f_b, Hz); otherwise losses are counted
   * at f_s.
   */
  boolean ownFrequency();

  /** The same box with every choice of losses the data may decide for, this one among them. */
  List<RearLoad> alternatives();

  /**
   * The normalised admittance and its derivatives.
   *
   * @param v f over the load's own frequency, or over f_s
   * @param p parameters without the frequency, positive; read only
   * @param out {@link #ROWS} rows at least as long as v, written: Re, Im of y; of ∂y/∂ln v; then of
   *     ∂y/∂ln p_i for each; the rest is scratch
   */
  void at(double[] v, double[] p, double[][] out);

  /** Rows that {@link #at} may write. */
  int ROWS = 16;

  /**
   * Where the volume velocity goes at one frequency: the branches whose sum is y.
   *
   * @param v f over the load's own frequency, or over f_s
   * @param p parameters without the frequency
   * @param yRe real part of y, as {@link #at} gives it
   * @param yIm imaginary part of y
   * @param out written: Re, Im of the port's branch, of the leak's, of the air spring's
   */
  void branches(double v, double[] p, double yRe, double yIm, double[] out);
}
