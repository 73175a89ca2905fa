package cutaway.benchmarks;

import cutaway.acoustics.driveunit.VoltageDivider;
import cutaway.acoustics.driveunit.VoltageDivider.Listening;
import cutaway.acoustics.signal.Capture;
import cutaway.acoustics.signal.SoundSource;
import java.util.Optional;
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
 * Ten seconds of sweep at 96 kHz, two channels in memory, to impedance: checks, hum, transform,
 * local polynomials. {@code side-by-side/capture.py} does with NumPy what its users do: spectra and
 * a band-averaged ratio.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 4, time = 2)
@Measurement(iterations = 5, time = 2)
@Fork(1)
public class CaptureBenchmark {
  private static final double RATE = 96000;
  private final SoundSource recording = recording();

  private static SoundSource recording() {
    double[] first = new double[(int) (10 * RATE)];
    double[] second = new double[first.length];
    Random random = new Random(1);
    double duration = 9;
    double l = duration / Math.log(4000);
    for (int i = 0; i < first.length; i++) {
      double t = i / RATE - 0.5;
      double on = t > 0 && t < duration ? 0.5 : 0;
      first[i] = on * Math.sin(2 * Math.PI * 5 * l * (Math.exp(t / l) - 1));
      second[i] = 0.6 * first[i] + 1e-5 * random.nextGaussian();
    }
    return SoundSource.of(RATE, first, second);
  }

  /** Everything from samples to impedance. */
  @Benchmark
  public Optional<VoltageDivider> impedance() {
    Capture capture = Capture.of(recording, new double[] {50}, 10, 20000);
    return VoltageDivider.of(capture, Listening.DRIVE_UNIT, 4.7, Optional.empty(), 0);
  }
}
