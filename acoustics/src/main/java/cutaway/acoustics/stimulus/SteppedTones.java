package cutaway.acoustics.stimulus;

import java.util.ArrayList;
import java.util.List;

/**
 * Tones of rising frequency, one after another.
 *
 * @param frequencies Hz
 * @param seconds each lasts
 * @param lead silence before and after, s
 * @param amplitude peak
 */
public record SteppedTones(List<Double> frequencies, double seconds, double lead, double amplitude)
    implements TestSignal {
  public SteppedTones {
    frequencies = List.copyOf(frequencies);
    if (!(seconds > 0 && lead >= 0) || frequencies.isEmpty()) {
      throw new IllegalArgumentException("stepped tones need frequencies and a time");
    }
  }

  @Override
  public double duration() {
    return 2 * lead + frequencies.size() * seconds;
  }

  @Override
  public List<Tone> tones() {
    List<Tone> out = new ArrayList<>();
    for (int i = 0; i < frequencies.size(); i++) {
      double start = lead + i * seconds;
      out.add(new Tone(start, start + seconds, frequencies.get(i), 0, 0, amplitude));
    }
    return List.copyOf(out);
  }

  @Override
  public double[] samples(double rate) {
    return new Fade(0.01, 0.01).sound(tones(), length(rate), rate);
  }
}
