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

  /** Whether it hears sound in the air. */
  public boolean isMicrophone() {
    return switch (this) {
      case CONE, PORT, REAR, WALL, AMPLIFIER, LISTENER -> true;
      case VOLTAGE, CURRENT, SHAKING -> false;
    };
  }
}
