package cutaway.benchmarks.suspects;

import cutaway.acoustics.fault.Evidence;
import cutaway.acoustics.fault.Intervention;
import cutaway.acoustics.fault.NoiseTake;
import cutaway.acoustics.fault.Sensor;
import cutaway.acoustics.fault.TakeClues;
import cutaway.acoustics.fault.TakeSeries;
import cutaway.acoustics.fault.UnitFacts;
import cutaway.acoustics.suspect.Cause;
import cutaway.benchmarks.population.Fault;
import cutaway.benchmarks.population.Nuisance;
import cutaway.benchmarks.population.SimulatedCase;
import cutaway.benchmarks.population.SimulatedTake;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Clues of an invented unit, and what was the matter.
 *
 * @param seed it was drawn from
 * @param vented whether it has a port
 * @param causes faults and nuisances
 * @param margins of each, in the order of the causes: how far a fault stands out at best, dB; 0 for
 *     a nuisance
 * @param takes clues of each take
 */
public record CaseClues(
    long seed,
    boolean vented,
    List<Cause> causes,
    List<Double> margins,
    List<List<Evidence>> takes) {
  public CaseClues {
    causes = List.copyOf(causes);
    margins = List.copyOf(margins);
    takes = takes.stream().map(List::copyOf).toList();
  }

  /** Reads the clues of a case. */
  public static CaseClues of(SimulatedCase simulated) {
    List<Cause> causes = new ArrayList<>();
    List<Double> margins = new ArrayList<>();
    for (Fault f : simulated.faults()) {
      causes.add(cause(f, simulated.throughInput()));
      margins.add(Math.max(-99, simulated.margin(f)));
    }
    for (Nuisance n : simulated.nuisances()) {
      causes.add(Cause.valueOf(n.name()));
      margins.add(0.0);
    }
    return new CaseClues(
        simulated.seed(),
        simulated.vented(),
        causes,
        margins,
        read(simulated).stream().map(TakeClues::evidence).toList());
  }

  /** Each take of a case. */
  static List<TakeClues> read(SimulatedCase simulated) {
    UnitFacts unit =
        new UnitFacts(
            Optional.of(simulated.resonance()),
            simulated.vented() ? Optional.of(simulated.tuning()) : Optional.empty(),
            simulated.rings());
    TakeSeries series = new TakeSeries(unit);
    return simulated.takes().stream().map(t -> series.read(take(simulated, t))).toList();
  }

  private static Cause cause(Fault fault, boolean throughInput) {
    Cause inside = Cause.valueOf(fault.name());
    return inside.orAtInput().filter(c -> throughInput).orElse(inside);
  }

  private static NoiseTake take(SimulatedCase unit, SimulatedTake take) {
    Map<Sensor, double[]> channels = new EnumMap<>(Sensor.class);
    channels.put(Sensor.CONE, take.microphones()[0]);
    channels.put(unit.vented() ? Sensor.PORT : Sensor.REAR, take.microphones()[1]);
    channels.put(Sensor.WALL, take.microphones()[2]);
    take.voltage().ifPresent(v -> channels.put(Sensor.VOLTAGE, v));
    take.current().ifPresent(v -> channels.put(Sensor.CURRENT, v));
    take.shaking().ifPresent(v -> channels.put(Sensor.SHAKING, v));
    return new NoiseTake(
        take.signal(), intervention(take.intervention()), SimulatedTake.RATE, channels);
  }

  private static Intervention intervention(SimulatedTake.Intervention done) {
    return switch (done) {
      case NONE -> Intervention.NONE;
      case HAND_ON_PANEL -> Intervention.HAND_ON_WALL;
      case PORT_BLOCKED -> Intervention.PORT_BLOCKED;
      case OUT_OF_BOX -> Intervention.OUT_OF_BOX;
      case OTHER_AMPLIFIER -> Intervention.OTHER_AMPLIFIER;
      case INPUTS_SHORTED -> Intervention.INPUTS_SHORTED;
      case TRIM_OFF -> Intervention.TRIM_OFF;
    };
  }

  /** Margin of the fault that stands out most, dB; absent where there is none. */
  public Optional<Double> best() {
    Optional<Double> out = Optional.empty();
    for (int i = 0; i < causes.size(); i++) {
      if (causes.get(i).origin().isFault()) {
        double m = margins.get(i);
        out = Optional.of(Math.max(m, out.orElse(m)));
      }
    }
    return out;
  }
}
