package cutaway.benchmarks.population;

/** What may be wrong with an invented unit. */
public enum Fault {
  COIL_RUB(Kind.DRIVEN),
  LOOSE_ON_CONE(Kind.DRIVEN),
  LOOSE_ON_PANEL(Kind.DRIVEN),
  PANEL_BUZZ(Kind.DRIVEN),
  WIRE_SLAP(Kind.DRIVEN),
  LOOSE_CAP(Kind.DRIVEN),
  LOOSE_TRIM(Kind.DRIVEN),
  AIR_LEAK(Kind.DRIVEN),
  PORT_NOISE(Kind.DRIVEN),
  CLIPPING_HARD(Kind.AMPLIFIER),
  CLIPPING_SOFT(Kind.AMPLIFIER),
  SLEWING(Kind.AMPLIFIER),
  LIMITER_PUMPING(Kind.AMPLIFIER),
  PROTECTION_MUTE(Kind.AMPLIFIER),
  CONTACT_MUTE(Kind.AMPLIFIER),
  HUM_MAGNETIC(Kind.VOLTAGE),
  HUM_RECTIFIER(Kind.VOLTAGE),
  HUM_GROUND_LOOP(Kind.VOLTAGE),
  HISS(Kind.VOLTAGE),
  IDLE_TONE(Kind.VOLTAGE),
  TRANSFORMER(Kind.SHAKEN);

  /** How it comes about. */
  enum Kind {
    /** Moved by the loudspeaker, and makes sound of its own. */
    DRIVEN,
    /** Changes the voltage. */
    AMPLIFIER,
    /** Adds a voltage, signal or not. */
    VOLTAGE,
    /** Shakes a panel, signal or not. */
    SHAKEN
  }

  private final Kind kind;

  Fault(Kind kind) {
    this.kind = kind;
  }

  Kind kind() {
    return kind;
  }
}
