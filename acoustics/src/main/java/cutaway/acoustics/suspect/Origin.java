package cutaway.acoustics.suspect;

/** Where a noise comes from. */
public enum Origin {
  DRIVE_UNIT("the drive unit"),
  CABINET("the cabinet"),
  AIR_PATH("the air path: port or leak"),
  AMPLIFIER("the amplifier or its supply"),
  INPUT_WIRING("the wiring to the input"),
  OUTSIDE("outside the unit");

  private final String words;

  Origin(String words) {
    this.words = words;
  }

  /** Whether a part of what is tested, or of how it is connected, is at fault. */
  public boolean isFault() {
    return this != OUTSIDE;
  }

  /** In plain words. */
  public String words() {
    return words;
  }
}
