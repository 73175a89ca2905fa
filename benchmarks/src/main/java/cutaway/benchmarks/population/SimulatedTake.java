package cutaway.benchmarks.population;

import cutaway.acoustics.stimulus.TestSignal;
import java.util.List;
import java.util.Optional;

/**
 * A recording of an invented unit.
 *
 * @param signal what was played; none when idle
 * @param intervention what was done to the unit meanwhile
 * @param volts peak voltage asked of the amplifier where the signal is 1
 * @param microphones before the cone, at the port or the rear, at a wall, Pa
 * @param voltage at the drive unit, V, where it was recorded
 * @param current A
 * @param shaking of the wall, m/s², where it was recorded
 * @param margins how far each fault stands out in it
 */
@SuppressWarnings("ArrayRecordComponent") // never compared
public record SimulatedTake(
    Optional<TestSignal> signal,
    Intervention intervention,
    double volts,
    double[][] microphones,
    Optional<double[]> voltage,
    Optional<double[]> current,
    Optional<double[]> shaking,
    List<Margin> margins) {
  /** Samples a second. */
  public static final double RATE = Microphones.RATE;

  /** What the tester did. */
  public enum Intervention {
    NONE,
    HAND_ON_PANEL,
    PORT_BLOCKED,
    OUT_OF_BOX,
    OTHER_AMPLIFIER,
    INPUTS_SHORTED,
    TRIM_OFF
  }

  /**
   * How far a fault stands out.
   *
   * @param acts whether it does anything
   * @param decibels its own sound over noise and ordinary distortion in its best octave band
   * @param frequency of the tone where it does so, Hz; 0 when idle
   */
  public record Margin(Fault fault, boolean acts, double decibels, double frequency) {}
}
