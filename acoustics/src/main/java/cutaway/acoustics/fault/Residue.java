package cutaway.acoustics.fault;

import cutaway.acoustics.stimulus.Harmonics;
import cutaway.acoustics.stimulus.Tone;
import cutaway.acoustics.stimulus.ToneGrid;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.IntStream;

/**
 * What is left of a driven take once the tone and its low harmonics are taken out, in octave bands
 * above them, against the silence before and after.
 */
final class Residue implements Remainder {
  /** Longer than this nobody listens into a sweep, to either side, s: the ear gathers so long. */
  static final double GATHERED = 0.1;

  /** Cycles to either side over which strikes are gathered. */
  private static final double ENVELOPE_CYCLES = 4;

  /** A moment must stand out so far for its arrival to be told, dB. */
  private static final double ARRIVES = 8;

  /** Microphones at one box hear it within this time of each other, s. */
  private static final double LATEST = 0.004;

  /** A linear path explains a sound down to this share of its power, seldom further. */
  private static final double UNEXPLAINED = 0.01;

  private final NoiseTake take;
  private final List<Sensor> microphones;
  private final TonesPlayed tones;
  private final Map<Sensor, Heard> heard = new EnumMap<>(Sensor.class);

  private Residue(NoiseTake take, List<Sensor> microphones, TonesPlayed tones) {
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
        .flatMap(s -> TonesPlayed.of(take, s))
        .map(tones -> new Residue(take, take.microphones(), tones).found());
  }

  private Residue found() {
    List<ToneGrid> grids =
        tones.all().stream().map(t -> new ToneGrid(t, take.rate(), take.length())).toList();
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
      followed.add(Harmonics.takeOut(left, grid, TonesPlayed::orders));
    }
    OctaveBands split = new OctaveBands(left, take.rate());
    double seconds = take.length() / take.rate();
    double[] silence = Silence.of(split, tones.begins(), tones.ends(), take.rate(), seconds);
    Quantisation.raise(silence, take.channel(sensor), take.rate());
    return new Heard(followed, left, split, silence, Optional.empty(), 0);
  }

  /**
   * The same without what the voltage explains: what reaches each microphone along a linear path. A
   * listener's is left out, where the room rings on for longer than a path is.
   *
   * @return absent where no microphone is left
   */
  Optional<Residue> besideVoltage() {
    return beside(Sensor.VOLTAGE, t -> 1, false);
  }

  /**
   * The same at the other microphones without what the cone's explains. The path is learned more
   * than an octave off a moment of a sweep, lest what sounds there be taken for the cone's.
   */
  Optional<Residue> besideCone(Cell moment) {
    Tone tone = tones.get(moment.tone());
    return beside(
        Sensor.CONE,
        t -> Math.abs(Math.log(tone.frequency(t) / moment.frequency())) > Math.log(2) ? 1 : 0,
        true);
  }

  /**
   * What comes along a linear path from a channel taken off.
   *
   * @param weight of a moment, s, when the path is learned
   * @param heardToo whether that channel hears what is looked for: then the path must be known
   */
  private Optional<Residue> beside(
      Sensor explaining, DoubleUnaryOperator weight, boolean heardToo) {
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
                      new LinearPath(all, take.channel(m), take.rate(), LinearPath.SWEEP, weight);
                  return heard(m).without(path, own, heardToo, UNEXPLAINED, take.rate());
                })
            .toList();
    for (int i = 0; i < found.size(); i++) {
      out.heard.put(others.get(i), found.get(i));
    }
    return Optional.of(out);
  }

  private int sample(double time) {
    return (int) Math.rint(time * take.rate());
  }

  @Override
  public List<Sensor> microphones() {
    return microphones;
  }

  List<Tone> tones() {
    return tones.all();
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
    double room = Math.min(at.time() - tone.start(), tone.end() - TonesPlayed.EDGE - at.time());
    double half = Math.max(at.half(), ENVELOPE_CYCLES / at.frequency());
    return heard(sensor).bands().round(at.band(), tone, at.time(), Math.min(half, room));
  }

  @Override
  public int bands() {
    return OctaveBands.count(take.rate());
  }

  @Override
  public double begins() {
    return tones.begins();
  }

  @Override
  public double ends() {
    return tones.ends();
  }

  @Override
  public boolean holds(Spot spot) {
    return spot.tone() < tones.all().size()
        && microphones.contains(spot.sensor())
        && sample(time(spot) + spot.half()) <= take.length();
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
    double from = whole ? tone.start() + TonesPlayed.SETTLING : time - half;
    double to = whole ? tone.end() - TonesPlayed.EDGE : time + half;
    return new double[] {Math.max(tone.start(), from), Math.min(tone.end(), to)};
  }

  @Override
  public double frequency(double time) {
    return tones.frequency(time);
  }

  @Override
  public boolean isJudged(int band, double time) {
    return tones.isSettled(time) && TonesPlayed.isJudged(band, tones.frequency(time));
  }

  @Override
  public double[] cycle(Spot spot, int parts) {
    return hears(Sensor.CONE)
        ? folded(
            spot.sensor(),
            cell(spot.tone(), time(spot), spot.half(), OctaveBands.at(spot.band())),
            spot.lasts(),
            parts)
        : new double[0];
  }

  @Override
  public double over(Sensor sensor, int band, double from, double to) {
    return heard(sensor).over(band, sample(from), sample(to));
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
    double from = whole ? TonesPlayed.settled(tone) : at.time() - half;
    double to = whole ? TonesPlayed.ends(tone) : at.time() + half;
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

  @Override
  public Optional<Spot> spot() {
    return new DrivenClues(take, this, UnitFacts.NONE, new ArrayList<>()).read(Optional.empty());
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
    double stays = Math.max(Heard.QUIETEST, there.power(at.band(), from, to));
    return there.explained(at.band(), from, to).map(e -> 10 * Math.log10(e / stays + 1e-12));
  }

  /** The highest that a sensor has while a steady tone stands; absent where there is no sensor. */
  Optional<Double> peak(Sensor sensor, Tone tone) {
    if (!take.channels().containsKey(sensor)) {
      return Optional.empty();
    }
    double[] x = take.channel(sensor);
    double out = 0;
    int last = Math.min(x.length, sample(TonesPlayed.ends(tone)));
    for (int i = Math.max(0, sample(TonesPlayed.settled(tone))); i < last; i++) {
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

  /** By the tone's own amplitude where it is highest: an amplifier may hold it down elsewhere. */
  @Override
  public Map<Sensor, Double> played(Spot spot) {
    Map<Sensor, Double> out = new EnumMap<>(Sensor.class);
    heard.forEach(
        (sensor, h) -> {
          Harmonics tone = h.harmonics().get(spot.tone());
          double highest =
              IntStream.range(0, tone.size())
                  .mapToDouble(k -> tone.amplitude(k, 1))
                  .max()
                  .orElse(0);
          out.put(sensor, 20 * Math.log10(highest + Remainder.NOTHING));
        });
    return out;
  }

  @Override
  public double[] left(Sensor sensor) {
    return heard(sensor).left();
  }

  /** A moment in a band of one's choice. */
  Cell cell(int k, double time, double half, int band) {
    double[] levels = new double[microphones.size()];
    double[] margins = new double[microphones.size()];
    int from = sample(time - half);
    int to = sample(time + half);
    for (int m = 0; m < levels.length; m++) {
      Heard at = heard(microphones.get(m));
      levels[m] = at.level(band, from, to);
      margins[m] = at.margin(band, from, to);
    }
    Tone tone = tones.get(k);
    return new Cell(k, time, half, tone.frequency(time), tone.amplitude(), band, levels, margins);
  }
}
