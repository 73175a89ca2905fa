package cutaway.benchmarks;

import cutaway.acoustics.stimulus.ExponentialSweep;
import cutaway.acoustics.stimulus.Harmonics;
import cutaway.acoustics.stimulus.Tone;
import cutaway.acoustics.stimulus.ToneGrid;
import java.util.Locale;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * The harmonics of one sweep of 8 s, 15 Hz to 2 kHz, taken out of one channel at 48 kHz. {@code
 * side-by-side/harmonics.py} does the same with NumPy.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 5, time = 2)
@Measurement(iterations = 5, time = 2)
@Fork(1)
public class HarmonicsBenchmark {
  private static final ExponentialSweep SWEEP =
      new ExponentialSweep(15, 2000, 8 / Math.log(2000 / 15.0), 0.25, 1);

  private final double[] recording = recording();

  private static double[] recording() {
    double[] x = SWEEP.samples(48000);
    Random random = new Random(1);
    for (int i = 0; i < x.length; i++) {
      x[i] += 0.1 * x[i] * x[i] + 0.03 * x[i] * x[i] * x[i] + 1e-3 * random.nextGaussian();
    }
    return x;
  }

  /** What is left. */
  @Benchmark
  public double[] takenOut() {
    Tone tone = SWEEP.tones().get(0);
    ToneGrid grid = new ToneGrid(tone, 48000, recording.length);
    double[] left = recording.clone();
    Harmonics.takeOut(left, grid, HarmonicsBenchmark::orders);
    return left;
  }

  private static int orders(double frequency) {
    return (int) Math.max(5, Math.min(14, Math.rint(600 / frequency)));
  }

  /** Prints how much is left, for the comparison: root mean square. */
  public static void main(String... args) {
    double sum = 0;
    double[] left = new HarmonicsBenchmark().takenOut();
    for (double v : left) {
      sum += v * v;
    }
    System.out.printf(Locale.ROOT, "%.6e%n", Math.sqrt(sum / left.length));
  }
}
