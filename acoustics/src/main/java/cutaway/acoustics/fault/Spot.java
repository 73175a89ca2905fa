package cutaway.acoustics.fault;

/**
 * A moment of a driven take and a band in which something is left over.
 *
 * @param tone which of the tones, counted from 0; 0 of music
 * @param since time since the tone or the music began, s
 * @param half of the window about it, s
 * @param frequency of the tone then, Hz; 0 of music
 * @param band middle of the octave band, Hz
 * @param sensor microphone that hears it loudest
 * @param level at that microphone, dB SPL
 * @param margin over the silent background, dB
 * @param lasts whether it sounds on, or is one moment alone
 */
public record Spot(
    int tone,
    double since,
    double half,
    double frequency,
    double band,
    Sensor sensor,
    double level,
    double margin,
    boolean lasts) {
  /** Whether it is music that plays there. */
  public boolean ofMusic() {
    return frequency == 0;
  }
}
