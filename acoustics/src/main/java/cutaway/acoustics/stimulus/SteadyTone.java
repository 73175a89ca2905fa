package cutaway.acoustics.stimulus;

import java.util.ArrayList;
import java.util.List;

/**
 * One tone at several levels, one after another.
 *
 * @param frequency Hz
 * @param amplitudes peak of each
 * @param seconds each lasts
 * @param gap silence between them, s
 * @param lead silence before and after, s
 */
public record SteadyTone(
    double frequency, List<Double> amplitudes, double seconds, double gap, double lead)
    implements TestSignal {
  public SteadyTone {
    amplitudes = List.copyOf(amplitudes);
    if (!(frequency > 0 && seconds > 0 && gap >= 0 && lead >= 0) || amplitudes.isEmpty()) {
      throw new IllegalArgumentException("a tone needs a frequency, a time and a level");
    }
  }

  @Override
  public double duration() {
    return 2 * lead + amplitudes.size() * seconds + (amplitudes.size() - 1) * gap;
  }

  @Override
  public List<Tone> tones() {
    List<Tone> out = new ArrayList<>();
    for (int i = 0; i < amplitudes.size(); i++) {
      double start = lead + i * (seconds + gap);
      out.add(new Tone(start, start + seconds, frequency, 0, 0, amplitudes.get(i)));
    }
    return List.copyOf(out);
  }

  @Override
  public double[] samples(double rate) {
    double fade = Math.min(seconds / 4, Math.max(0.02, 2 / frequency));
    return new Fade(fade, fade).sound(tones(), length(rate), rate);
  }
}
