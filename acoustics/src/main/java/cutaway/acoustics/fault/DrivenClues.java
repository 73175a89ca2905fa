package cutaway.acoustics.fault;

import cutaway.acoustics.stimulus.Harmonics;
import cutaway.acoustics.stimulus.Tone;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;

/** Reads the clues off a take in which something is played. */
final class DrivenClues {
  /** A margin below this is the scatter of noise, dB. */
  static final double HEARD = 5;

  /** One moment stands out so far over what lasts, dB, and so far over silence. */
  private static final double ALONE = 6;

  private static final double CLEAR = 8;

  /** Where what is left over is within this of its highest, it counts as the same, dB. */
  private static final double WITHIN = 10;

  private final NoiseTake take;
  private final Residue residue;
  private final UnitFacts unit;
  private final List<Cell> cells;
  private final List<Evidence> out;

  DrivenClues(NoiseTake take, Residue residue, UnitFacts unit, List<Evidence> out) {
    this.take = take;
    this.residue = residue;
    this.unit = unit;
    this.cells = residue.cells();
    this.out = out;
  }

  /** Where something stands out most. */
  Optional<Spot> read(Optional<TakeClues> before) {
    Optional<Cell> strongest = residue.strongest(cells);
    strongest.ifPresent(this::strongest);
    Optional<Cell> moment = strongest.flatMap(this::moment);
    before.flatMap(TakeClues::spot).ifPresent(this::left);
    voltage();
    sound();
    return strongest
        .filter(c -> c.margin() >= HEARD)
        .map(c -> spot(c, true))
        .or(() -> moment.map(c -> spot(c, false)));
  }

  private void add(Family family, Map<Clue, Double> values) {
    out.add(new Evidence(family, take.intervention(), values));
  }

  private void strongest(Cell cell) {
    boolean glides = !residue.tones().get(cell.tone()).isSteady();
    add(glides ? Family.SWEPT : Family.STANDING, clues(cell));
    if (glides && cell.margin() >= HEARD) {
      residue.elsewhere(cells, cell).ifPresent(c -> add(Family.ELSEWHERE, clues(c)));
    }
  }

  /** What stands out in one moment alone; it may be a blow of the unit or a tick in the room. */
  private Optional<Cell> moment(Cell strongest) {
    Optional<Cell> loudest = Residue.loudest(cells);
    double excess = loudest.map(c -> c.margin() - Math.max(0, strongest.margin())).orElse(0.0);
    Optional<Cell> alone = loudest.filter(c -> excess >= ALONE && c.margin() >= CLEAR);
    Map<Clue, Double> clues = new EnumMap<>(Clue.class);
    alone.ifPresent(c -> clues.putAll(clues(c)));
    clues.put(Clue.EXCESS, excess);
    add(Family.MOMENT, clues);
    return alone;
  }

  private Map<Clue, Double> clues(Cell cell) {
    Map<Clue, Double> clues = new EnumMap<>(Clue.class);
    clues.put(Clue.MARGIN, cell.margin());
    if (cell.margin() < HEARD) {
      return clues;
    }
    growth(cell, clues);
    unit.resonance()
        .ifPresent(f -> clues.put(Clue.OVER_RESONANCE, Math.log10(cell.frequency() / f)));
    unit.tuning().ifPresent(f -> clues.put(Clue.OVER_TUNING, Math.log10(cell.frequency() / f)));
    if (!residue.tones().get(cell.tone()).isSteady()) {
      clues.put(Clue.WIDTH, width(cell));
    }
    places(residue.microphones(), cell.levels(), clues);
    cycle(cell, clues);
    return clues;
  }

  private Spot spot(Cell cell, boolean lasts) {
    int m = cell.loudest();
    return new Spot(
        cell.tone(),
        cell.time() - residue.tones().get(cell.tone()).start(),
        cell.half(),
        cell.frequency(),
        OctaveBands.centre(cell.band()),
        residue.microphones().get(m),
        cell.levels()[m],
        cell.margin(),
        lasts);
  }

  /**
   * What is left at a spot of a take before an intervention. A single blow while a tone stands need
   * not fall at the same time again, so its absence says nothing; in a sweep it goes by frequency.
   */
  private void left(Spot spot) {
    if (spot.tone() >= residue.tones().size()
        || (!spot.lasts() && residue.tones().get(spot.tone()).isSteady())) {
      return;
    }
    int band = OctaveBands.at(spot.band());
    double time = residue.tones().get(spot.tone()).start() + spot.since();
    double[] near = new double[3];
    for (int i = -1; i <= 1; i++) {
      near[i + 1] = residue.cell(spot.tone(), time + i * spot.half(), spot.half(), band).margin();
    }
    Arrays.sort(near);
    add(Family.LEFT, Map.of(Clue.LEFT, Math.max(0, near[1]) / spot.margin()));
  }

  private void voltage() {
    DriveVoltage.of(take, residue)
        .ifPresent(
            v -> {
              Map<Clue, Double> clues = new EnumMap<>(Clue.class);
              v.compression().ifPresent(c -> clues.put(Clue.COMPRESSION, c));
              clues.put(Clue.WAVERING, v.wavering());
              clues.put(Clue.SILENT, v.silent());
              clues.put(Clue.ODD, v.odd());
              clues.put(Clue.EVEN, v.even());
              v.rise().ifPresent(r -> clues.put(Clue.RISE, r));
              add(Family.VOLTAGE, clues);
            });
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
    double least = Math.max(HEARD, best.margin() - WITHIN);
    int out = at;
    // one moment that falls silent ends nothing
    for (int i = at + step; i >= 0 && i < cells.size() && Math.abs(i - out) <= 2; i += step) {
      Cell c = cells.get(i);
      Cell same = residue.cell(c.tone(), c.time(), c.half(), best.band());
      if (Residue.isJudged(best.band(), c.frequency()) && same.margin() > least) {
        out = i;
      }
    }
    return out;
  }

  private static void places(List<Sensor> microphones, double[] levels, Map<Clue, Double> clues) {
    double highest = Arrays.stream(levels).max().orElse(0);
    double lowest = Arrays.stream(levels).min().orElse(0);
    if (levels.length < 2) {
      return;
    }
    clues.put(Clue.UNLIKE, highest - lowest);
    for (int m = 0; m < levels.length; m++) {
      double others = Double.NEGATIVE_INFINITY;
      for (int k = 0; k < levels.length; k++) {
        others = k == m ? others : Math.max(others, levels[k]);
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

  private void cycle(Cell cell, Map<Clue, Double> clues) {
    Sensor loudest = residue.microphones().get(cell.loudest());
    CycleEnvelope envelope = residue.envelope(loudest, cell);
    clues.put(Clue.ONCE, envelope.once());
    clues.put(Clue.TWICE, envelope.twice());
    clues.put(Clue.REPEATS, residue.repeats(loudest, cell));
    residue.inVoltage(cell).ifPresent(v -> clues.put(Clue.IN_VOLTAGE, v));
    clues.put(Clue.PEAKED, Math.log10(envelope.peakedness() / 3));
    if (residue.microphones().contains(Sensor.CONE)) {
      double out = residue.outmost(cell.tone(), cell.time());
      clues.put(Clue.OUTWARD, Math.cos(2 * Math.PI * (envelope.oncePhase() - out)));
      clues.put(Clue.AT_TURNS, Math.cos(4 * Math.PI * (envelope.twicePhase() - out)));
    }
  }

  /** The same band while the softest and the loudest tone of one frequency stand. */
  private void growth(Cell best, Map<Clue, Double> clues) {
    List<Double> softer = new ArrayList<>();
    Tone loud = residue.tones().get(best.tone());
    for (Cell c : cells) {
      Tone tone = residue.tones().get(c.tone());
      if (tone.isSteady()
          && tone.frequency() == loud.frequency()
          && tone.amplitude() < 0.9 * loud.amplitude()) {
        softer.add(residue.cell(c.tone(), c.time(), c.half(), best.band()).margin());
      }
    }
    if (!softer.isEmpty() && best.margin() >= HEARD) {
      Collections.sort(softer);
      clues.put(Clue.GROWTH, best.margin() - Math.max(0, softer.get(softer.size() / 2)));
    }
  }

  private void sound() {
    if (!residue.microphones().contains(Sensor.CONE)) {
      return;
    }
    Map<Clue, Double> clues = new EnumMap<>(Clue.class);
    for (int t = 0; t < residue.tones().size(); t++) {
      Tone tone = residue.tones().get(t);
      double[] levels = fundamental(residue.harmonics(Sensor.CONE, t), tone);
      if (tone.isSteady() && levels.length >= 3) {
        clues.merge(Clue.SOUND_WAVERING, wavering(levels), Math::max);
      }
      clues.merge(Clue.DROP, drop(levels), Math::max);
    }
    add(Family.SOUND, clues);
  }

  /** Its level at the moments at which a tone has settled, dB. */
  private static double[] fundamental(Harmonics harmonics, Tone tone) {
    double settled = tone.start() + (tone.isSteady() ? Residue.SETTLING : 0);
    return IntStream.range(0, harmonics.size())
        .filter(k -> harmonics.time(k) - harmonics.halfWindow(k) > settled)
        .filter(k -> harmonics.time(k) + harmonics.halfWindow(k) < tone.end())
        .mapToDouble(k -> 20 * Math.log10(harmonics.amplitude(k, 1) + 1e-9))
        .toArray();
  }

  private static double wavering(double[] levels) {
    double mean = Arrays.stream(levels).average().orElse(0);
    return Math.sqrt(Arrays.stream(levels).map(l -> (l - mean) * (l - mean)).average().orElse(0));
  }

  private static double drop(double[] levels) {
    double out = 0;
    for (int k = 1; k < levels.length; k++) {
      out = Math.max(out, Math.abs(levels[k] - levels[k - 1]));
    }
    return out;
  }
}
