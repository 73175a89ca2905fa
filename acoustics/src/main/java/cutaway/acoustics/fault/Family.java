package cutaway.acoustics.fault;

/** Clues of one thing, which one cause explains together. */
public enum Family {
  /** What is left over of a sweep where it stands out most. */
  SWEPT,
  /** What is left over of a sweep elsewhere, or at another microphone. */
  ELSEWHERE,
  /** What neither the voltage nor the cone's own sound explains of what is left over of a sweep. */
  BESIDE,
  /** What is left over of tones that stand. */
  STANDING,
  /** What is left over of music. */
  MUSIC,
  /** What is left over in one moment only, of a sweep or of tones. */
  MOMENT,
  /** Whether the voltage follows what is played. */
  VOLTAGE,
  /** Whether the sound's fundamental does. */
  SOUND,
  /** The mains at rest. */
  MAINS,
  /** Stray tones at rest. */
  STRAY,
  /** Noise at rest. */
  HISS,
  /** Whether rest is steady. */
  UNSTEADY,
  /** Flaws of the recording itself. */
  FLAWS,
  /** What an intervention leaves of what was left over. */
  LEFT,
  /** What it leaves of the mains. */
  MAINS_LEFT,
  /** What it leaves of stray tones. */
  STRAY_LEFT,
  /** What it leaves of noise. */
  HISS_LEFT;

  /** Whether it tells what an intervention leaves. */
  public boolean isLeft() {
    return switch (this) {
      case LEFT, MAINS_LEFT, STRAY_LEFT, HISS_LEFT -> true;
      default -> false;
    };
  }
}
