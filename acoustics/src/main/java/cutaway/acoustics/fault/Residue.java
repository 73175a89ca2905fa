package cutaway.acoustics.fault;

import cutaway.acoustics.meter.FrequencyWeighting;
import cutaway.acoustics.stimulus.Alignment;
import cutaway.acoustics.stimulus.Harmonics;
import cutaway.acoustics.stimulus.TestSignal;
import cutaway.acoustics.stimulus.Tone;
import cutaway.acoustics.stimulus.ToneGrid;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Predicate;

/**
 * What is left of a driven take once the tone and its low harmonics are taken out, in octave bands
 * above them, against the silence before and after.
 */
final class Residue {
  /** Orders reach to here, so that what is judged lies where ordinary distortion has fallen off. */
  private static final double REACH = 600;

  private static final int FEWEST = 5;
  private static final int MOST = 14;

  /** A band is judged that begins so far over the last order: both have some width. */
  private static final double CLEAR = 1.07;

  private static final double WINDOW = 0.06;
  private static final double CYCLES = 3;

  /** A loudspeaker that was just set going, or a hall that was just left, s. */
  static final double SETTLING = 0.35;

  private static final double EDGE = 0.05;

  /** Silent stretches that a median needs. */
  private static final int LEAST_SILENCE = 3;

  /** Share of the moments that are taken for quiet where there is no silence. */
  private static final double QUIET = 0.1;

  private static final double QUIET_DEVIATES = -1.2816;

  /** Cycles to either side over which strikes are gathered. */
  private static final double ENVELOPE_CYCLES = 4;

  /**
   * Cells so many places away lie half a window apart: each begins half a window after the last.
   */
  private static final int APART = 3;

  /** A second place in a sweep must stand out so far, dB. */
  private static final double SECOND = 8;

  /** No more than this is the scatter of noise, dB. */
  private static final double SILENT = 4;

  /** Louder by this at another microphone, dB: another place. */
  private static final double OTHER = 4;

  /** Nothing is softer, Pa². */
  private static final double QUIETEST = Math.pow(FrequencyWeighting.REFERENCE, 2) * 1e-3;

  private final NoiseTake take;
  private final List<Sensor> microphones;
  private final List<Tone> tones;
  private final Map<Sensor, Heard> heard = new EnumMap<>(Sensor.class);

  /** What a sensor has: harmonics of each tone, what is left in bands, and the bands' silence. */
  @SuppressWarnings("ArrayRecordComponent") // never compared
  private record Heard(
      List<Harmonics> harmonics, double[] left, OctaveBands bands, double[] background) {}

  private Residue(NoiseTake take, List<Tone> tones) {
    this.take = take;
    this.microphones = take.microphones();
    this.tones = tones;
  }

  /**
   * Finds the signal in a take and takes it out of every microphone.
   *
   * @return absent where the take is idle or does not hold its signal
   */
  static Optional<Residue> of(NoiseTake take) {
    return take.signal()
        .filter(s -> !s.tones().isEmpty())
        .flatMap(s -> alignment(take, s).map(a -> within(a.recorded(s), take)))
        .filter(tones -> !tones.isEmpty())
        .map(tones -> new Residue(take, tones).found());
  }

  /** Tones as far as they were recorded. */
  private static List<Tone> within(List<Tone> tones, NoiseTake take) {
    double seconds = take.length() / take.rate();
    return tones.stream()
        .filter(t -> settled(t) < seconds)
        .map(
            t ->
                new Tone(
                    t.start(),
                    Math.min(t.end(), seconds),
                    t.frequency(),
                    t.glide(),
                    t.phase(),
                    t.amplitude()))
        .toList();
  }

  /** By the voltage if there is one, else by the microphone that is most like the signal. */
  private static Optional<Alignment> alignment(NoiseTake take, TestSignal signal) {
    if (take.channels().containsKey(Sensor.VOLTAGE)) {
      Optional<Alignment> straight =
          Alignment.of(signal, take.channel(Sensor.VOLTAGE), take.rate(), true);
      if (straight.isPresent()) {
        return straight;
      }
    }
    Optional<Alignment> best = Optional.empty();
    for (Sensor m : take.microphones()) {
      Optional<Alignment> found = Alignment.of(signal, take.channel(m), take.rate(), false);
      if (found.isPresent() && best.map(b -> b.likeness() < found.get().likeness()).orElse(true)) {
        best = found;
      }
    }
    return best;
  }

  private Residue found() {
    List<ToneGrid> grids =
        tones.stream().map(t -> new ToneGrid(t, take.rate(), take.length())).toList();
    List<Sensor> sensors = List.copyOf(take.channels().keySet());
    List<Heard> found = sensors.parallelStream().map(sensor -> hear(sensor, grids)).toList();
    for (int i = 0; i < sensors.size(); i++) {
      heard.put(sensors.get(i), found.get(i));
    }
    return this;
  }

  private Heard hear(Sensor sensor, List<ToneGrid> grids) {
    double[] left = take.channel(sensor).clone();
    List<Harmonics> followed = new ArrayList<>();
    for (ToneGrid grid : grids) {
      followed.add(Harmonics.takeOut(left, grid, Residue::orders));
    }
    OctaveBands split = new OctaveBands(left, take.rate());
    return new Heard(followed, left, split, silence(split));
  }

  private static int orders(double frequency) {
    return (int) Math.max(FEWEST, Math.min(MOST, Math.rint(REACH / frequency)));
  }

  /**
   * Mean square of each band while nothing plays: the median over short stretches. Where the take
   * has no such moments the quiet ones while it plays stand in, which may hide something but claims
   * nothing.
   */
  private double[] silence(OctaveBands split) {
    double before = tones.get(0).start() - EDGE;
    double after = tones.get(tones.size() - 1).end() + SETTLING / 2;
    double[] out = new double[split.size()];
    for (int b = 0; b < out.length; b++) {
      List<Double> silent = new ArrayList<>();
      List<Double> all = new ArrayList<>();
      for (double t = EDGE; t + 2 * EDGE <= take.length() / take.rate(); t += EDGE) {
        double power = split.power(b, sample(t), sample(t + EDGE));
        all.add(power);
        if (t + EDGE <= before || t >= after) {
          silent.add(power);
        }
      }
      boolean enough = silent.size() >= LEAST_SILENCE;
      double width = OctaveBands.centre(b) / Math.sqrt(2);
      out[b] =
          enough
              ? quantile(silent, 0.5) / ofNoise(0, width)
              : all.isEmpty() ? 0 : quantile(all, QUIET) / ofNoise(QUIET_DEVIATES, width);
    }
    return out;
  }

  /**
   * That quantile of noise so wide over its mean: χ² with 2 B T degrees of freedom (E. B. Wilson
   * and M. M. Hilferty, Proc. Natl. Acad. Sci. 17 (1931) 684, from memory).
   *
   * @param deviates of a normal distribution, standard deviations
   */
  private static double ofNoise(double deviates, double width) {
    double v = 2 / (9 * 2 * width * EDGE);
    double root = 1 - v + deviates * Math.sqrt(v);
    return root * root * root;
  }

  private static double quantile(List<Double> values, double share) {
    double[] sorted = values.stream().mapToDouble(Double::doubleValue).sorted().toArray();
    return sorted[(int) (share * (sorted.length - 1) + 0.5)];
  }

  private int sample(double time) {
    return (int) Math.rint(time * take.rate());
  }

  List<Sensor> microphones() {
    return microphones;
  }

  List<Tone> tones() {
    return tones;
  }

  private Heard heard(Sensor sensor) {
    Heard out = heard.get(sensor);
    if (out == null) {
      throw new IllegalArgumentException("the take has no channel for " + sensor);
    }
    return out;
  }

  /** Harmonics of a tone as a sensor has them. */
  Harmonics harmonics(Sensor sensor, int tone) {
    return heard(sensor).harmonics.get(tone);
  }

  /** How what is left at a microphone goes round with the cycle about a moment. */
  CycleEnvelope envelope(Sensor sensor, Cell at) {
    Tone tone = tones.get(at.tone());
    double room = Math.min(at.time() - tone.start(), tone.end() - EDGE - at.time());
    double half = Math.max(at.half(), ENVELOPE_CYCLES / at.frequency());
    return heard(sensor).bands.round(at.band(), tone, at.time(), Math.min(half, room));
  }

  /** How many bands there are. */
  int bands() {
    return OctaveBands.count(take.rate());
  }

  /** Whether a tone sounds at a time and the loudspeaker has settled to it. */
  boolean isSettled(double time) {
    return tones.stream().anyMatch(t -> settled(t) <= time && time < ends(t));
  }

  private static double settled(Tone tone) {
    return tone.start() + (tone.isSteady() ? SETTLING : 2 / tone.frequency());
  }

  /** Half a window of the harmonics before its end a tone is followed no further. */
  private static double ends(Tone tone) {
    double half = tone.isSteady() ? 2 / tone.frequency() : 0;
    return tone.end() - Math.max(EDGE, half);
  }

  /** What is left in a band between two times, over silence, dB. */
  double over(Sensor sensor, int band, double from, double to) {
    Heard at = heard(sensor);
    double power = at.bands.power(band, sample(from), sample(to));
    return 10 * Math.log10(power / Math.max(QUIETEST, at.background[band]) + 1e-12);
  }

  /**
   * Power of what is left about a moment, in even parts of a cycle that begins with the cone
   * farthest out, over its mean.
   *
   * @param lasts whether all of a tone that stands is taken
   */
  double[] folded(Sensor sensor, Cell at, boolean lasts, int parts) {
    Tone tone = tones.get(at.tone());
    double half = Math.max(at.half(), ENVELOPE_CYCLES / at.frequency());
    boolean whole = tone.isSteady() && lasts;
    double from = whole ? settled(tone) : at.time() - half;
    double to = whole ? ends(tone) : at.time() + half;
    double out = outmost(at.tone(), at.time());
    return heard(sensor).bands.folded(at.band(), tone, from, to, out, parts);
  }

  /** Where in its cycle the cone is farthest out: half a cycle after the sound, as acceleration. */
  double outmost(int tone, double time) {
    Harmonics atCone = harmonics(Sensor.CONE, tone);
    return 0.5 - atCone.phase(atCone.near(time), 1) / (2 * Math.PI);
  }

  /** Share of what is left at a microphone about a moment that is the same some cycles later. */
  double repeats(Sensor sensor, Cell at) {
    Tone tone = tones.get(at.tone());
    double half = Math.max(at.half(), ENVELOPE_CYCLES / at.frequency());
    double reach = Repetition.reach(tone, at.time(), half);
    int from = Math.max(0, sample(at.time() - reach));
    int to = Math.min(take.length(), sample(at.time() + reach));
    return new Repetition(heard(sensor).left, take.rate(), from, to, at.band(), tone)
        .share(at.time(), half);
  }

  /** The voltage about a moment in the same band, over its own silence, dB. */
  Optional<Double> inVoltage(Cell at) {
    if (!take.channels().containsKey(Sensor.VOLTAGE)) {
      return Optional.empty();
    }
    Heard voltage = heard(Sensor.VOLTAGE);
    double power =
        voltage.bands.power(
            at.band(), sample(at.time() - at.half()), sample(at.time() + at.half()));
    double silent = Math.max(1e-30, voltage.background[at.band()]);
    return Optional.of(Math.max(0, 10 * Math.log10(power / silent + 1e-12)));
  }

  /** The highest that a sensor has while a steady tone stands; absent where there is no sensor. */
  Optional<Double> peak(Sensor sensor, Tone tone) {
    if (!take.channels().containsKey(sensor)) {
      return Optional.empty();
    }
    double[] x = take.channel(sensor);
    double out = 0;
    int last = Math.min(x.length, sample(ends(tone)));
    for (int i = Math.max(0, sample(settled(tone))); i < last; i++) {
      out = Math.max(out, Math.abs(x[i]));
    }
    return Optional.of(out);
  }

  /** The tone's own voltage about a moment, V rms. */
  Optional<Double> voltage(Cell at) {
    if (!take.channels().containsKey(Sensor.VOLTAGE)) {
      return Optional.empty();
    }
    Harmonics voltage = harmonics(Sensor.VOLTAGE, at.tone());
    return Optional.of(voltage.amplitude(voltage.near(at.time()), 1) / Math.sqrt(2));
  }

  /** What is left at a sensor, one number a sample; not to be changed. */
  double[] left(Sensor sensor) {
    return heard(sensor).left;
  }

  /** Moments while a tone stands or glides, each in its best band. */
  List<Cell> cells() {
    List<Cell> out = new ArrayList<>();
    for (int k = 0; k < tones.size(); k++) {
      Tone tone = tones.get(k);
      double time = settled(tone);
      while (true) {
        double half = Math.max(WINDOW, CYCLES / tone.frequency(time)) / 2;
        if (time + 2 * half > ends(tone)) {
          break;
        }
        out.add(cell(k, time + half, half));
        time += half;
      }
    }
    return out;
  }

  private Cell cell(int k, double time, double half) {
    double frequency = tones.get(k).frequency(time);
    Cell best = null;
    for (int b = 0; b < OctaveBands.count(take.rate()); b++) {
      if (isJudged(b, frequency) || b == OctaveBands.count(take.rate()) - 1) {
        Cell here = cell(k, time, half, b);
        if (best == null || here.margin() > best.margin()) {
          best = here;
        }
      }
    }
    return Objects.requireNonNull(best);
  }

  /** Whether ordinary distortion of a tone at a moment has fallen off below a band. */
  static boolean isJudged(int band, double frequency) {
    return OctaveBands.lowerEdge(band) >= CLEAR * orders(frequency) * frequency;
  }

  /** A moment in a band of one's choice. */
  Cell cell(int k, double time, double half, int band) {
    double[] levels = new double[microphones.size()];
    double[] margins = new double[microphones.size()];
    for (int m = 0; m < levels.length; m++) {
      Sensor s = microphones.get(m);
      double power = heard(s).bands.power(band, sample(time - half), sample(time + half));
      double silent = Math.max(QUIETEST, heard(s).background[band]);
      levels[m] = 10 * Math.log10(power / Math.pow(FrequencyWeighting.REFERENCE, 2) + 1e-12);
      margins[m] = 10 * Math.log10(power / silent + 1e-12);
    }
    Tone tone = tones.get(k);
    return new Cell(k, time, half, tone.frequency(time), tone.amplitude(), band, levels, margins);
  }

  /**
   * The cell that stands out most, believed as far as others of its tone say the same, so that one
   * tick is not enough: of a steady tone the middle one of all, of a sweep one with a moment half a
   * window before or after it.
   */
  Optional<Cell> strongest(List<Cell> cells) {
    Optional<Cell> out = Optional.empty();
    for (int k = 0; k < tones.size(); k++) {
      int tone = k;
      List<Cell> own = cells.stream().filter(c -> c.tone() == tone).toList();
      Optional<Cell> best = tones.get(k).isSteady() ? middle(own) : sustained(own);
      if (best.isPresent() && out.map(o -> o.margin() < best.get().margin()).orElse(true)) {
        out = best;
      }
    }
    return out;
  }

  /** The moment that stands out most, be it alone. */
  static Optional<Cell> loudest(List<Cell> cells) {
    return cells.stream().max(Comparator.comparingDouble(Cell::margin));
  }

  /**
   * Where a second cause would be looked for in a sweep: where nothing is in the voltage if the
   * strongest is in it, else what stands out most at least an octave off, or loudest at another
   * microphone by a clear difference.
   */
  Optional<Cell> elsewhere(List<Cell> cells, Cell strongest) {
    boolean electrical = inVoltage(strongest).orElse(0.0) > SECOND;
    Optional<Cell> mechanical =
        electrical
            ? second(cells, strongest, c -> inVoltage(c).orElse(0.0) < SILENT)
            : Optional.empty();
    return mechanical.or(() -> second(cells, strongest, c -> isElsewhere(c, strongest)));
  }

  private static Optional<Cell> second(List<Cell> cells, Cell strongest, Predicate<Cell> which) {
    return sustained(
            cells.stream()
                .filter(c -> c.tone() == strongest.tone())
                .map(c -> which.test(c) ? c : c.believed(0))
                .toList())
        .filter(c -> c.margin() >= SECOND);
  }

  private static boolean isElsewhere(Cell cell, Cell strongest) {
    double octaves = Math.abs(Math.log(cell.frequency() / strongest.frequency()) / Math.log(2));
    double[] levels = cell.levels();
    boolean other =
        cell.loudest() != strongest.loudest()
            && levels[cell.loudest()] - levels[strongest.loudest()] > OTHER;
    return octaves >= 1 || other;
  }

  private static Optional<Cell> middle(List<Cell> cells) {
    List<Cell> sorted = cells.stream().sorted(Comparator.comparingDouble(Cell::margin)).toList();
    return sorted.isEmpty() ? Optional.empty() : Optional.of(sorted.get(sorted.size() / 2));
  }

  private static Optional<Cell> sustained(List<Cell> cells) {
    double best = Double.NEGATIVE_INFINITY;
    Optional<Cell> out = Optional.empty();
    for (int i = 0; i + APART < cells.size(); i++) {
      // what begins with the sweep has no moment before it, but two after
      int other = i < APART ? Math.min(i + 2 * APART, cells.size() - 1) : i - APART;
      double here = cells.get(i).margin();
      double[] three = {cells.get(other).margin(), here, cells.get(i + APART).margin()};
      Arrays.sort(three);
      if (three[1] > best && here >= three[1]) {
        best = three[1];
        out = Optional.of(cells.get(i).believed(best));
      }
    }
    return out;
  }
}
