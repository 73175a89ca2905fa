package cutaway.acoustics.fault;

/** Where a channel of a recording listens. */
public enum Sensor {
  /** A microphone a few cm before the cone. */
  CONE,
  /** One at the mouth of the port. */
  PORT,
  /** One behind the box. */
  REAR,
  /** One close to a wall. */
  WALL,
  /** One at the amplifier. */
  AMPLIFIER,
  /** One where a listener sits. */
  LISTENER,
  /** The voltage at the drive unit. */
  VOLTAGE,
  /** The current through it. */
  CURRENT,
  /** An accelerometer on a wall. */
  SHAKING;

  /**
   * How far off its source a microphone usually is, m (common practice, no source). Before a cone
   * the sound is that of a point half its radius off (near field of a piston), which counts where
   * it is nearer still.
   */
  public double usualDistance() {
    return switch (this) {
      case CONE, PORT -> 0.04;
      case WALL -> 0.08;
      case REAR -> 0.1;
      case AMPLIFIER -> 0.3;
      case LISTENER -> 2;
      case VOLTAGE, CURRENT, SHAKING -> throw new IllegalStateException(this + " hears nothing");
    };
  }

  /** Whether it is a microphone so near that the room's ringing is much softer than the unit. */
  public boolean isNear() {
    return isMicrophone() && this != AMPLIFIER && this != LISTENER;
  }

  /** Whether it hears sound in the air. */
  public boolean isMicrophone() {
    return switch (this) {
      case CONE, PORT, REAR, WALL, AMPLIFIER, LISTENER -> true;
      case VOLTAGE, CURRENT, SHAKING -> false;
    };
  }
}
