package cutaway.acoustics.fault;

import cutaway.acoustics.stimulus.Harmonics;
import cutaway.acoustics.stimulus.Tone;
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;

/** Reads the clues off a take in which something is played. */
final class DrivenClues {
  private static final double CLEAR = 8;

  private final NoiseTake take;
  private final Residue residue;
  private final UnitFacts unit;
  private final Cells moments;
  private final List<Cell> cells;
  private final List<Evidence> out;
  private Optional<Second> second = Optional.empty();

  private record Second(Residue left, Cell cell, Optional<Sensor> without) {}

  DrivenClues(NoiseTake take, Residue residue, UnitFacts unit, List<Evidence> out) {
    this.take = take;
    this.residue = residue;
    this.unit = unit;
    this.moments = new Cells(residue);
    this.cells = moments.all();
    this.out = out;
  }

  /**
   * Where something stands out most.
   *
   * @param before where it did in a take to compare with
   */
  Optional<Spot> read(Optional<Spot> before) {
    Optional<Cell> strongest = moments.strongest();
    strongest.ifPresent(this::strongest);
    Optional<Cell> moment = strongest.flatMap(this::moment);
    before.ifPresent(this::left);
    voltage();
    sound();
    return strongest
        .filter(c -> c.margin() >= Clue.HEARD)
        .map(c -> spot(residue, c, true))
        .or(() -> moment.map(c -> spot(residue, c, false)));
  }

  private void add(Family family, Map<Clue, Double> values) {
    out.add(new Evidence(family, take.intervention(), values));
  }

  private void strongest(Cell cell) {
    boolean glides = !residue.tones().get(cell.tone()).isSteady();
    Map<Clue, Double> clues = clues(cell);
    Optional<Residue> besideCone =
        Optional.of(cell)
            .filter(c -> glides && c.margin() >= Clue.HEARD)
            .filter(c -> residue.microphones().contains(Sensor.CONE))
            .flatMap(residue::besideCone);
    besideCone.flatMap(b -> throughCone(b, cell)).ifPresent(t -> clues.put(Clue.THROUGH_CONE, t));
    add(glides ? Family.SWEPT : Family.STANDING, clues);
    if (glides && cell.margin() >= Clue.HEARD) {
      second(cell, besideCone);
    }
  }

  /** Of what the microphone beside the cone's that hears it best hears, told by the cone's, dB. */
  private Optional<Double> throughCone(Residue besideCone, Cell cell) {
    List<Sensor> all = residue.microphones();
    return besideCone.microphones().stream()
        .max(Comparator.comparingDouble(m -> cell.margins()[all.indexOf(m)]))
        .filter(m -> cell.margins()[all.indexOf(m)] >= CLEAR)
        .flatMap(m -> besideCone.explained(m, cell));
  }

  /**
   * A second place in a sweep: where the voltage does not explain it if it holds the strongest,
   * else where the cone's microphone does not if that hears the strongest loudest, else apart.
   */
  private void second(Cell strongest, Optional<Residue> besideCone) {
    boolean electrical = residue.over(Sensor.VOLTAGE, strongest).orElse(0.0) > CLEAR;
    boolean atCone = residue.microphones().get(strongest.loudest()) == Sensor.CONE;
    Optional<Residue> beside =
        electrical ? residue.besideVoltage() : besideCone.filter(b -> atCone);
    if (beside.isPresent()) {
      Cells left = new Cells(beside.get());
      Sensor without = electrical ? Sensor.VOLTAGE : Sensor.CONE;
      second = left.second().map(c -> new Second(beside.get(), c, Optional.of(without)));
      Map<Clue, Double> none = Map.of(Clue.MARGIN, 0.0);
      add(Family.BESIDE, second.map(s -> unexplained(s, left.all())).orElse(none));
    }
    if (second.isEmpty() && !electrical) {
      second = moments.apart(strongest).map(c -> new Second(residue, c, Optional.empty()));
      second.ifPresent(s -> add(Family.ELSEWHERE, clues(s.cell)));
    }
  }

  /** A second place of a sweep, once the clues are read; absent where there is none. */
  Optional<Place> second() {
    return second.map(s -> Place.of(take, s.left, spot(s.left, s.cell, true), s.without));
  }

  private Map<Clue, Double> unexplained(Second second, List<Cell> all) {
    Map<Clue, Double> out = new CellClues(second.left, all, unit).of(second.cell);
    out.remove(Clue.IN_VOLTAGE);
    return out;
  }

  private Map<Clue, Double> clues(Cell cell) {
    return new CellClues(residue, cells, unit).of(cell);
  }

  /** What stands out in one moment alone; it may be a blow of the unit or a tick in the room. */
  private Optional<Cell> moment(Cell strongest) {
    Optional<Cell> loudest = moments.loudest();
    double excess = loudest.map(c -> c.margin() - Math.max(0, strongest.margin())).orElse(0.0);
    Optional<Cell> alone = loudest.filter(c -> excess >= Clue.ALONE && c.margin() >= CLEAR);
    Map<Clue, Double> clues = new EnumMap<>(Clue.class);
    alone.ifPresent(c -> clues.putAll(clues(c)));
    clues.put(Clue.EXCESS, excess);
    add(Family.MOMENT, clues);
    return alone;
  }

  private static Spot spot(Residue residue, Cell cell, boolean lasts) {
    int m = cell.loudest();
    return new Spot(
        cell.tone(),
        cell.time() - residue.tones().get(cell.tone()).start(),
        cell.half(),
        cell.frequency(),
        OctaveBands.centre(cell.band()),
        residue.microphones().get(m),
        cell.level(m),
        cell.margin(),
        lasts);
  }

  /**
   * What is left at a spot of a take before an intervention. A single blow while a tone stands need
   * not fall at the same time again, so its absence says nothing; in a sweep it goes by frequency.
   */
  private void left(Spot spot) {
    if (!residue.holds(spot) || (!spot.lasts() && residue.tones().get(spot.tone()).isSteady())) {
      return;
    }
    int band = OctaveBands.at(spot.band());
    double time = residue.time(spot);
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
    double settled = tone.start() + (tone.isSteady() ? TonesPlayed.SETTLING : 0);
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
