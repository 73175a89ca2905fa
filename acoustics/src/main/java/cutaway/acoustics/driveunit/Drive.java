package cutaway.acoustics.driveunit;

import java.util.List;

/**
 * What feeds the drive unit: an rms voltage through a source resistance and filters.
 *
 * @param volts rms voltage before the filters, V
 * @param sourceResistance resistance of amplifier and cable, Ω
 * @param filters in series, each acting on the voltage
 */
public record Drive(double volts, double sourceResistance, List<Filter> filters) {
  /** A voltage from a perfect source. */
  public static Drive of(double volts) {
    return new Drive(volts, 0, List.of());
  }

  /**
   * One analogue filter section.
   *
   * @param highPass whether it passes high frequencies
   * @param frequency corner, Hz
   * @param order 1 or 2
   * @param q quality factor of a second-order section, 0.7071 for Butterworth; ignored for order 1
   */
  public record Filter(boolean highPass, double frequency, int order, double q) {
    /** Rejects corners not above zero and orders other than 1 and 2. */
    public Filter {
      if (!(frequency > 0) || (order != 1 && order != 2) || !(q > 0)) {
        throw new IllegalArgumentException(
            "a filter of order " + order + " at " + frequency + " Hz with Q " + q);
      }
    }

    /** Multiplies a phasor, Re at 0 and Im at 1, by the section's response at f in Hz. */
    void apply(double f, double[] phasor) {
      double v = f / frequency;
      double dRe = order == 1 ? 1 : 1 - v * v;
      double dIm = order == 1 ? v : v / q;
      double nRe = highPass && order == 2 ? -v * v : highPass ? 0 : 1;
      double nIm = highPass && order == 1 ? v : 0;
      double inv = 1 / (dRe * dRe + dIm * dIm);
      double hRe = (nRe * dRe + nIm * dIm) * inv;
      double hIm = (nIm * dRe - nRe * dIm) * inv;
      double re = phasor[0] * hRe - phasor[1] * hIm;
      phasor[1] = phasor[0] * hIm + phasor[1] * hRe;
      phasor[0] = re;
    }
  }
}
