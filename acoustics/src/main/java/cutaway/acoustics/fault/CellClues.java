package cutaway.acoustics.fault;

import cutaway.acoustics.stimulus.Tone;
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Reads the clues off a moment in which something is left over. */
final class CellClues {
  /** Where what is left over is within this of its highest, it counts as the same, dB. */
  private static final double WITHIN = 10;

  /** A tone is softer than another by more. */
  private static final double SOFTER = 0.9;

  private final Residue residue;
  private final UnitFacts unit;
  private final List<Cell> cells;

  CellClues(Residue residue, List<Cell> cells, UnitFacts unit) {
    this.residue = residue;
    this.cells = cells;
    this.unit = unit;
  }

  /** Those of one. */
  Map<Clue, Double> of(Cell cell) {
    Map<Clue, Double> clues = new EnumMap<>(Clue.class);
    clues.put(Clue.MARGIN, cell.margin());
    if (cell.margin() < Clue.HEARD) {
      return clues;
    }
    growth(cell, clues);
    unit.resonance()
        .ifPresent(f -> clues.put(Clue.OVER_RESONANCE, Math.log10(cell.frequency() / f)));
    unit.tuning().ifPresent(f -> clues.put(Clue.OVER_TUNING, Math.log10(cell.frequency() / f)));
    unit.offRing(cell.frequency()).ifPresent(o -> clues.put(Clue.OFF_RING, o));
    if (!residue.tones().get(cell.tone()).isSteady()) {
      clues.put(Clue.WIDTH, width(cell));
      excursion(cell).ifPresent(e -> clues.put(Clue.EXCURSION, e));
    }
    places(residue.microphones(), cell.levels(), clues);
    cycle(cell, clues);
    return clues;
  }

  /** Of the cone, by its near sound, against the farthest of the same tone, dB. */
  private Optional<Double> excursion(Cell cell) {
    return cells.stream()
        .filter(c -> c.tone() == cell.tone())
        .flatMap(c -> residue.excursion(c).stream())
        .max(Comparator.naturalOrder())
        .flatMap(most -> residue.excursion(cell).map(e -> 20 * Math.log10(e / most + 1e-6)));
  }

  /** Octaves about the strongest moment of a sweep over which nearly as much is left. */
  private double width(Cell best) {
    double low = cells.get(edge(best, -1)).frequency();
    double high = cells.get(edge(best, 1)).frequency();
    return Math.log(high / low) / Math.log(2);
  }

  private int edge(Cell best, int step) {
    int at = 0;
    while (cells.get(at).tone() != best.tone() || cells.get(at).time() != best.time()) {
      at++;
    }
    double least = Math.max(Clue.HEARD, best.margin() - WITHIN);
    int out = at;
    // one moment that falls silent ends nothing
    for (int i = at + step; i >= 0 && i < cells.size() && Math.abs(i - out) <= 2; i += step) {
      Cell c = cells.get(i);
      Cell same = residue.cell(c.tone(), c.time(), c.half(), best.band());
      if (TonesPlayed.isJudged(best.band(), c.frequency()) && same.margin() > least) {
        out = i;
      }
    }
    return out;
  }

  /** At which microphone it is loudest, and how unlike they are. */
  static void places(List<Sensor> microphones, double[] levels, Map<Clue, Double> clues) {
    if (levels.length < 2 || Arrays.stream(levels).anyMatch(Double::isInfinite)) {
      // a microphone at which the band is not judged says nothing of the place
      return;
    }
    int wall = microphones.indexOf(Sensor.WALL);
    int port = port(microphones, levels);
    if (wall >= 0 && port >= 0) {
      clues.put(Clue.WALL_OVER_PORT, levels[wall] - levels[port]);
    }
    if (levels.length == 2 && !microphones.contains(Sensor.CONE)) {
      // two tell one difference
      return;
    }
    clues.put(
        Clue.UNLIKE, Arrays.stream(levels).max().orElse(0) - Arrays.stream(levels).min().orElse(0));
    for (int m = 0; m < levels.length; m++) {
      if (isPort(microphones.get(m)) && m != port) {
        continue;
      }
      double others = Double.NEGATIVE_INFINITY;
      for (int k = 0; k < levels.length; k++) {
        boolean same = k == m || (m == port && isPort(microphones.get(k)));
        others = same ? others : Math.max(others, levels[k]);
      }
      if (Double.isInfinite(others)) {
        // at port and behind the box alone: one place
        continue;
      }
      Optional<Clue> place =
          switch (microphones.get(m)) {
            case CONE -> Optional.of(Clue.AT_CONE);
            case PORT, REAR -> Optional.of(Clue.AT_PORT);
            case WALL -> Optional.of(Clue.AT_WALL);
            default -> Optional.empty();
          };
      double over = levels[m] - others;
      place.ifPresent(p -> clues.put(p, over));
    }
  }

  private static boolean isPort(Sensor sensor) {
    return sensor == Sensor.PORT || sensor == Sensor.REAR;
  }

  /** The louder of the microphones at port and behind the box, which count as one; −1 for none. */
  private static int port(List<Sensor> microphones, double[] levels) {
    int out = -1;
    for (int m = 0; m < levels.length; m++) {
      if (isPort(microphones.get(m)) && (out < 0 || levels[m] > levels[out])) {
        out = m;
      }
    }
    return out;
  }

  private void cycle(Cell cell, Map<Clue, Double> clues) {
    Sensor loudest = residue.microphones().get(cell.loudest());
    CycleEnvelope envelope = residue.envelope(loudest, cell);
    clues.put(Clue.ONCE, envelope.once());
    clues.put(Clue.TWICE, envelope.twice());
    clues.put(Clue.REPEATS, residue.repeats(loudest, cell));
    residue.over(Sensor.VOLTAGE, cell).ifPresent(v -> clues.put(Clue.IN_VOLTAGE, v));
    residue.over(Sensor.SHAKING, cell).ifPresent(s -> clues.put(Clue.SHAKEN, s - cell.margin()));
    residue.coneLater(cell).ifPresent(l -> clues.put(Clue.CONE_LATER, l));
    clues.put(Clue.PEAKED, Math.log10(envelope.peakedness() / 3));
    if (residue.hears(Sensor.CONE)) {
      double out = residue.outmost(cell.tone(), cell.time());
      clues.put(Clue.OUTWARD, Math.cos(2 * Math.PI * (envelope.oncePhase() - out)));
      clues.put(Clue.AT_TURNS, Math.cos(4 * Math.PI * (envelope.twicePhase() - out)));
    }
  }

  /** The same band while the softest and the loudest tone of one frequency stand. */
  private void growth(Cell best, Map<Clue, Double> clues) {
    Tone loud = residue.tones().get(best.tone());
    double softest =
        residue.tones().stream()
            .filter(t -> t.isSteady() && t.frequency() == loud.frequency())
            .mapToDouble(Tone::amplitude)
            .min()
            .orElse(loud.amplitude());
    if (softest >= SOFTER * loud.amplitude()) {
      return;
    }
    double[] soft =
        cells.stream()
            .filter(c -> residue.tones().get(c.tone()).frequency() == loud.frequency())
            .filter(c -> residue.tones().get(c.tone()).isSteady() && c.played() == softest)
            .mapToDouble(c -> residue.cell(c.tone(), c.time(), c.half(), best.band()).margin())
            .sorted()
            .toArray();
    if (soft.length > 0) {
      clues.put(Clue.GROWTH, best.margin() - Math.max(0, soft[soft.length / 2]));
    }
  }
}
