package cutaway.acoustics.stimulus;

import cutaway.acoustics.signal.Interpolation;
import java.util.Arrays;
import java.util.List;

/**
 * Music, or whatever else was recorded to be played.
 *
 * @param recording samples, full scale 1; kept, not copied
 * @param rate samples a second
 */
@SuppressWarnings("ArrayRecordComponent") // compared by what it holds
public record MusicClip(double[] recording, double rate) implements TestSignal {
  public MusicClip {
    if (recording.length == 0 || !(rate > 0)) {
      throw new IllegalArgumentException("music needs samples and their rate");
    }
  }

  @Override
  public double duration() {
    return recording.length / rate;
  }

  @Override
  public List<Tone> tones() {
    return List.of();
  }

  @Override
  public double[] samples(double rate) {
    return rate == this.rate
        ? recording.clone()
        : Interpolation.at(recording, 0, this.rate / rate, length(rate));
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof MusicClip clip
        && clip.rate == rate
        && Arrays.equals(clip.recording, recording);
  }

  @Override
  public int hashCode() {
    return Arrays.hashCode(recording);
  }
}
