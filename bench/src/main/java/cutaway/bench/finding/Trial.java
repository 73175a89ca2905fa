package cutaway.bench.finding;

import cutaway.acoustics.estimate.Estimate;
import java.util.List;
import java.util.Optional;

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
   * A standing wave before and after.
   *
   * @param frequency Hz, before
   * @param q Q before
   * @param qAfter and after
   * @param ripple what it does to the output, dB
   * @param rippleAfter and after
   */
  public record WaveLine(
      double frequency, double q, double qAfter, double ripple, double rippleAfter) {}

  /** The wall that was changed. */
  public WallLine changed() {
    return walls.stream().filter(w -> w.wall().equals(change.wall())).findFirst().orElseThrow();
  }

  /** The wall then most likely heard. */
  public WallLine worstAfter() {
    return walls.stream()
        .max(java.util.Comparator.comparingDouble(w -> w.after().heard()))
        .orElseThrow();
  }

  /** Largest ripple of any standing wave before, dB. */
  public double rippleBefore() {
    return waves.stream().mapToDouble(w -> Math.abs(w.ripple())).max().orElse(0);
  }

  /** And after. */
  public double rippleAfter() {
    return waves.stream().mapToDouble(w -> Math.abs(w.rippleAfter())).max().orElse(0);
  }
}
