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
 * @param places where something is left over, first where it stands out most
 * @param onsets from which level on it sounds, by all that may set it off
 * @param rest what is heard while nothing is played, absent where something is or no microphone is
 *     at the cone
 */
public record TakeClues(
    List<Evidence> evidence, List<Place> places, List<Onset> onsets, Optional<AtRest> rest) {
  public TakeClues {
    evidence = List.copyOf(evidence);
    places = List.copyOf(places);
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
    if (take.signal().filter(s -> s.tones().isEmpty()).isPresent()) {
      return music(take, before);
    }
    if (take.signal().isPresent()) {
      Optional<Residue> residue = Residue.of(take);
      if (residue.isEmpty()) {
        return told(out);
      }
      flaws(take, residue.get().tones(), out);
      DrivenClues clues = new DrivenClues(take, residue.get(), unit, out);
      List<Place> places = new ArrayList<>();
      clues
          .read(before)
          .ifPresent(s -> places.add(Place.of(take, residue.get(), s, Optional.empty())));
      clues.second().ifPresent(places::add);
      return new TakeClues(
          out, places, places.isEmpty() ? List.of() : onsets(residue.get()), Optional.empty());
    }
    if (take.length() >= 2 * take.rate()) {
      flaws(take, List.of(), out);
      Optional<AtRest> rest = new IdleClues(take, out).read(before);
      return new TakeClues(out, List.of(), List.of(), rest);
    }
    return told(out);
  }

  private static TakeClues music(NoiseTake take, Optional<TakeClues> before) {
    List<Evidence> out = new ArrayList<>();
    Optional<MusicResidue> residue = MusicResidue.of(take);
    residue.ifPresent(r -> flaws(take, List.of(), out));
    List<Place> places =
        residue
            .flatMap(
                r ->
                    new MusicClues(take, r, out)
                        .read(before)
                        .map(s -> Place.of(take, r, s, Optional.empty())))
            .stream()
            .toList();
    return new TakeClues(out, places, List.of(), Optional.empty());
  }

  private static TakeClues told(List<Evidence> evidence) {
    return new TakeClues(evidence, List.of(), List.of(), Optional.empty());
  }

  private static List<Onset> onsets(Residue residue) {
    List<Cell> cells = new Cells(residue).all();
    return Arrays.stream(Onset.Driver.values())
        .flatMap(by -> Onset.of(residue, cells, by).stream())
        .toList();
  }

  /** Where it stands out most, absent where nothing does. */
  public Optional<Spot> spot() {
    return places.stream().findFirst().map(Place::spot);
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
