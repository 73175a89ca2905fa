package cutaway.acoustics.fault;

/** What was done to a unit while it was recorded. */
public enum Intervention {
  NONE,
  HAND_ON_WALL,
  PORT_BLOCKED,
  OUT_OF_BOX,
  OTHER_AMPLIFIER,
  INPUTS_SHORTED,
  TRIM_OFF,
  CABLE_MOVED,
  FEET_DECOUPLED
}
