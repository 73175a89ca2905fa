package cutaway.bench.exam;

/**
 * A mode of the box as it is believed.
 *
 * @param frequency Hz
 * @param frequencySpread relative standard uncertainty
 * @param loss its loss factor
 * @param knocked whether a knock told them
 * @param on the wall that was knocked
 */
record Swing(double frequency, double frequencySpread, Loss loss, boolean knocked, String on) {}
