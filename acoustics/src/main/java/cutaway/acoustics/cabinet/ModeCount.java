package cutaway.acoustics.cabinet;

/**
 * How many standing waves a room has below a wavenumber, by H. Weyl's count with the surface of a
 * roomy box: N = Vk³/6π² + Sk²/16π (P. M. Morse and K. U. Ingard, Theoretical Acoustics (1968),
 * from memory).
 */
final class ModeCount {
  private ModeCount() {}

  /** Number below a wavenumber in rad/m in a room of a volume in m³. */
  static double below(double k, double volume) {
    double surface = 6.5 * Math.pow(volume, 2.0 / 3);
    return volume * k * k * k / (6 * Math.PI * Math.PI) + surface * k * k / (16 * Math.PI);
  }

  /** Wavenumber below which there are so many, rad/m. */
  static double highest(double count, double volume) {
    double k = 0;
    double step = Math.cbrt(1 / volume);
    for (int pass = 0; pass < 40; pass++) {
      if (below(k + step, volume) < count) {
        k += step;
      } else {
        step /= 2;
      }
    }
    return k;
  }
}
