package cutaway.benchmarks.population;

import cutaway.acoustics.stimulus.MusicClip;
import java.util.Random;

/** Music that nobody wrote: bass, drums and chords at a steady beat, with silence before it. */
final class InventedMusic {
  private static final double RATE = 48000;
  private static final double SECONDS = 7;
  private static final double SILENCE = 0.4;

  /** Semitones of a scale of five notes. */
  private static final int[] SCALE = {0, 3, 5, 7, 10};

  private final Random random;
  private final double beat;
  private final double key;
  private final double[] out = new double[(int) ((SECONDS + 2 * SILENCE) * RATE)];

  private InventedMusic(Random random) {
    this.random = random;
    this.beat = 60 / Loudspeaker.in(random, 80, 150);
    this.key = Loudspeaker.over(random, 36, 65);
  }

  /** Draws some, as loud as can be. */
  static MusicClip draw(Random random) {
    return new InventedMusic(random).played();
  }

  private MusicClip played() {
    double bass = Loudspeaker.in(random, 0.4, 1);
    double drums = Loudspeaker.in(random, 0.2, 1);
    double chords = Loudspeaker.in(random, 0.1, 0.6);
    int beats = (int) (SECONDS / beat);
    for (int b = 0; b < beats; b++) {
      double at = SILENCE + b * beat;
      double root = note(key);
      note(at, root, bass, beat * (random.nextDouble() < 0.3 ? 0.5 : 0.95), 6);
      drum(at, b % 2 == 0, drums);
      hiss(at + beat / 2, 0.03, 0.2 * drums);
      if (b % 4 == 0) {
        for (int voice = 0; voice < 3; voice++) {
          note(at, note(8 * key), chords / 3, 4 * beat, 8);
        }
      }
    }
    return new MusicClip(loudest(), RATE);
  }

  private double note(double from) {
    return from * Math.pow(2, SCALE[random.nextInt(SCALE.length)] / 12.0);
  }

  /** Plucked: each partial softer than the last, and sooner gone. */
  private void note(double at, double frequency, double loud, double seconds, int partials) {
    int from = (int) (at * RATE);
    int n = (int) Math.min(seconds * RATE, out.length - from);
    for (int k = 1; k <= partials; k++) {
      double a = loud * Math.pow(k, -1.3) * Loudspeaker.in(random, 0.5, 1);
      double phase = 2 * Math.PI * random.nextDouble();
      for (int i = 0; i < n; i++) {
        double t = i / RATE;
        double ends = Math.min(1, (n - i) / (0.02 * RATE));
        out[from + i] +=
            a
                * Math.min(1, t / 0.005)
                * Math.exp(-t * (0.6 + 0.5 * k))
                * ends
                * Math.sin(2 * Math.PI * k * frequency * t + phase);
      }
    }
  }

  private void drum(double at, boolean low, double loud) {
    int from = (int) (at * RATE);
    for (int i = 0; i < Math.min(0.25 * RATE, out.length - from); i++) {
      double t = i / RATE;
      double falls = 2 * Math.PI * (50 * t + 90 * 0.03 * (1 - Math.exp(-t / 0.03)));
      out[from + i] += low ? loud * Math.exp(-t / 0.1) * Math.sin(falls) : 0;
    }
    if (!low) {
      hiss(at, 0.08, 0.5 * loud);
    }
  }

  private void hiss(double at, double decay, double loud) {
    int from = (int) (at * RATE);
    for (int i = 0; i < Math.min(6 * decay * RATE, out.length - from); i++) {
      out[from + i] += 0.4 * loud * Math.exp(-i / RATE / decay) * random.nextGaussian();
    }
  }

  private double[] loudest() {
    double most = Recorder.most(out);
    for (int i = 0; i < out.length; i++) {
      out[i] /= most;
    }
    return out;
  }
}
