package cutaway.bench.exam;

/**
 * A loss factor.
 *
 * @param value η
 * @param spread relative standard uncertainty
 */
record Loss(double value, double spread) {}
