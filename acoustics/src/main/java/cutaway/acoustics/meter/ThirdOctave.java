package cutaway.acoustics.meter;

import java.util.ArrayList;
import java.util.List;

/**
 * A third-octave band of IEC 61260-1, base ten: centred on 10^(number/10) Hz, filtered as by a
 * Butterworth band-pass of order three.
 *
 * @param number 30 for the band at 1 kHz
 */
public record ThirdOctave(int number) {
  private static final double HALF = Math.pow(10, 0.05);

  /** An infinitely steep filter of the same power of noise is wider by this. */
  private static final double WIDER = Math.PI / 6 / Math.sin(Math.PI / 6);

  /**
   * Bands whose centres lie within a range.
   *
   * @param low Hz
   * @param high Hz
   */
  public static List<ThirdOctave> between(double low, double high) {
    List<ThirdOctave> out = new ArrayList<>();
    for (int n = (int) Math.ceil(10 * Math.log10(low) - 1e-9);
        n <= 10 * Math.log10(high) + 1e-9;
        n++) {
      out.add(new ThirdOctave(n));
    }
    return List.copyOf(out);
  }

  /** Exact middle, Hz. */
  public double centre() {
    return Math.pow(10, number / 10.0);
  }

  /** Lower edge, Hz. */
  public double low() {
    return centre() / HALF;
  }

  /** Upper edge, Hz. */
  public double high() {
    return centre() * HALF;
  }

  /**
   * Gain of the filter; noise that is even over the band passes with just the band's power.
   *
   * @param frequency Hz
   */
  public double gain(double frequency) {
    double width = (HALF - 1 / HALF) / WIDER;
    double ratio = frequency / centre();
    double off = (ratio - 1 / ratio) / width;
    double square = off * off;
    return 1 / Math.sqrt(1 + square * square * square);
  }

  /** Level in the band of a spectrum in Pa, dB over 20 µPa. */
  public double level(PowerSpectrum spectrum) {
    double reference = FrequencyWeighting.REFERENCE;
    return 10 * Math.log10(spectrum.meanSquare(this::gain) / (reference * reference));
  }
}
