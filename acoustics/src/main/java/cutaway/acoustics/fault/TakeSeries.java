package cutaway.acoustics.fault;

import cutaway.acoustics.stimulus.TestSignal;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Takes of one unit read one after another, none of them kept: one with an intervention is compared
 * with the last before it of the same signal with nothing done.
 */
public final class TakeSeries {
  private final UnitFacts unit;
  private final List<Untouched> untouched = new ArrayList<>();

  private record Untouched(Optional<TestSignal> signal, TakeClues clues) {}

  /** Of a unit. */
  public TakeSeries(UnitFacts unit) {
    this.unit = unit;
  }

  /** Clues of the next take. */
  public TakeClues read(NoiseTake take) {
    if (take.intervention() != Intervention.NONE) {
      return TakeClues.of(take, unit, before(take));
    }
    TakeClues out = TakeClues.of(take, unit, Optional.empty());
    untouched.add(new Untouched(take.signal(), out));
    return out;
  }

  /** What is wrong with a take that cannot bear more; no other is compared with it. */
  public TakeClues flaws(NoiseTake take) {
    return TakeClues.of(take, unit, Optional.empty()).flawsOnly();
  }

  private Optional<TakeClues> before(NoiseTake take) {
    return untouched.stream()
        .filter(u -> u.signal.equals(take.signal()))
        .map(Untouched::clues)
        .reduce((first, second) -> second);
  }
}
