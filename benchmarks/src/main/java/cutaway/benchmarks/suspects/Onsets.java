package cutaway.benchmarks.suspects;

import cutaway.acoustics.estimate.Estimate;
import cutaway.acoustics.fault.Onset;
import cutaway.acoustics.fault.TakeClues;
import cutaway.benchmarks.population.Population;
import cutaway.benchmarks.population.SimulatedCase;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.stream.LongStream;

/**
 * How well the level is found from which a noise sounds, on invented units with one driven fault
 * and a quiet room: {@code Onsets FROM TO} prints, for each, the truth and what each driver tells.
 */
public final class Onsets {
  private Onsets() {}

  /** First seed, and the one after the last. */
  public static void main(String... args) {
    PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
    LongStream.range(Long.parseLong(args[0]), Long.parseLong(args[1]))
        .parallel()
        .forEach(seed -> print(seed, out));
  }

  private static void print(long seed, PrintStream out) {
    SimulatedCase unit = Population.draw(seed);
    if (unit.faults().size() != 1 || !unit.nuisances().isEmpty()) {
      return;
    }
    for (Population.Onset truth : Population.onsets(seed)) {
      for (TakeClues take : CaseClues.read(unit)) {
        for (Onset found : take.onsets()) {
          Estimate level = found.level();
          out.printf(
              Locale.ROOT,
              "%d %s %.1f Hz %.1f dB: %s %.1f Hz %.1f ± %.1f dB%n",
              seed,
              truth.fault(),
              truth.frequency(),
              truth.decibels(),
              found.by(),
              found.frequency(),
              level.value(),
              level.sd());
        }
      }
    }
  }
}
