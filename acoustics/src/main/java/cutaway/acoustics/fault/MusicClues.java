package cutaway.acoustics.fault;

import java.util.Arrays;
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

  /** Where something stands out most. */
  Optional<Spot> read(Optional<TakeClues> before) {
    Optional<Cell> strongest = MusicResidue.strongest(cells);
    strongest.ifPresent(c -> add(Family.MUSIC, clues(c)));
    before.flatMap(TakeClues::spot).ifPresent(this::left);
    residue.unfollowed().ifPresent(u -> add(Family.VOLTAGE, Map.of(Clue.UNFOLLOWED, u)));
    return strongest.filter(c -> c.margin() >= DrivenClues.HEARD).map(this::spot);
  }

  private void add(Family family, Map<Clue, Double> values) {
    out.add(new Evidence(family, take.intervention(), values));
  }

  private Map<Clue, Double> clues(Cell cell) {
    Map<Clue, Double> clues = new EnumMap<>(Clue.class);
    clues.put(Clue.MARGIN, cell.margin());
    if (cell.margin() < DrivenClues.HEARD) {
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
        cell.levels()[m],
        cell.margin(),
        true);
  }

  /** What is left at a spot of the same music before an intervention. */
  private void left(Spot spot) {
    double time = residue.time(spot);
    double[] near = new double[3];
    for (int i = -1; i <= 1; i++) {
      near[i + 1] =
          residue.cell(time + i * spot.half(), spot.half(), OctaveBands.at(spot.band())).margin();
    }
    Arrays.sort(near);
    add(Family.LEFT, Map.of(Clue.LEFT, Math.max(0, near[1]) / spot.margin()));
  }
}
