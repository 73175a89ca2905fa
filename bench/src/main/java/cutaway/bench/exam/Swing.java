package cutaway.bench.exam;

/**
 * A mode of the box as it is believed.
 *
 * @param frequency Hz
 * @param frequencySpread relative standard uncertainty
 * @param feetSpread what of its stiffness the feet leave open, relative
 * @param loss its loss factor
 * @param knocked whether a knock told them
 * @param on the wall that was knocked
 */
record Swing(
    double frequency,
    double frequencySpread,
    double feetSpread,
    Loss loss,
    boolean knocked,
    String on) {}
