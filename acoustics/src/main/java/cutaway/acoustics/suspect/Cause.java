package cutaway.acoustics.suspect;

import cutaway.acoustics.fault.Family;
import cutaway.acoustics.fault.Intervention;
import java.util.Arrays;
import java.util.Optional;

/**
 * What is really the matter: finer than a suspect, as kinds of one suspect leave different clues.
 */
public enum Cause {
  COIL_RUB(Suspect.COIL_RUB, Origin.DRIVE_UNIT, Trace.MOVING),
  LOOSE_ON_CONE(Suspect.LOOSE_ON_DRIVE_UNIT, Origin.DRIVE_UNIT, Trace.MOVING),
  WIRE_SLAP(Suspect.LOOSE_ON_DRIVE_UNIT, Origin.DRIVE_UNIT, Trace.MOVING),
  LOOSE_CAP(Suspect.LOOSE_ON_DRIVE_UNIT, Origin.DRIVE_UNIT, Trace.MOVING),
  LOOSE_ON_PANEL(Suspect.LOOSE_ON_CABINET, Origin.CABINET, Trace.MOVING),
  PANEL_BUZZ(Suspect.LOOSE_ON_CABINET, Origin.CABINET, Trace.MOVING),
  LOOSE_TRIM(Suspect.TRIM, Origin.CABINET, Trace.MOVING),
  AIR_LEAK(Suspect.AIR_LEAK, Origin.AIR_PATH, Trace.MOVING),
  PORT_NOISE(Suspect.PORT_NOISE, Origin.AIR_PATH, Trace.MOVING),
  CLIPPING_HARD(Suspect.OVERLOAD, Origin.AMPLIFIER, Trace.AMPLIFIER),
  CLIPPING_SOFT(Suspect.OVERLOAD, Origin.AMPLIFIER, Trace.AMPLIFIER),
  SLEWING(Suspect.OVERLOAD, Origin.AMPLIFIER, Trace.AMPLIFIER),
  LIMITER_PUMPING(Suspect.LIMITER, Origin.AMPLIFIER, Trace.AMPLIFIER),
  PROTECTION_MUTE(Suspect.MUTE, Origin.AMPLIFIER, Trace.AMPLIFIER),
  CONTACT_MUTE(Suspect.MUTE, Origin.AMPLIFIER, Trace.AMPLIFIER),
  HUM_MAGNETIC(Suspect.HUM_PICKED_UP, Origin.AMPLIFIER, Trace.MAINS),
  HUM_MAGNETIC_AT_INPUT(Suspect.HUM_PICKED_UP, Origin.INPUT_WIRING, Trace.MAINS),
  HUM_RECTIFIER(Suspect.HUM_RECTIFIER, Origin.AMPLIFIER, Trace.MAINS),
  HUM_RECTIFIER_AT_INPUT(Suspect.HUM_RECTIFIER, Origin.INPUT_WIRING, Trace.MAINS),
  HUM_GROUND_LOOP(Suspect.HUM_GROUND_LOOP, Origin.AMPLIFIER, Trace.MAINS),
  HUM_GROUND_LOOP_AT_INPUT(Suspect.HUM_GROUND_LOOP, Origin.INPUT_WIRING, Trace.MAINS),
  TRANSFORMER(Suspect.TRANSFORMER, Origin.AMPLIFIER, Trace.MAINS),
  HISS(Suspect.HISS, Origin.AMPLIFIER, Trace.HISS),
  HISS_AT_INPUT(Suspect.HISS, Origin.INPUT_WIRING, Trace.HISS),
  IDLE_TONE(Suspect.STRAY_TONE, Origin.AMPLIFIER, Trace.STRAY),
  IDLE_TONE_AT_INPUT(Suspect.STRAY_TONE, Origin.INPUT_WIRING, Trace.STRAY),
  VENTILATION(Suspect.OUTSIDE_NOISE, Origin.OUTSIDE, Trace.ROOM),
  FAN(Suspect.OUTSIDE_NOISE, Origin.OUTSIDE, Trace.ROOM),
  CLOCK(Suspect.OUTSIDE_NOISE, Origin.OUTSIDE, Trace.ROOM),
  CAR(Suspect.OUTSIDE_NOISE, Origin.OUTSIDE, Trace.ROOM),
  SPEECH(Suspect.OUTSIDE_NOISE, Origin.OUTSIDE, Trace.ROOM),
  FOOTSTEPS(Suspect.OUTSIDE_NOISE, Origin.OUTSIDE, Trace.ROOM),
  KEYBOARD(Suspect.OUTSIDE_NOISE, Origin.OUTSIDE, Trace.ROOM),
  RAIN(Suspect.OUTSIDE_NOISE, Origin.OUTSIDE, Trace.ROOM),
  ROOM_RATTLE(Suspect.OUTSIDE_NOISE, Origin.OUTSIDE, Trace.MOVING),
  MICROPHONE_HUM(Suspect.RECORDING, Origin.OUTSIDE, Trace.MAINS),
  OVERLOAD(Suspect.RECORDING, Origin.OUTSIDE, Trace.OVERLOADED),
  GAP(Suspect.RECORDING, Origin.OUTSIDE, Trace.GAP);

  /** Which families of clues a cause disturbs; all others are as if it were not there. */
  private enum Trace {
    MOVING,
    AMPLIFIER,
    MAINS,
    HISS,
    STRAY,
    ROOM,
    OVERLOADED,
    GAP;

    boolean leftIn(Family family) {
      boolean driven =
          switch (family) {
            case SWEPT, ELSEWHERE, BESIDE, STANDING, MUSIC, MOMENT, LEFT -> true;
            default -> false;
          };
      boolean noise = family == Family.HISS || family == Family.HISS_LEFT;
      return switch (this) {
        case MOVING -> driven;
        case AMPLIFIER -> driven || family == Family.VOLTAGE || family == Family.SOUND;
        case MAINS -> family == Family.MAINS || family == Family.MAINS_LEFT;
        case HISS -> noise;
        case STRAY ->
            noise
                || family == Family.STRAY
                || family == Family.STRAY_LEFT
                || family == Family.UNSTEADY;
        case ROOM -> family != Family.VOLTAGE && family != Family.FLAWS;
        case OVERLOADED -> driven || family == Family.SOUND || family == Family.FLAWS;
        case GAP -> family != Family.VOLTAGE;
      };
    }
  }

  private final Suspect suspect;
  private final Origin origin;
  private final Trace trace;

  Cause(Suspect suspect, Origin origin, Trace trace) {
    this.suspect = suspect;
    this.origin = origin;
    this.trace = trace;
  }

  /** What a tester would call it. */
  public Suspect suspect() {
    return suspect;
  }

  /** Where it comes from. */
  public Origin origin() {
    return origin;
  }

  /** Whether it changes the clues of a family. */
  public boolean disturbs(Family family) {
    return trace.leftIn(family);
  }

  /** Whether it comes in through the input, where the same may be made inside as well. */
  public boolean atInput() {
    return origin == Origin.INPUT_WIRING;
  }

  /**
   * The one whose clues it leaves: what comes in through the input sounds like what is made inside.
   */
  public Cause soundsLike() {
    return switch (this) {
      case HUM_MAGNETIC_AT_INPUT -> HUM_MAGNETIC;
      case HUM_RECTIFIER_AT_INPUT -> HUM_RECTIFIER;
      case HUM_GROUND_LOOP_AT_INPUT -> HUM_GROUND_LOOP;
      case HISS_AT_INPUT -> HISS;
      case IDLE_TONE_AT_INPUT -> IDLE_TONE;
      default -> this;
    };
  }

  /** The same coming in through the input, absent where it cannot. */
  public Optional<Cause> orAtInput() {
    return Arrays.stream(values()).filter(c -> c.atInput() && c.soundsLike() == this).findFirst();
  }

  /** What an intervention does to it (common practice and the physics of each, no source). */
  public Effect under(Intervention intervention) {
    if (intervention == Intervention.NONE || this == MICROPHONE_HUM) {
      return Effect.STAYS;
    }
    if (origin == Origin.OUTSIDE) {
      return Effect.BY_CHANCE;
    }
    return switch (intervention) {
      case OTHER_AMPLIFIER -> isElectrical() ? Effect.GONE : Effect.STAYS;
      case INPUTS_SHORTED -> atInput() ? Effect.GONE : Effect.STAYS;
      case OUT_OF_BOX -> outOfBox();
      case PORT_BLOCKED ->
          this == PORT_NOISE ? Effect.GONE : trace == Trace.MOVING ? Effect.MOVED : Effect.STAYS;
      case HAND_ON_WALL ->
          origin == Origin.CABINET && this != LOOSE_TRIM ? Effect.DAMPED : Effect.STAYS;
      case TRIM_OFF -> this == LOOSE_TRIM ? Effect.GONE : Effect.STAYS;
      case FEET_DECOUPLED -> origin == Origin.CABINET ? Effect.MOVED : Effect.STAYS;
      case CABLE_MOVED -> atInput() || this == CONTACT_MUTE ? Effect.BY_CHANCE : Effect.STAYS;
      case NONE -> Effect.STAYS;
    };
  }

  private Effect outOfBox() {
    return switch (origin) {
      case CABINET, AIR_PATH -> Effect.GONE;
      case DRIVE_UNIT -> Effect.MOVED;
      default -> Effect.STAYS;
    };
  }

  /** In the voltage; a transformer shakes whatever amplifier plays. */
  private boolean isElectrical() {
    return this != TRANSFORMER && (origin == Origin.AMPLIFIER || origin == Origin.INPUT_WIRING);
  }
}
