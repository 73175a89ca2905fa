package cutaway.acoustics.fault;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Reads the clues off a take in which music plays. */
final class MusicClues {
  /** Of the power of noise, Σp²n/(Σp)². */
  private static final double NOISE = 2;

  private final NoiseTake take;
  private final MusicResidue residue;
  private final List<Cell> cells;
  private final List<Evidence> out;

  MusicClues(NoiseTake take, MusicResidue residue, List<Evidence> out) {
    this.take = take;
    this.residue = residue;
    this.cells = residue.cells();
    this.out = out;
  }

  /**
   * Where something stands out most.
   *
   * @param before where it did in a take to compare with
   */
  Optional<Spot> read(Optional<Spot> before) {
    Optional<Cell> strongest = MusicResidue.strongest(cells);
    strongest.ifPresent(c -> add(Family.MUSIC, clues(c)));
    before.ifPresent(this::left);
    residue.unfollowed().ifPresent(u -> add(Family.VOLTAGE, Map.of(Clue.UNFOLLOWED, u)));
    return strongest.filter(c -> c.margin() >= Clue.HEARD).map(this::spot);
  }

  private void add(Family family, Map<Clue, Double> values) {
    out.add(new Evidence(family, take.intervention(), values));
  }

  private Map<Clue, Double> clues(Cell cell) {
    Map<Clue, Double> clues = new EnumMap<>(Clue.class);
    clues.put(Clue.MARGIN, cell.margin());
    if (cell.margin() < Clue.HEARD) {
      return clues;
    }
    Sensor loudest = residue.microphones().get(cell.loudest());
    CellClues.places(residue.microphones(), cell.levels(), clues);
    clues.put(Clue.PEAKED, Math.log10(residue.peakedness(loudest, cell) / NOISE));
    residue.over(Sensor.VOLTAGE, cell).ifPresent(v -> clues.put(Clue.IN_VOLTAGE, v));
    residue.over(Sensor.SHAKING, cell).ifPresent(s -> clues.put(Clue.SHAKEN, s - cell.margin()));
    residue.excursions(cells).ifPresent(e -> clues.put(Clue.EXCURSION, e[cells.indexOf(cell)]));
    return clues;
  }

  private Spot spot(Cell cell) {
    int m = cell.loudest();
    return new Spot(
        0,
        cell.time() - residue.begins(),
        cell.half(),
        0,
        OctaveBands.centre(cell.band()),
        residue.microphones().get(m),
        cell.level(m),
        cell.margin(),
        true);
  }

  /**
   * What is left in the band of a spot of the same music before an intervention: of the loudest
   * moments, as what the music sets off need not fall at the same one again.
   */
  private void left(Spot spot) {
    if (!residue.holds(spot)) {
      return;
    }
    int band = OctaveBands.at(spot.band());
    MusicResidue.strongest(cells.stream().map(c -> residue.cell(c.time(), c.half(), band)).toList())
        .ifPresent(
            c -> add(Family.LEFT, Map.of(Clue.LEFT, Math.max(0, c.margin()) / spot.margin())));
  }
}
