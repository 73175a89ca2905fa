package cutaway.acoustics.stimulus;

import java.util.List;

/**
 * How a tone comes and goes: raised cosines, so that it does not click.
 *
 * @param in s
 * @param out s
 */
record Fade(double in, double out) {
  private double at(Tone tone, double time) {
    return ramp((time - tone.start()) / in) * ramp((tone.end() - time) / out);
  }

  private static double ramp(double x) {
    return x <= 0 ? 0 : x >= 1 ? 1 : 0.5 - 0.5 * Math.cos(Math.PI * x);
  }

  /** Tones that do not overlap, each faded, in silence. */
  double[] sound(List<Tone> tones, int length, double rate) {
    double[] out = new double[length];
    for (Tone tone : tones) {
      int from = (int) Math.max(0, Math.ceil(tone.start() * rate));
      int to = (int) Math.min(length - 1.0, Math.floor(tone.end() * rate));
      for (int i = from; i <= to; i++) {
        double t = i / rate;
        out[i] = tone.amplitude() * at(tone, t) * Math.sin(2 * Math.PI * tone.cycles(t));
      }
    }
    return out;
  }
}
