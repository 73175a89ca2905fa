package cutaway.acoustics.knock;

/**
 * A mode that rings after taps.
 *
 * @param frequency undamped, Hz
 * @param frequencyUncertainty standard uncertainty, Hz
 * @param loss loss factor η = 1/Q
 * @param lossUncertainty standard uncertainty
 * @param level its energy over that of all that rings in the same time, dB
 * @param overNoise its energy over that of the background in its half-power band, dB
 * @param amplitudes real and imaginary part at the onset of each tap that was used, full scale 1
 */
@SuppressWarnings("ArrayRecordComponent")
public record Ring(
    double frequency,
    double frequencyUncertainty,
    double loss,
    double lossUncertainty,
    double level,
    double overNoise,
    double[] amplitudes) {}
