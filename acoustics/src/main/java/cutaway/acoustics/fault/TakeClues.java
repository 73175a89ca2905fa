package cutaway.acoustics.fault;

import cutaway.acoustics.meter.FrequencyWeighting;
import cutaway.acoustics.stimulus.Harmonics;
import cutaway.acoustics.stimulus.Tone;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

/** Reads the clues off one take. */
public final class TakeClues {
  /** A margin below this is the scatter of noise, dB. */
  private static final double HEARD = 4;

  /** Where what is left over is within this of its highest, it counts as the same, dB. */
  private static final double WITHIN = 10;

  /** Levels over pressure of 20 µPa; what is not clear counts as this, dB. */
  private static final double NOT_HEARD = 0;

  private final NoiseTake take;
  private final double resonance;
  private final Optional<Double> tuning;
  private final Map<Clue, Double> clues = new EnumMap<>(Clue.class);

  private TakeClues(NoiseTake take, double resonance, Optional<Double> tuning) {
    this.take = take;
    this.resonance = resonance;
    this.tuning = tuning;
  }

  /**
   * Reads them.
   *
   * @param resonance of the drive unit, Hz
   * @param tuning of a vented box, Hz
   * @return those that the take can tell
   */
  public static Map<Clue, Double> of(NoiseTake take, double resonance, Optional<Double> tuning) {
    TakeClues out = new TakeClues(take, resonance, tuning);
    if (take.signal().isPresent()) {
      Residue.of(take).ifPresent(out::driven);
    } else if (take.length() >= 2 * take.rate()) {
      out.idle();
    }
    return Collections.unmodifiableMap(out.clues);
  }

  private void driven(Residue residue) {
    List<Cell> cells = residue.cells();
    residue.strongest(cells).ifPresent(cell -> strongest(residue, cells, cell));
    DriveVoltage.of(take, residue)
        .ifPresent(
            v -> {
              v.compression().ifPresent(c -> clues.put(Clue.COMPRESSION, c));
              clues.put(Clue.WAVERING, v.wavering());
              clues.put(Clue.SILENT, v.silent());
              clues.put(Clue.ODD, v.odd());
              clues.put(Clue.EVEN, v.even());
              v.rise().ifPresent(r -> clues.put(Clue.RISE, r));
            });
    soundWavering(residue);
  }

  private void strongest(Residue residue, List<Cell> cells, Cell cell) {
    clues.put(Clue.MARGIN, cell.margin());
    growth(residue, cells, cell);
    if (cell.margin() < HEARD) {
      return;
    }
    clues.put(Clue.OVER_RESONANCE, Math.log10(cell.frequency() / resonance));
    tuning.ifPresent(f -> clues.put(Clue.OVER_TUNING, Math.log10(cell.frequency() / f)));
    if (!residue.tones().get(cell.tone()).isSteady()) {
      clues.put(Clue.WIDTH, width(residue, cells, cell));
    }
    places(residue.microphones(), cell.levels());
    cycle(residue, cell);
  }

  /** Octaves about the strongest moment of a sweep over which nearly as much is left. */
  private static double width(Residue residue, List<Cell> cells, Cell best) {
    int at = cells.indexOf(best);
    double low = cells.get(edge(residue, cells, at, -1)).frequency();
    double high = cells.get(edge(residue, cells, at, 1)).frequency();
    return Math.log(high / low) / Math.log(2);
  }

  private static int edge(Residue residue, List<Cell> cells, int at, int step) {
    Cell best = cells.get(at);
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

  private void places(List<Sensor> microphones, double[] levels) {
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

  private void cycle(Residue residue, Cell cell) {
    Sensor loudest = residue.microphones().get(cell.loudest());
    CycleEnvelope envelope = residue.envelope(loudest, cell);
    clues.put(Clue.ONCE, envelope.once());
    clues.put(Clue.TWICE, envelope.twice());
    clues.put(Clue.PEAKED, Math.log10(envelope.peakedness() / 3));
    if (residue.microphones().contains(Sensor.CONE)) {
      double out = outmost(residue.harmonics(Sensor.CONE, cell.tone()), cell.time());
      clues.put(Clue.OUTWARD, Math.cos(2 * Math.PI * (envelope.oncePhase() - out)));
      clues.put(Clue.AT_TURNS, Math.cos(4 * Math.PI * (envelope.twicePhase() - out)));
    }
  }

  /** Where in its cycle the cone is farthest out: half a cycle after the sound, as acceleration. */
  private static double outmost(Harmonics harmonics, double time) {
    int near = 0;
    for (int k = 1; k < harmonics.size(); k++) {
      if (Math.abs(harmonics.time(k) - time) < Math.abs(harmonics.time(near) - time)) {
        near = k;
      }
    }
    return 0.5 - harmonics.phase(near, 1) / (2 * Math.PI);
  }

  /** The same band while the softest and the loudest tone of one frequency stand. */
  private void growth(Residue residue, List<Cell> cells, Cell best) {
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

  private void soundWavering(Residue residue) {
    if (!residue.microphones().contains(Sensor.CONE)) {
      return;
    }
    double most = -1;
    for (int t = 0; t < residue.tones().size(); t++) {
      Tone tone = residue.tones().get(t);
      if (tone.isSteady()) {
        most = Math.max(most, wavering(residue.harmonics(Sensor.CONE, t), tone));
      }
    }
    if (most >= 0) {
      clues.put(Clue.SOUND_WAVERING, most);
    }
  }

  private static double wavering(Harmonics harmonics, Tone tone) {
    double sum = 0;
    double squares = 0;
    int n = 0;
    for (int k = 0; k < harmonics.size(); k++) {
      double time = harmonics.time(k);
      double half = harmonics.halfWindow(k);
      if (time - half > tone.start() + Residue.SETTLING && time + half < tone.end()) {
        double level = 20 * Math.log10(harmonics.amplitude(k, 1) + 1e-9);
        sum += level;
        squares += level * level;
        n++;
      }
    }
    return n < 3 ? -1 : Math.sqrt(Math.max(0, squares / n - sum / n * sum / n));
  }

  private void idle() {
    double mains = mains();
    if (!take.channels().containsKey(Sensor.CONE)) {
      return;
    }
    double[] cone = take.channel(Sensor.CONE);
    List<StrayTone> stray = StrayTone.of(cone, take.rate(), mains);
    clues.put(
        Clue.STRAY, stray.isEmpty() ? NOT_HEARD : Math.max(0, level(stray.get(0).amplitude())));
    OctaveBands bands = new OctaveBands(cone, take.rate());
    clues.put(Clue.UNSTEADY, unsteady(bands));
    if (take.channels().containsKey(Sensor.WALL)) {
      OctaveBands wall = new OctaveBands(take.channel(Sensor.WALL), take.rate());
      clues.put(Clue.HISS, high(bands) - high(wall));
    }
  }

  /** The combs at cone and wall; the mains' frequency, which all channels tell together. */
  private double mains() {
    List<Sensor> sensors = List.copyOf(take.channels().keySet());
    List<MainsComb> combs =
        MainsComb.of(List.copyOf(take.channels().values()), take.rate(), OptionalDouble.empty());
    if (sensors.contains(Sensor.CONE)) {
      MainsComb cone = combs.get(sensors.indexOf(Sensor.CONE));
      clues.put(Clue.MAINS_FIRST, heard(first(cone)));
      clues.put(Clue.MAINS_ODD, heard(cone.power(3, 2)));
      clues.put(Clue.MAINS_EVEN, heard(cone.power(2, 2)));
      clues.put(Clue.MAINS_HIGH, (double) cone.clear(13, MainsComb.ORDERS));
      double atCone = cone.power(1, 1);
      if (sensors.contains(Sensor.WALL)) {
        double atWall = combs.get(sensors.indexOf(Sensor.WALL)).power(1, 1);
        if (atCone + atWall > 0) {
          clues.put(Clue.MAINS_AT_WALL, heard(atWall) - heard(atCone));
        }
      }
    }
    return combs.get(0).frequency();
  }

  private static double first(MainsComb comb) {
    return comb.power(1, 1) - comb.power(2, 1);
  }

  private static double heard(double power) {
    return power > 0 ? Math.max(NOT_HEARD, level(Math.sqrt(power))) : NOT_HEARD;
  }

  private static double level(double pressure) {
    return 20 * Math.log10(pressure / FrequencyWeighting.REFERENCE);
  }

  /** From 2.8 to 11 kHz, dB. */
  private double high(OctaveBands bands) {
    double sum = 0;
    for (int b = 4; b < Math.min(6, bands.size()); b++) {
      sum += bands.power(b, 0, take.length());
    }
    return 10 * Math.log10(sum + 1e-30);
  }

  /** Loudest of ten against the middle of stretches of 50 ms, from 350 Hz up, dB. */
  private double unsteady(OctaveBands bands) {
    int step = (int) (0.05 * take.rate());
    double[] power = new double[take.length() / step];
    for (int i = 0; i < power.length; i++) {
      for (int b = 1; b < bands.size(); b++) {
        power[i] += bands.power(b, i * step, (i + 1) * step);
      }
    }
    Arrays.sort(power);
    int n = power.length;
    return 10 * Math.log10((power[(int) (0.95 * (n - 1))] + 1e-30) / (power[n / 2] + 1e-30));
  }
}
