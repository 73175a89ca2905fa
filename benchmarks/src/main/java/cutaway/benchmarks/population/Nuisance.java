package cutaway.benchmarks.population;

import cutaway.acoustics.meter.FrequencyWeighting;
import cutaway.acoustics.meter.PowerSpectrum;
import java.util.EnumSet;
import java.util.Random;

/** Sounds of the room and troubles of a recording, which are no fault of the unit. */
public enum Nuisance {
  VENTILATION,
  FAN,
  CLOCK,
  CAR,
  SPEECH,
  FOOTSTEPS,
  KEYBOARD,
  RAIN,
  ROOM_RATTLE,
  MICROPHONE_HUM,
  OVERLOAD,
  GAP;

  private static final double RATE = 48000;

  /** Whether it is a sound that comes to all microphones alike. */
  boolean isSound() {
    return !EnumSet.of(ROOM_RATTLE, MICROPHONE_HUM, OVERLOAD, GAP).contains(this);
  }

  /** The sound itself, Pa, at so many dB(A) over the whole. */
  double[] sound(int n, double level, Random r) {
    double[] out = new double[n];
    switch (this) {
      case VENTILATION -> noise(out, r, 0.02, 1);
      case FAN -> fan(out, r);
      case CLOCK -> clicks(out, r, r.nextBoolean() ? 1 : 0.5, 0, 3000, 0.004);
      case CAR -> car(out, r);
      case SPEECH -> speech(out, r);
      case FOOTSTEPS -> clicks(out, r, 0.55, 0.05, 90, 0.05);
      case KEYBOARD -> clicks(out, r, 0.16, 0.1, 2500, 0.006);
      case RAIN -> clicks(out, r, 0.004, 0.004, 4000, 0.002);
      default -> throw new IllegalStateException(this + " is no sound of the room");
    }
    double now = FrequencyWeighting.A.level(PowerSpectrum.of(out, RATE));
    double scale = Math.pow(10, (level - now) / 20);
    for (int i = 0; i < n; i++) {
      out[i] *= scale;
    }
    return out;
  }

  /** White noise through one or more poles. */
  private static void noise(double[] out, Random r, double pole, double strength) {
    double s = 0;
    for (int i = 0; i < out.length; i++) {
      s += pole * (r.nextGaussian() - s);
      out[i] += strength * s;
    }
  }

  private static void fan(double[] out, Random r) {
    noise(out, r, 0.05, 1);
    double blade = Loudspeaker.in(r, 60, 240);
    for (int k = 1; k <= 4; k++) {
      double a = Loudspeaker.in(r, 0.02, 0.2) / k;
      double wander = 0;
      double phase = 6.28 * r.nextDouble();
      for (int i = 0; i < out.length; i++) {
        wander += 1e-6 * r.nextGaussian();
        phase += 2 * Math.PI * k * blade * (1 + wander) / RATE;
        out[i] += a * Math.sin(phase);
      }
    }
  }

  private static void clicks(
      double[] out, Random r, double every, double jitter, double ring, double decay) {
    double at = every * r.nextDouble();
    while (at < out.length / RATE) {
      double a = jitter == 0 ? 1 : Math.exp(0.5 * r.nextGaussian());
      double f = ring * Loudspeaker.in(r, 0.8, 1.25);
      int from = (int) (at * RATE);
      for (int i = from; i < Math.min(out.length, from + 6 * decay * RATE); i++) {
        double t = (i - from) / RATE;
        out[i] += a * Math.exp(-t / decay) * Math.sin(2 * Math.PI * f * t);
      }
      at += Math.max(0.001, every + jitter * r.nextGaussian());
    }
  }

  private static void car(double[] out, Random r) {
    noise(out, r, 0.015, 1);
    double middle = r.nextDouble() * out.length;
    double width = Loudspeaker.in(r, 0.6, 2) * RATE;
    for (int i = 0; i < out.length; i++) {
      double off = (i - middle) / width;
      out[i] *= 0.1 + Math.exp(-off * off);
    }
  }

  private static void speech(double[] out, Random r) {
    double pitch = Loudspeaker.in(r, 95, 220);
    double phase = 0;
    double syllable = 0;
    double[] formant = {500, 1500, 2500};
    double[][] state = new double[3][2];
    boolean loud = true;
    for (int i = 0; i < out.length; i++) {
      if (syllable-- <= 0) {
        syllable = Loudspeaker.in(r, 0.1, 0.3) * RATE;
        loud = r.nextDouble() < 0.7;
        formant[0] = Loudspeaker.in(r, 300, 800);
        formant[1] = Loudspeaker.in(r, 900, 2200);
        pitch *= Math.exp(0.05 * r.nextGaussian());
      }
      phase += pitch / RATE;
      double pulse = phase >= 1 && loud ? 1 : 0.003 * r.nextGaussian();
      phase -= Math.floor(phase);
      for (int k = 0; k < 3; k++) {
        double w = 2 * Math.PI * formant[k];
        double a = pulse * RATE - w / 8 * state[k][1] - w * w * state[k][0];
        state[k][1] += a / RATE;
        state[k][0] += state[k][1] / RATE;
        out[i] += w * state[k][1] / RATE / (k + 1);
      }
    }
  }
}
