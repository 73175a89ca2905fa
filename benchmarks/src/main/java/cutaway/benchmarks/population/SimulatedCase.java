package cutaway.benchmarks.population;

import java.util.List;
import java.util.Set;

/**
 * An invented unit, its takes, and what is wrong with it.
 *
 * @param seed it was drawn from
 * @param vented whether it has a port
 * @param powered whether it has an amplifier of its own
 * @param resonance of the drive unit alone, Hz
 * @param tuning of the box, Hz; 0 where it is sealed
 * @param rings what its walls were heard to ring at when knocked, Hz; empty where they were not
 * @param mains Hz
 * @param faults none, one or two
 * @param throughInput whether what is added to its voltage comes in through its input
 * @param nuisances that are no fault of it
 * @param takes recordings
 */
public record SimulatedCase(
    long seed,
    boolean vented,
    boolean powered,
    double resonance,
    double tuning,
    List<Double> rings,
    double mains,
    Set<Fault> faults,
    boolean throughInput,
    Set<Nuisance> nuisances,
    List<SimulatedTake> takes) {
  public SimulatedCase {
    rings = List.copyOf(rings);
    faults = Set.copyOf(faults);
    nuisances = Set.copyOf(nuisances);
    takes = List.copyOf(takes);
  }

  /** Best margin of a fault over all takes, dB. */
  public double margin(Fault fault) {
    return takes.stream()
        .flatMap(t -> t.margins().stream())
        .filter(m -> m.fault() == fault)
        .mapToDouble(SimulatedTake.Margin::decibels)
        .max()
        .orElse(Double.NEGATIVE_INFINITY);
  }
}
