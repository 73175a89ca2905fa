package cutaway.bench.exam;

/**
 * A loss factor.
 *
 * @param value η
 * @param spread relative standard uncertainty
 */
record Loss(double value, double spread) {
  /** Of a mode that has a share of its strain in something else; both err together. */
  Loss with(double share, Loss other) {
    double mixed = (1 - share) * value + share * other.value;
    double open = (1 - share) * value * spread + share * other.value * other.spread;
    return new Loss(mixed, open / mixed);
  }
}
