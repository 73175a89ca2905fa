package cutaway.acoustics.stimulus;

import cutaway.acoustics.signal.CrossSpectrum;
import cutaway.acoustics.signal.Fft;
import java.util.List;
import java.util.Random;

/**
 * Noise of a colour between two frequencies, the same for the same seed.
 *
 * @param low Hz
 * @param high Hz
 * @param slope of the power over frequency, dB for each octave: 0 white, −3 pink
 * @param seconds without the silence
 * @param lead silence before and after, s
 * @param amplitude peak
 * @param seed of the phases
 */
public record TestNoise(
    double low, double high, double slope, double seconds, double lead, double amplitude, long seed)
    implements TestSignal {
  private static final double FADE = 0.05;

  public TestNoise {
    if (!(low > 0 && high > low && seconds > 4 * FADE && lead >= 0)) {
      throw new IllegalArgumentException("noise needs 0 < low < high and a time");
    }
  }

  @Override
  public double duration() {
    return 2 * lead + seconds;
  }

  @Override
  public List<Tone> tones() {
    return List.of();
  }

  @Override
  public double[] samples(double rate) {
    double[] out = new double[length(rate)];
    int n = (int) (seconds * rate);
    int size = CrossSpectrum.roomyLength(n);
    double[] x = new double[size];
    Random random = new Random(seed);
    for (int k = 1; k < size / 2; k++) {
      double f = k * rate / size;
      double angle = 2 * Math.PI * random.nextDouble();
      if (f >= low && f <= high) {
        double a = Math.pow(10, slope / 20 * Math.log(f / low) / Math.log(2));
        x[2 * k] = a * Math.cos(angle);
        x[2 * k + 1] = a * Math.sin(angle);
      }
    }
    Fft.of(size).realInverse(x, false);
    double peak = 0;
    for (int i = 0; i < n; i++) {
      double edge = Math.min(i, n - 1 - i) / (FADE * rate);
      x[i] *= edge >= 1 ? 1 : 0.5 - 0.5 * Math.cos(Math.PI * edge);
      peak = Math.max(peak, Math.abs(x[i]));
    }
    int from = (int) Math.rint(lead * rate);
    for (int i = 0; i < n && from + i < out.length; i++) {
      out[from + i] = amplitude * x[i] / peak;
    }
    return out;
  }
}
