package cutaway.acoustics.knock;

/**
 * A pole that comes back order after order.
 *
 * @param decay 1/s
 * @param omega angular frequency, rad/s
 * @param decaySpread standard deviation over the orders, 1/s
 * @param omegaSpread the same of the angular frequency, rad/s
 */
record StablePole(double decay, double omega, double decaySpread, double omegaSpread) {}
