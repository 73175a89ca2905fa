package cutaway.benchmarks.population;

import cutaway.acoustics.signal.CrossSpectrum;
import cutaway.acoustics.signal.Fft;
import cutaway.acoustics.stimulus.TestSignal;
import cutaway.acoustics.stimulus.Tone;
import java.util.List;
import java.util.Optional;
import org.jtransforms.fft.DoubleFFT_1D;

/**
 * How far the sound of a fault stands out of all else in a recording. The truth that what listens
 * is judged by, so it shares no code with that.
 */
final class Standing {
  private static final double LOWEST_BAND = 250;
  private static final int BANDS = 7;
  private static final double WINDOW = 0.1;

  /** Only bands this far over the tone are judged: low harmonics are ordinary. */
  private static final double OVER_TONE = 4;

  /** Highest level over background, dB, and the tone's frequency there, Hz. */
  record Best(double decibels, double frequency) {}

  private Standing() {}

  /**
   * Looks through octave bands and windows of 0.1 s.
   *
   * @param fault its sound alone, microphone × sample
   * @param rest everything else
   * @param delay of the recording, s
   */
  static Best of(double[][] fault, double[][] rest, Optional<TestSignal> signal, double delay) {
    Best best = new Best(-99, 0);
    for (int m = 0; m < fault.length; m++) {
      for (int b = 0; b < BANDS; b++) {
        double centre = LOWEST_BAND * Math.pow(2, b);
        double[] loud = band(fault[m], centre);
        double[] quiet = band(rest[m], centre);
        int step = (int) (WINDOW / 2 * Microphones.RATE);
        for (int from = step; from + 3 * step < loud.length; from += step) {
          double frequency = frequency(signal, (from + step) / Microphones.RATE - delay);
          if (OVER_TONE * frequency > centre) {
            continue;
          }
          double over = 10 * Math.log10(power(loud, from, 2 * step) / power(quiet, from, 2 * step));
          if (over > best.decibels) {
            best = new Best(over, frequency);
          }
        }
      }
    }
    return best;
  }

  /** Of the tone that sounds at a time; endless where one comes or goes. */
  private static double frequency(Optional<TestSignal> signal, double time) {
    List<Tone> tones = signal.map(TestSignal::tones).orElse(List.of());
    if (tones.isEmpty()) {
      return 0;
    }
    for (Tone tone : tones) {
      double settle = tone.isSteady() ? 0.35 : 0.1;
      if (time > tone.start() + settle && time < tone.end() - 0.1) {
        return tone.frequency(time);
      }
    }
    return Double.POSITIVE_INFINITY;
  }

  private static double power(double[] x, int from, int n) {
    double sum = 1e-14;
    for (int i = from; i < from + n; i++) {
      sum += x[i] * x[i];
    }
    return sum;
  }

  private static double[] band(double[] x, double centre) {
    int size = CrossSpectrum.roomyLength(x.length);
    double[] y = new double[size];
    System.arraycopy(x, 0, y, 0, x.length);
    DoubleFFT_1D fft = Fft.of(size);
    fft.realForward(y);
    for (int k = 0; k < size / 2; k++) {
      double f = k * Microphones.RATE / size;
      if (f < centre / Math.sqrt(2) || f >= centre * Math.sqrt(2)) {
        y[2 * k] = 0;
        y[2 * k + 1] = 0;
      }
    }
    y[1] = 0;
    fft.realInverse(y, true);
    return y;
  }
}
