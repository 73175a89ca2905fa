package cutaway.acoustics.fault;

import cutaway.acoustics.signal.CrossSpectrum;
import cutaway.acoustics.signal.Fft;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jtransforms.fft.DoubleFFT_1D;

/**
 * What is left of a take in which music plays once all that comes along a linear path from the
 * music is taken out, in octave bands, against silence and a share of the music itself.
 */
final class MusicResidue implements Remainder {
  /** Bands from here up are judged: below lie low harmonics of the bass. */
  private static final int LOWEST = OctaveBands.at(500);

  /** Ordinary distortion lies under this share of the music's power in the same band; judgement. */
  private static final double ORDINARY = 1e-4;

  private static final double HALF = 0.03;

  /** Share of a channel that may be left for the take to be one of this music. */
  private static final double FOLLOWS = 0.5;

  /** Moments that must say the same or more, share of all: one tick is not enough. */
  private static final double OFTEN = 0.03;

  /** The cone moves far at these only, Hz. */
  private static final double SLOWEST = 12;

  private static final double FASTEST = 400;

  private final NoiseTake take;
  private final MusicPlayed music;
  private final List<Sensor> microphones;
  private final Map<Sensor, Heard> heard = new EnumMap<>(Sensor.class);

  private MusicResidue(NoiseTake take, MusicPlayed music) {
    this.take = take;
    this.music = music;
    this.microphones = take.microphones().stream().filter(Sensor::isNear).toList();
  }

  /**
   * Takes the music out of every channel.
   *
   * @return absent where the take is of something else, or no microphone is near the unit
   */
  static Optional<MusicResidue> of(NoiseTake take) {
    return take.signal()
        .filter(s -> s.tones().isEmpty() && take.microphones().stream().anyMatch(Sensor::isNear))
        .flatMap(s -> MusicPlayed.of(take, s))
        .map(m -> new MusicResidue(take, m).found())
        .filter(MusicResidue::isIt);
  }

  /** Whether some channel is mostly the music: chance alone explains a seventh of any other. */
  private boolean isIt() {
    int from = sample(begins());
    int to = sample(ends());
    return heard.entrySet().stream()
        .anyMatch(
            h ->
                power(h.getValue().left(), from, to)
                    < FOLLOWS * power(take.channel(h.getKey()), from, to));
  }

  private MusicResidue found() {
    List<Sensor> sensors =
        take.channels().keySet().stream()
            .filter(s -> microphones.contains(s) || s == Sensor.VOLTAGE || s == Sensor.SHAKING)
            .toList();
    List<Heard> all = sensors.parallelStream().map(this::hear).toList();
    for (int i = 0; i < sensors.size(); i++) {
      heard.put(sensors.get(i), all.get(i));
    }
    return this;
  }

  private Heard hear(Sensor sensor) {
    double[] x = take.channel(sensor);
    LinearPath path = LinearPath.refined(music.samples(), x, take.rate(), LinearPath.MUSIC);
    OctaveBands whole = new OctaveBands(x, take.rate());
    double seconds = take.length() / take.rate();
    double[] silence = Silence.of(whole, music.begins(), music.ends(), take.rate(), seconds);
    Quantisation.raise(silence, x, take.rate());
    return new Heard(List.of(), x, whole, silence, Optional.empty(), 0)
        .without(path, music.samples(), false, ORDINARY, take.rate());
  }

  @Override
  public Optional<Spot> spot() {
    return new MusicClues(take, this, new ArrayList<>()).read(Optional.empty());
  }

  @Override
  public List<Sensor> microphones() {
    return microphones;
  }

  /** Share by which the recording's clock runs faster than the player's. */
  double drift() {
    return music.drift();
  }

  @Override
  public int bands() {
    return OctaveBands.count(take.rate());
  }

  @Override
  public double begins() {
    return music.begins();
  }

  @Override
  public double ends() {
    return music.ends();
  }

  @Override
  public boolean holds(Spot spot) {
    return microphones.contains(spot.sensor())
        && time(spot) + spot.half() <= take.length() / take.rate();
  }

  @Override
  public double time(Spot spot) {
    return begins() + spot.since();
  }

  @Override
  public double[] gathered(Spot spot) {
    double half = Math.max(spot.half(), Residue.GATHERED);
    return new double[] {
      Math.max(begins(), time(spot) - half), Math.min(ends(), time(spot) + half)
    };
  }

  @Override
  public double frequency(double time) {
    return 0;
  }

  @Override
  public boolean isJudged(int band, double time) {
    return band >= LOWEST && begins() <= time && time < ends();
  }

  @Override
  public double over(Sensor microphone, int band, double from, double to) {
    return heard(microphone).over(band, sample(from), sample(to));
  }

  /** By all of the music. */
  @Override
  public Map<Sensor, Double> played(Spot spot) {
    Map<Sensor, Double> out = new EnumMap<>(Sensor.class);
    for (Sensor sensor : heard.keySet()) {
      double power = power(take.channel(sensor), sample(begins()), sample(ends()));
      out.put(sensor, 10 * Math.log10(2 * power + Math.pow(Remainder.NOTHING, 2)));
    }
    return out;
  }

  @Override
  public double[] left(Sensor sensor) {
    return heard(sensor).left();
  }

  /** Music has none. */
  @Override
  public double[] cycle(Spot spot, int parts) {
    return new double[0];
  }

  Heard heard(Sensor sensor) {
    Heard out = heard.get(sensor);
    if (out == null) {
      throw new IllegalArgumentException("the take has no channel for " + sensor);
    }
    return out;
  }

  boolean hears(Sensor sensor) {
    return heard.containsKey(sensor);
  }

  private int sample(double time) {
    return (int) Math.max(0, Math.min(take.length(), Math.rint(time * take.rate())));
  }

  /** All moments, each in the band in which it stands out most. */
  List<Cell> cells() {
    List<Cell> out = new ArrayList<>();
    for (double t = music.begins() + HALF; t + HALF < music.ends(); t += HALF) {
      Cell best = cell(t, HALF, LOWEST);
      for (int b = LOWEST + 1; b < bands(); b++) {
        Cell here = cell(t, HALF, b);
        best = here.margin() > best.margin() ? here : best;
      }
      out.add(best);
    }
    return out;
  }

  /** The one above which the loudest few lie; absent where the music is too short for that. */
  static Optional<Cell> strongest(List<Cell> cells) {
    List<Cell> sorted =
        cells.stream().sorted(Comparator.comparingDouble(Cell::margin).reversed()).toList();
    int few = (int) (OFTEN * sorted.size());
    return few < 2 ? Optional.empty() : Optional.of(sorted.get(few));
  }

  /** A moment in a band of one's choice. */
  Cell cell(double time, double half, int band) {
    int from = sample(time - half);
    int to = sample(time + half);
    double[] levels = new double[microphones.size()];
    double[] margins = new double[microphones.size()];
    for (int m = 0; m < levels.length; m++) {
      Heard at = heard(microphones.get(m));
      levels[m] = at.level(band, from, to);
      margins[m] = at.margin(band, from, to);
    }
    return new Cell(0, time, half, 0, 1, band, levels, margins);
  }

  /** The same moment and band of another sensor over its own silence and the music in it, dB. */
  Optional<Double> over(Sensor sensor, Cell at) {
    int from = sample(at.time() - at.half());
    int to = sample(at.time() + at.half());
    return Optional.ofNullable(heard.get(sensor))
        .map(h -> Math.max(0, h.margin(at.band(), from, to, 1e-30)));
  }

  /** Peakedness of the power of a band at a sensor about a moment; 2 for noise. */
  double peakedness(Sensor sensor, Cell at) {
    return heard(sensor)
        .bands()
        .peakedness(at.band(), sample(at.time() - at.half()), sample(at.time() + at.half()));
  }

  /** How far the voltage does not follow the music, its power against the whole, dB. */
  Optional<Double> unfollowed() {
    if (!hears(Sensor.VOLTAGE)) {
      return Optional.empty();
    }
    double[] whole = take.channel(Sensor.VOLTAGE);
    double[] left = left(Sensor.VOLTAGE);
    double all = 0;
    double not = 0;
    for (int i = sample(music.begins()); i < sample(music.ends()); i++) {
      all += whole[i] * whole[i];
      not += left[i] * left[i];
    }
    return Optional.of(10 * Math.log10((not + 1e-30) / (all + 1e-20)));
  }

  /**
   * How far the cone moves at moments, against the farthest of all, dB: near it, sound goes with
   * acceleration. Empty without a microphone there.
   */
  Optional<double[]> excursions(List<Cell> cells) {
    if (!hears(Sensor.CONE)) {
      return Optional.empty();
    }
    double[] moved = moved(take.channel(Sensor.CONE));
    double[] out =
        cells.stream()
            .mapToDouble(
                c -> power(moved, sample(c.time() - c.half()), sample(c.time() + c.half())))
            .toArray();
    double most = Arrays.stream(out).max().orElse(0);
    for (int i = 0; i < out.length; i++) {
      out[i] = 10 * Math.log10(out[i] / most + 1e-12);
    }
    return Optional.of(out);
  }

  private static double power(double[] x, int from, int to) {
    double sum = 0;
    for (int i = from; i < to; i++) {
      sum += x[i] * x[i];
    }
    return sum / Math.max(1, to - from);
  }

  /** Integrated twice, in any unit. */
  private double[] moved(double[] pressure) {
    int size = CrossSpectrum.roomyLength(pressure.length);
    double[] y = Arrays.copyOf(pressure, size);
    DoubleFFT_1D fft = Fft.of(size);
    fft.realForward(y);
    for (int k = 0; k < size / 2; k++) {
      double f = k * take.rate() / size;
      double g = f < SLOWEST || f > FASTEST ? 0 : 1 / (f * f);
      y[2 * k] *= g;
      y[2 * k + 1] *= k == 0 ? 0 : g;
    }
    fft.realInverse(y, true);
    return y;
  }
}
