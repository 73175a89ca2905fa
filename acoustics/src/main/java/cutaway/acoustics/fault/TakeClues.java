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
 * @param notCompared why one with an intervention tells nothing of what that did; absent where it
 *     does, or where nothing stood out before
 */
public record TakeClues(
    List<Evidence> evidence,
    List<Place> places,
    List<Onset> onsets,
    Optional<AtRest> rest,
    Optional<NotCompared> notCompared) {
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
    if (take.signal().isEmpty()) {
      return atRest(take, before);
    }
    return take.signal().get().tones().isEmpty()
        ? MusicResidue.of(take).map(r -> music(take, r, before)).orElse(told(List.of()))
        : Residue.of(take).map(r -> tones(take, r, unit, before)).orElse(told(List.of()));
  }

  private static TakeClues tones(
      NoiseTake take, Residue residue, UnitFacts unit, Optional<TakeClues> before) {
    List<Evidence> out = new ArrayList<>();
    flaws(take, residue.tones(), out);
    Comparison comparison = Comparison.of(before, residue, take.intervention());
    DrivenClues clues = new DrivenClues(take, residue, unit, out);
    List<Place> places = new ArrayList<>();
    clues
        .read(comparison.with())
        .ifPresent(s -> places.add(Place.of(take, residue, s, Optional.empty())));
    clues.second().ifPresent(places::add);
    List<Onset> onsets = places.isEmpty() ? List.of() : onsets(residue);
    return new TakeClues(comparison.told(out), places, onsets, Optional.empty(), comparison.not());
  }

  private static TakeClues music(NoiseTake take, MusicResidue residue, Optional<TakeClues> before) {
    List<Evidence> out = new ArrayList<>();
    flaws(take, List.of(), out);
    Comparison comparison = Comparison.of(before, residue, take.intervention());
    List<Place> places =
        new MusicClues(take, residue, out)
            .read(comparison.with()).stream()
                .map(s -> Place.of(take, residue, s, Optional.empty()))
                .toList();
    return new TakeClues(
        comparison.told(out), places, List.of(), Optional.empty(), comparison.not());
  }

  private static TakeClues atRest(NoiseTake take, Optional<TakeClues> before) {
    List<Evidence> out = new ArrayList<>();
    if (take.length() < 2 * take.rate()) {
      return told(out);
    }
    flaws(take, List.of(), out);
    Optional<AtRest> rest = new IdleClues(take, out).read(before);
    Optional<NotCompared> not =
        take.intervention() == Intervention.NONE || before.isPresent()
            ? Optional.empty()
            : Optional.of(NotCompared.NOTHING_BEFORE);
    return new TakeClues(out, List.of(), List.of(), rest, not);
  }

  /** Whether a take holds the signal it should; a rest does. */
  public static boolean isHeld(NoiseTake take) {
    return take.signal()
        .map(
            s ->
                s.tones().isEmpty()
                    ? MusicResidue.of(take).isPresent()
                    : TonesPlayed.of(take, s).isPresent())
        .orElse(true);
  }

  private static TakeClues told(List<Evidence> evidence) {
    return new TakeClues(evidence, List.of(), List.of(), Optional.empty(), Optional.empty());
  }

  /** Of a take that cannot bear more: what is wrong with it. */
  public TakeClues flawsOnly() {
    return told(evidence.stream().filter(e -> e.family() == Family.FLAWS).toList());
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
