package cutaway.bench.finding;

import cutaway.acoustics.estimate.Estimate;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/**
 * What a change would do, on paper.
 *
 * @param change what was tried
 * @param walls every wall before and after
 * @param before level of the changed wall's sound over the drive unit's own, dB
 * @param after the same with the change
 * @param waves the lowest standing waves before and after; empty where they are not known
 * @param addedMass kg
 * @param lostVolume m³
 * @param tuning of a vented box after it, Hz
 */
public record Trial(
    Change change,
    List<WallLine> walls,
    Levels before,
    Levels after,
    List<WaveLine> waves,
    double addedMass,
    double lostVolume,
    Optional<Estimate> tuning) {
  /** Copies its lists. */
  public Trial {
    walls = List.copyOf(walls);
    waves = List.copyOf(waves);
  }

  /**
   * A wall's resonance that is most likely heard.
   *
   * @param frequency Hz
   * @param level over the drive unit's own, dB
   * @param levelSd standard uncertainty of that
   * @param heard likelihood
   */
  public record Worst(double frequency, double level, double levelSd, double heard) {}

  /**
   * Level over frequency.
   *
   * @param frequencies Hz
   * @param levels dB
   */
  public record Levels(List<Double> frequencies, List<Double> levels) {}

  /** A wall before and after. */
  public record WallLine(String wall, Worst before, Worst after) {}

  /**
   * What a standing wave does.
   *
   * @param q its Q
   * @param ripple what it does to the output, dB
   */
  public record WaveState(Estimate q, Estimate ripple) {}

  /**
   * A standing wave before and after.
   *
   * @param frequency Hz, before
   */
  public record WaveLine(double frequency, WaveState before, WaveState after) {}

  /** The wall that was changed. */
  public WallLine changed() {
    return walls.stream().filter(w -> w.wall().equals(change.wall())).findFirst().orElseThrow();
  }

  /** The wall then most likely heard. */
  public WallLine worstAfter() {
    return walls.stream().max(Comparator.comparingDouble(w -> w.after().heard())).orElseThrow();
  }

  /** Largest ripple of any standing wave before, without its sign, dB. */
  public Estimate rippleBefore() {
    return largest(WaveLine::before);
  }

  /** And after. */
  public Estimate rippleAfter() {
    return largest(WaveLine::after);
  }

  private Estimate largest(Function<WaveLine, WaveState> state) {
    return waves.stream()
        .map(w -> state.apply(w).ripple())
        .max(Comparator.comparingDouble(r -> Math.abs(r.value())))
        .map(r -> new Estimate(Math.abs(r.value()), r.sd()))
        .orElse(new Estimate(0, 0));
  }
}
