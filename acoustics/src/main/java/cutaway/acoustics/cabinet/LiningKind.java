package cutaway.acoustics.cabinet;

/**
 * Linings by name, with flow resistivities that are met with (from memory; they differ much from
 * maker to maker).
 */
public enum LiningKind {
  /** Glass or stone wool. */
  MINERAL_WOOL(5_000, 20_000),
  /** Polyester wadding. */
  POLYESTER_FIBRE(1_000, 6_000),
  /** Foam with open cells. */
  OPEN_FOAM(3_000, 15_000),
  /** Felt of wool or mixed fibre. */
  FELT(10_000, 40_000);

  private final double low;
  private final double high;

  LiningKind(double low, double high) {
    this.low = low;
    this.high = high;
  }

  /** Flow resistivity of a usual one, the geometric middle, Pa·s/m². */
  public double resistivity() {
    return Math.sqrt(low * high);
  }

  /** The usual one times or over this are the ends of the range. */
  public double factor() {
    return Math.sqrt(high / low);
  }
}
