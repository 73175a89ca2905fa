package cutaway.acoustics.fault;

import cutaway.acoustics.meter.FrequencyWeighting;
import cutaway.acoustics.stimulus.Alignment;
import cutaway.acoustics.stimulus.Harmonics;
import cutaway.acoustics.stimulus.TestSignal;
import cutaway.acoustics.stimulus.Tone;
import cutaway.acoustics.stimulus.ToneGrid;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.DoublePredicate;

/**
 * What is left of a driven take once the tone and its low harmonics are taken out, in octave bands
 * above them, against the silence before and after.
 */
final class Residue implements Remainder {
  /** Orders reach to here, so that what is judged lies where ordinary distortion has fallen off. */
  private static final double REACH = 600;

  private static final int FEWEST = 5;
  private static final int MOST = 14;

  /** A band is judged that begins so far over the last order: both have some width. */
  private static final double CLEAR = 1.07;

  /** A loudspeaker that was just set going, or a hall that was just left, s. */
  static final double SETTLING = 0.35;

  private static final double EDGE = 0.05;

  /** Longer than this nobody listens into a sweep, to either side, s: the ear gathers so long. */
  static final double GATHERED = 0.1;

  /** Cycles to either side over which strikes are gathered. */
  private static final double ENVELOPE_CYCLES = 4;

  /** A moment must stand out so far for its arrival to be told, dB. */
  private static final double ARRIVES = 8;

  /** Microphones at one box hear it within this time of each other, s. */
  private static final double LATEST = 0.004;

  /** Nothing is softer, Pa². */
  private static final double QUIETEST = Math.pow(FrequencyWeighting.REFERENCE, 2) * 1e-3;

  /** A linear path explains a sound down to this share of its power, seldom further. */
  private static final double UNEXPLAINED = 0.01;

  private final NoiseTake take;
  private final List<Sensor> microphones;
  private final List<Tone> tones;
  private final Map<Sensor, Heard> heard = new EnumMap<>(Sensor.class);

  private Residue(NoiseTake take, List<Sensor> microphones, List<Tone> tones) {
    this.take = take;
    this.microphones = microphones;
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
        .map(tones -> new Residue(take, take.microphones(), tones).found());
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
    if (take.alignment().isPresent()) {
      return take.alignment();
    }
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
    double[] silence =
        Silence.of(
            split,
            tones.get(0).start(),
            tones.get(tones.size() - 1).end(),
            take.rate(),
            take.length() / take.rate());
    return new Heard(followed, left, split, silence, Optional.empty(), 0);
  }

  /**
   * The same without what the voltage explains: what reaches each microphone along a linear path. A
   * listener's is left out, where the room rings on for longer than a path is.
   *
   * @return absent where no microphone is left
   */
  Optional<Residue> besideVoltage() {
    return beside(Sensor.VOLTAGE, t -> true, false);
  }

  /**
   * The same at the other microphones without what the cone's explains. The path is learned more
   * than an octave off a moment of a sweep, lest what sounds there be taken for the cone's.
   */
  Optional<Residue> besideCone(Cell moment) {
    Tone tone = tones.get(moment.tone());
    return beside(
        Sensor.CONE,
        t -> Math.abs(Math.log(tone.frequency(t) / moment.frequency())) > Math.log(2),
        true);
  }

  /**
   * What comes along a linear path from a channel taken off.
   *
   * @param counts from which moments the path is learned
   * @param heardToo whether that channel hears what is looked for: then the path must be known
   */
  private Optional<Residue> beside(Sensor explaining, DoublePredicate counts, boolean heardToo) {
    List<Sensor> others =
        microphones.stream().filter(m -> m != explaining && m != Sensor.LISTENER).toList();
    if (others.isEmpty()) {
      return Optional.empty();
    }
    Residue out = new Residue(take, others, tones);
    out.heard.putAll(heard);
    double[] all = take.channel(explaining);
    double[] own = heard(explaining).left();
    List<Heard> found =
        others.parallelStream()
            .map(
                m -> {
                  LinearPath path =
                      new LinearPath(all, take.channel(m), take.rate(), LinearPath.SWEEP, counts);
                  return heard(m).without(path, own, heardToo, UNEXPLAINED, take.rate());
                })
            .toList();
    for (int i = 0; i < found.size(); i++) {
      out.heard.put(others.get(i), found.get(i));
    }
    return Optional.of(out);
  }

  private static int orders(double frequency) {
    return (int) Math.max(FEWEST, Math.min(MOST, Math.rint(REACH / frequency)));
  }

  private int sample(double time) {
    return (int) Math.rint(time * take.rate());
  }

  @Override
  public List<Sensor> microphones() {
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
    return heard(sensor).harmonics().get(tone);
  }

  /** How what is left at a microphone goes round with the cycle about a moment. */
  CycleEnvelope envelope(Sensor sensor, Cell at) {
    Tone tone = tones.get(at.tone());
    double room = Math.min(at.time() - tone.start(), tone.end() - EDGE - at.time());
    double half = Math.max(at.half(), ENVELOPE_CYCLES / at.frequency());
    return heard(sensor).bands().round(at.band(), tone, at.time(), Math.min(half, room));
  }

  @Override
  public int bands() {
    return OctaveBands.count(take.rate());
  }

  /** Whether a tone sounds at a time and the loudspeaker has settled to it. */
  private boolean isSettled(double time) {
    return tones.stream().anyMatch(t -> settled(t) <= time && time < ends(t));
  }

  static double settled(Tone tone) {
    return tone.start() + (tone.isSteady() ? SETTLING : 2 / tone.frequency());
  }

  /** Half a window of the harmonics before its end a tone is followed no further. */
  static double ends(Tone tone) {
    double half = tone.isSteady() ? 2 / tone.frequency() : 0;
    return tone.end() - Math.max(EDGE, half);
  }

  @Override
  public double begins() {
    return tones.get(0).start();
  }

  @Override
  public double ends() {
    return tones.get(tones.size() - 1).end();
  }

  @Override
  public boolean holds(Spot spot) {
    return spot.tone() < tones.size();
  }

  @Override
  public double time(Spot spot) {
    return tones.get(spot.tone()).start() + spot.since();
  }

  /** All of a tone that stands, if it lasts. */
  @Override
  public double[] gathered(Spot spot) {
    Tone tone = tones.get(spot.tone());
    double time = time(spot);
    double half = Math.max(spot.half(), GATHERED);
    boolean whole = tone.isSteady() && spot.lasts();
    double from = whole ? tone.start() + SETTLING : time - half;
    double to = whole ? tone.end() - EDGE : time + half;
    return new double[] {Math.max(tone.start(), from), Math.min(tone.end(), to)};
  }

  @Override
  public double frequency(double time) {
    return tones.stream()
        .filter(t -> t.start() <= time && time < t.end())
        .mapToDouble(t -> t.frequency(time))
        .findFirst()
        .orElse(0);
  }

  @Override
  public boolean isJudged(int band, double time) {
    return isSettled(time) && isJudgedBeside(band, frequency(time));
  }

  @Override
  public double[] cycle(Spot spot, int parts) {
    return microphones.contains(Sensor.CONE)
        ? folded(
            spot.sensor(),
            cell(spot.tone(), time(spot), spot.half(), OctaveBands.at(spot.band())),
            spot.lasts(),
            parts)
        : new double[0];
  }

  @Override
  public double over(Sensor sensor, int band, double from, double to) {
    Heard at = heard(sensor);
    if (!at.bands().holds(band)) {
      return Double.NaN;
    }
    double silent = at.silent(band, sample(from), sample(to));
    return 10
        * Math.log10(at.power(band, sample(from), sample(to)) / Math.max(QUIETEST, silent) + 1e-12);
  }

  /**
   * Power of what is left about a moment, in even parts of a cycle that begins with the cone
   * farthest out, over its mean.
   *
   * @param lasts whether all of a tone that stands is taken
   */
  private double[] folded(Sensor sensor, Cell at, boolean lasts, int parts) {
    Tone tone = tones.get(at.tone());
    double half = Math.max(at.half(), ENVELOPE_CYCLES / at.frequency());
    boolean whole = tone.isSteady() && lasts;
    double from = whole ? settled(tone) : at.time() - half;
    double to = whole ? ends(tone) : at.time() + half;
    double out = outmost(at.tone(), at.time());
    return heard(sensor).bands().folded(at.band(), tone, from, to, out, parts);
  }

  /** Where in its cycle the cone is farthest out: half a cycle after the sound, as acceleration. */
  double outmost(int tone, double time) {
    Harmonics atCone = harmonics(Sensor.CONE, tone);
    return 0.5 - atCone.phase(atCone.near(time), 1) / (2 * Math.PI);
  }

  /**
   * How far the cone moves at a moment, in any unit: near it sound goes with acceleration. Absent
   * without a microphone there.
   */
  Optional<Double> excursion(Cell at) {
    if (!hears(Sensor.CONE)) {
      return Optional.empty();
    }
    Harmonics atCone = harmonics(Sensor.CONE, at.tone());
    double pressure = atCone.amplitude(atCone.near(at.time()), 1);
    return Optional.of(pressure / (at.frequency() * at.frequency()));
  }

  /** Share of what is left at a microphone about a moment that is the same some cycles later. */
  double repeats(Sensor sensor, Cell at) {
    Tone tone = tones.get(at.tone());
    double half = Math.max(at.half(), ENVELOPE_CYCLES / at.frequency());
    double reach = Repetition.reach(tone, at.time(), half);
    int from = Math.max(0, sample(at.time() - reach));
    int to = Math.min(take.length(), sample(at.time() + reach));
    return new Repetition(heard(sensor).left(), take.rate(), from, to, at.band(), tone)
        .share(at.time(), half);
  }

  /** Another sensor about a moment in the same band, over its own silence, dB. */
  Optional<Double> over(Sensor sensor, Cell at) {
    return Optional.ofNullable(heard.get(sensor))
        .map(
            h -> {
              double power =
                  h.bands()
                      .power(
                          at.band(), sample(at.time() - at.half()), sample(at.time() + at.half()));
              double silent = Math.max(1e-30, h.background()[at.band()]);
              return Math.max(0, 10 * Math.log10(power / silent + 1e-12));
            });
  }

  /** Whether the take has a channel for it. */
  boolean hears(Sensor sensor) {
    return heard.containsKey(sensor);
  }

  /**
   * How much later the cone's microphone hears a moment than the one beside it that hears it best,
   * ms; absent where either does not hear it clearly.
   */
  Optional<Double> coneLater(Cell at) {
    int cone = microphones.indexOf(Sensor.CONE);
    if (cone < 0 || at.margins()[cone] < ARRIVES) {
      return Optional.empty();
    }
    int from = sample(at.time() - at.half());
    int to = sample(at.time() + at.half());
    OctaveBands bands = heard(Sensor.CONE).bands();
    return microphones.stream()
        .filter(m -> m != Sensor.CONE && m != Sensor.LISTENER)
        .max(Comparator.comparingDouble(m -> at.margins()[microphones.indexOf(m)]))
        .filter(m -> at.margins()[microphones.indexOf(m)] >= ARRIVES)
        .map(m -> 1e3 * heard(m).bands().later(bands, at.band(), from, to, LATEST));
  }

  /** How far what was explained at a microphone stands over what stays, dB. */
  Optional<Double> explained(Sensor microphone, Cell at) {
    Heard there = heard(microphone);
    int from = sample(at.time() - at.half());
    int to = sample(at.time() + at.half());
    double stays = Math.max(QUIETEST, there.power(at.band(), from, to));
    return there.explained(at.band(), from, to).map(e -> 10 * Math.log10(e / stays + 1e-12));
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

  @Override
  public double[] left(Sensor sensor) {
    return heard(sensor).left();
  }

  /** Whether ordinary distortion of a tone at a moment has fallen off below a band. */
  static boolean isJudgedBeside(int band, double frequency) {
    return OctaveBands.lowerEdge(band) >= CLEAR * orders(frequency) * frequency;
  }

  /** A moment in a band of one's choice. */
  Cell cell(int k, double time, double half, int band) {
    double[] levels = new double[microphones.size()];
    double[] margins = new double[microphones.size()];
    int from = sample(time - half);
    int to = sample(time + half);
    for (int m = 0; m < levels.length; m++) {
      Heard at = heard(microphones.get(m));
      double power = at.power(band, from, to);
      double silent = Math.max(QUIETEST, at.silent(band, from, to));
      levels[m] =
          at.bands().holds(band)
              ? 10 * Math.log10(power / Math.pow(FrequencyWeighting.REFERENCE, 2) + 1e-12)
              : Double.NEGATIVE_INFINITY;
      margins[m] = 10 * Math.log10(power / silent + 1e-12);
    }
    Tone tone = tones.get(k);
    return new Cell(k, time, half, tone.frequency(time), tone.amplitude(), band, levels, margins);
  }
}
