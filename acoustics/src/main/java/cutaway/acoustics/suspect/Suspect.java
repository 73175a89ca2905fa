package cutaway.acoustics.suspect;

import cutaway.acoustics.fault.Onset;
import java.util.Optional;

/** What may make an unwanted noise, as a tester would name it. */
public enum Suspect {
  COIL_RUB("coil rubbing in its gap"),
  LOOSE_ON_DRIVE_UNIT("loose part on the drive unit (dust cap, surround, lead wire)"),
  LOOSE_ON_CABINET("loose part or joint of the cabinet"),
  TRIM("trim or grille that rattles"),
  AIR_LEAK("air leak"),
  PORT_NOISE("port noise"),
  OVERLOAD("amplifier overload (cut off, bent over or too slow)"),
  LIMITER("limiter that pumps"),
  MUTE("protection or contact that mutes"),
  HUM_PICKED_UP("mains hum, picked up"),
  HUM_RECTIFIER("mains hum, ripple of the rectifier"),
  HUM_GROUND_LOOP("mains hum, ground loop"),
  TRANSFORMER("transformer that shakes a panel"),
  HISS("hiss"),
  STRAY_TONE("switching tone"),
  OUTSIDE_NOISE("noise from outside the unit"),
  RECORDING("fault of the recording"),
  NOTHING("nothing wrong");

  private final String words;

  Suspect(String words) {
    this.words = words;
  }

  /** In plain words. */
  public String words() {
    return words;
  }

  /** Whether it is a fault of what is tested, or of how it is connected. */
  public boolean isFault() {
    return this != OUTSIDE_NOISE && this != RECORDING && this != NOTHING;
  }

  /** What sets it off from some level on, absent where nothing does so or it is not known. */
  public Optional<Onset.Driver> driver() {
    return switch (this) {
      case COIL_RUB -> Optional.of(Onset.Driver.DISPLACEMENT);
      case LOOSE_ON_DRIVE_UNIT -> Optional.of(Onset.Driver.ACCELERATION);
      case PORT_NOISE -> Optional.of(Onset.Driver.PORT_FLOW);
      case OVERLOAD -> Optional.of(Onset.Driver.VOLTAGE);
      case LOOSE_ON_CABINET, TRIM, LIMITER -> Optional.of(Onset.Driver.PLAYED);
      default -> Optional.empty();
    };
  }

  /** Whether mains parts or charged capacitors lie on the way to it. */
  public boolean nearMains() {
    return switch (this) {
      case OVERLOAD,
          LIMITER,
          MUTE,
          HUM_PICKED_UP,
          HUM_RECTIFIER,
          HUM_GROUND_LOOP,
          TRANSFORMER,
          HISS,
          STRAY_TONE ->
          true;
      default -> false;
    };
  }
}
