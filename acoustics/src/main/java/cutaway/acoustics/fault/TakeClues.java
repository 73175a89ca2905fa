package cutaway.acoustics.fault;

import cutaway.acoustics.stimulus.Tone;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * The clues of one take.
 *
 * @param evidence by family, those that the take can tell
 * @param spot where what is left over stands out most, absent where nothing does
 * @param picture of that, absent where nothing is
 * @param onsets from which level on it sounds, by all that may set it off
 * @param audible that as the ear has it, absent where nothing is or no silence tells the room
 */
public record TakeClues(
    List<Evidence> evidence,
    Optional<Spot> spot,
    Optional<ResiduePicture> picture,
    List<Onset> onsets,
    Optional<Audible> audible) {
  public TakeClues {
    evidence = List.copyOf(evidence);
    onsets = List.copyOf(onsets);
  }

  /**
   * Reads them.
   *
   * @param before clues of a take of the same signal with nothing done, for one with an
   *     intervention
   */
  public static TakeClues of(NoiseTake take, UnitFacts unit, Optional<TakeClues> before) {
    List<Evidence> out = new ArrayList<>();
    if (take.signal().isPresent()) {
      Optional<Residue> residue = Residue.of(take);
      if (residue.isEmpty()) {
        return told(out);
      }
      flaws(take, residue.get().tones(), out);
      Optional<Spot> spot = new DrivenClues(take, residue.get(), unit, out).read(before);
      return new TakeClues(
          out,
          spot,
          spot.map(s -> ResiduePicture.of(residue.get(), s)),
          spot.map(s -> onsets(residue.get())).orElse(List.of()),
          spot.flatMap(s -> Audible.of(take, residue.get(), s)));
    }
    if (take.length() >= 2 * take.rate()) {
      flaws(take, List.of(), out);
      new IdleClues(take, out).read(before);
    }
    return told(out);
  }

  private static TakeClues told(List<Evidence> evidence) {
    return new TakeClues(evidence, Optional.empty(), Optional.empty(), List.of(), Optional.empty());
  }

  private static List<Onset> onsets(Residue residue) {
    List<Cell> cells = new Cells(residue).all();
    return Arrays.stream(Onset.Driver.values())
        .flatMap(by -> Onset.of(residue, cells, by).stream())
        .toList();
  }

  /** From which level on it sounds if that sets it off, absent where the take cannot tell. */
  public Optional<Onset> onset(Onset.Driver by) {
    return onsets.stream().filter(o -> o.by() == by).findFirst();
  }

  private static void flaws(NoiseTake take, List<Tone> tones, List<Evidence> out) {
    Flaws flaws = Flaws.of(take, tones);
    Map<Clue, Double> values = new EnumMap<>(Clue.class);
    flaws.cutOff().ifPresent(c -> values.put(Clue.CUT_OFF, Math.log10(Math.max(1, c))));
    values.put(Clue.FROZEN, Math.log10(flaws.frozen()));
    out.add(new Evidence(Family.FLAWS, take.intervention(), values));
  }

  /** Clues of a family, absent where the take tells none. */
  public Optional<Map<Clue, Double>> values(Family family) {
    return evidence.stream().filter(e -> e.family() == family).findFirst().map(Evidence::values);
  }

  /** A clue, absent where the take cannot tell it. */
  public Optional<Double> clue(Family family, Clue clue) {
    return values(family).flatMap(v -> Optional.ofNullable(v.get(clue)));
  }
}
